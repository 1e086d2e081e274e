package discordtest

import (
	"slices"
	"time"
)

func (s *Server) editMessage(c *call) answer {
	_, m, err := s.locate(c, 0)
	switch {
	case err != nil:
		return refused(err)
	case m.user != s.bot:
		return refused(errNotYours)
	case s.Now().Sub(m.Made) > time.Hour && m.Edits >= maxOldEdits:
		return refused(errOldEdits)
	}
	return s.change(c, m)
}

// maxOldEdits is how often a message older than an hour can be edited; the
// platform publishes that there is a limit, not the number (from memory).
const maxOldEdits = 30

// change edits a message of the bot by the body of a call.
func (s *Server) change(c *call, m *Message) answer {
	if bad := s.revise(m, c.body, c.files); bad != nil {
		return s.invalid(c, bad)
	}
	return done(s.shown(m))
}

// revise changes a message by a body, wholly or not at all.
func (s *Server) revise(m *Message, body []byte, files []Upload) *apiError {
	d, bad := readDraft(body, files)
	if bad == nil {
		bad = d.checkEdit(m)
	}
	if bad != nil {
		return bad
	}
	edited := m.copy()
	if bad := s.apply(&edited, d); bad != nil {
		return bad
	}
	if d.Flags != nil {
		edited.Flags = m.Flags&^SuppressEmbeds | *d.Flags
	}
	edited.Flags &^= Loading
	edited.Pings = s.notifies(&edited, d.AllowedMentions, "")
	edited.Edited = s.Now()
	edited.Edits++
	*m = edited
	s.tell("MESSAGE_UPDATE", m)
	s.changed()
	return nil
}

func (s *Server) deleteMessage(c *call) answer {
	_, m, err := s.locate(c, 0)
	if err == nil && m.user != s.bot {
		_, m, err = s.locate(c, ManageMessages)
	}
	if err != nil {
		return refused(err)
	}
	s.remove(m)
	return nothing()
}

// remove takes a message away and tells the bot. The lock is held.
func (s *Server) remove(m *Message) {
	ch := m.channel
	ch.messages = slices.DeleteFunc(ch.messages, func(other *Message) bool { return other == m })
	if m.OnlyFor == "" {
		body := object{"id": m.ID, "channel_id": ch.ID}
		if ch.guild != nil {
			body["guild_id"] = ch.guild.ID
		}
		s.gateway.dispatch("MESSAGE_DELETE", about{guild: ch.guild, channel: ch, need: messagesIntent(ch)}, body)
	}
	s.changed()
}
