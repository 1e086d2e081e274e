package discordtest

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// putReaction sets the bot's reaction; the first of an emoji needs the right to
// add reactions.
func (s *Server) putReaction(c *call) answer {
	ch, m, err := s.locate(c, ReadHistory)
	if err != nil {
		return refused(err)
	}
	emoji := c.params["emoji_name"]
	if !plausibleEmoji(emoji) {
		return refused(errUnknownEmoji)
	}
	i := m.reaction(emoji)
	switch {
	case i < 0 && ch.guild != nil && !s.permissions(s.bot, ch).Has(AddReactions):
		return refused(errMissingPermission)
	case i < 0 && len(m.Reactions) >= 20:
		return refused(errTooManyReactions)
	}
	s.react(m, s.bot, emoji)
	return nothing()
}

// plausibleEmoji tells an emoji from words: no letters, or name:id.
func plausibleEmoji(text string) bool {
	if name, id, custom := strings.Cut(text, ":"); custom {
		return name != "" && isID(id)
	}
	r, _ := utf8.DecodeRuneInString(text)
	return r >= 0x80 || strings.HasSuffix(text, "\u20e3")
}

func (m *Message) reaction(emoji string) int {
	return slices.IndexFunc(m.Reactions, func(r Reaction) bool { return r.Emoji == emoji })
}

// react adds a reaction and tells the bot. The lock is held.
func (s *Server) react(m *Message, u *User, emoji string) {
	i := m.reaction(emoji)
	if i < 0 {
		m.Reactions = append(m.Reactions, Reaction{Emoji: emoji})
		i = len(m.Reactions) - 1
	}
	if slices.Contains(m.Reactions[i].By, u.ID) {
		return
	}
	m.Reactions[i].By = append(slices.Clone(m.Reactions[i].By), u.ID)
	s.tellReaction("MESSAGE_REACTION_ADD", m, u, emoji)
}

// unreact takes a reaction away and tells the bot. The lock is held.
func (s *Server) unreact(m *Message, u *User, emoji string) {
	i := m.reaction(emoji)
	if i < 0 || !slices.Contains(m.Reactions[i].By, u.ID) {
		return
	}
	left := slices.DeleteFunc(slices.Clone(m.Reactions[i].By), func(id string) bool { return id == u.ID })
	m.Reactions = slices.Clone(m.Reactions)
	if m.Reactions[i].By = left; len(left) == 0 {
		m.Reactions = slices.Delete(m.Reactions, i, i+1)
	}
	s.tellReaction("MESSAGE_REACTION_REMOVE", m, u, emoji)
}

func (s *Server) tellReaction(event string, m *Message, u *User, emoji string) {
	body := object{"user_id": u.ID, "channel_id": m.Channel, "message_id": m.ID, "emoji": object{"id": nil, "name": emoji},
		"burst": false, "type": 0, "message_author_id": m.Author}
	need := DirectReactionsIntent
	if g := m.channel.guild; g != nil {
		body["guild_id"] = g.ID
		need = GuildReactionsIntent
	}
	s.gateway.dispatch(event, about{guild: m.channel.guild, channel: m.channel, need: need}, body)
	s.changed()
}

// listReactions answers who set an emoji.
func (s *Server) listReactions(c *call) answer {
	_, m, err := s.locate(c, ReadHistory)
	if err != nil {
		return refused(err)
	}
	list := []object{}
	if i := m.reaction(c.params["emoji_name"]); i >= 0 {
		for _, u := range s.users {
			if slices.Contains(m.Reactions[i].By, u.ID) {
				list = append(list, userJSON(u))
			}
		}
	}
	return done(list)
}

func (s *Server) deleteOwnReaction(c *call) answer {
	c.params["user_id"] = s.bot.ID
	return s.deleteReaction(c)
}

func (s *Server) deleteReaction(c *call) answer {
	want := Permissions(0)
	if c.params["user_id"] != s.bot.ID {
		want = ManageMessages
	}
	_, m, err := s.locate(c, want)
	if err != nil {
		return refused(err)
	}
	i := slices.IndexFunc(s.users, func(u *User) bool { return u.ID == c.params["user_id"] })
	if i < 0 {
		return refused(errUnknownUser)
	}
	s.unreact(m, s.users[i], c.params["emoji_name"])
	return nothing()
}
