package discordtest

import (
	"fmt"
	"slices"
	"time"
)

// nonce is a remembered nonce of a post.
type nonce struct {
	text    string
	channel string
	at      time.Time
	message *Message
}

// createMessage posts a message of the bot.
func (s *Server) createMessage(c *call) answer {
	d, bad := readDraft(c.body, c.files)
	if bad == nil {
		bad = d.check(postRules)
	}
	if bad != nil {
		return s.invalid(c, bad)
	}
	ch, err := s.reach(c, SendMessages)
	if err == nil {
		err = s.mayPost(ch, d)
	}
	if err != nil {
		return refused(err)
	}
	text := ""
	if d.Nonce != nil {
		text = idText(d.Nonce)
	}
	if earlier := s.sameNonce(ch, text); earlier != nil && d.EnforceNonce {
		return done(s.shown(earlier))
	}
	if d.Reference != nil && !ch.holds(d.Reference) {
		return refused(invalidBody("message_reference: unknown message")) // it may have been deleted: no fault of form
	}
	m, bad := s.compose(ch, d, text)
	if bad != nil {
		return s.invalid(c, bad)
	}
	if text != "" {
		s.nonces = append(s.nonces, nonce{text, ch.ID, s.Now(), m})
	}
	s.publish(m)
	return done(s.shown(m))
}

// mayPost checks what a post needs beyond the right to send.
func (s *Server) mayPost(ch *Channel, d *draft) *apiError {
	if ch.guild == nil {
		switch {
		case ch.person.deaf:
			return errClosedDirect
		case !s.mutual(ch.person):
			return errNoMutualGuild
		}
		return nil
	}
	p := s.permissions(s.bot, ch)
	switch {
	case ch.archived:
		return errArchived
	case len(d.files) > 0 && !p.Has(AttachFiles):
		return errMissingPermission
	case d.Reference != nil && !p.Has(ReadHistory):
		return errMissingPermission
	}
	return nil
}

// mutual tells whether the bot and a person share a guild.
func (s *Server) mutual(u *User) bool {
	return slices.ContainsFunc(s.guilds, func(g *Guild) bool { return !g.gone && g.members[u.ID] != nil })
}

// sameNonce finds an earlier post with the nonce, inside the window.
func (s *Server) sameNonce(ch *Channel, text string) *Message {
	s.nonces = slices.DeleteFunc(s.nonces, func(n nonce) bool { return s.Now().Sub(n.at) > s.opts.NonceWindow })
	for _, n := range s.nonces {
		if text != "" && n.text == text && n.channel == ch.ID {
			return n.message
		}
	}
	return nil
}

// holds tells whether the message that a reply names is there, or need not be.
func (ch *Channel) holds(r *reference) bool {
	return r.FailIfNotExists != nil && !*r.FailIfNotExists ||
		slices.ContainsFunc(ch.messages, func(m *Message) bool { return m.ID == r.MessageID && m.OnlyFor == "" })
}

// compose makes a message of the bot from a checked draft.
func (s *Server) compose(ch *Channel, d *draft, nonce string) (*Message, *apiError) {
	m := &Message{ID: s.newID(), Channel: ch.ID, channel: ch, user: s.bot, Author: s.bot.ID, Bot: true, Nonce: nonce, Made: s.Now()}
	if d.Flags != nil {
		m.Flags = *d.Flags
	}
	replied := ""
	if r := d.Reference; r != nil {
		i := slices.IndexFunc(ch.messages, func(other *Message) bool { return other.ID == r.MessageID && other.OnlyFor == "" })
		if i >= 0 {
			m.kind, m.ReplyTo, replied = replyMessage, r.MessageID, ch.messages[i].Author
		}
	}
	if err := s.apply(m, d); err != nil {
		return nil, err
	}
	m.Pings = s.notifies(m, d.AllowedMentions, replied)
	if ch.guild != nil && !s.permissions(s.bot, ch).Has(EmbedLinks) {
		m.Embeds = nil // the platform drops them without a word
	}
	return m, nil
}

// publish puts a message into its channel and tells the bot. The lock is held.
func (s *Server) publish(m *Message) {
	m.channel.messages = append(m.channel.messages, m)
	s.tell("MESSAGE_CREATE", m)
	s.changed()
}

// tell sends an event about a message that everybody in the channel sees.
func (s *Server) tell(event string, m *Message) {
	if m.OnlyFor != "" {
		return
	}
	s.gateway.dispatchEach(event, about{guild: m.channel.guild, channel: m.channel, need: messagesIntent(m.channel)}, func(i Intents) any {
		return s.eventJSON(m, i)
	})
}

// String shows a message in a test's output.
func (m Message) String() string {
	return fmt.Sprintf("message %s in %s by %s: %q, %d embeds, %d files, %d rows", m.ID, m.Channel, m.Author, m.Content, len(m.Embeds), len(m.Attachments), len(m.Components))
}
