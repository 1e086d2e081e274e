package discordtest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
)

// reach finds a channel of a call and checks that the bot may do what it wants.
func (s *Server) reach(c *call, want Permissions) (*Channel, *apiError) {
	ch := s.channels[c.params["channel_id"]]
	if ch == nil {
		return nil, errUnknownChannel
	}
	if ch.guild == nil {
		return ch, nil
	}
	p := s.permissions(s.bot, ch)
	switch {
	case !p.Has(ViewChannel):
		return nil, errMissingAccess
	case !p.Has(want):
		return nil, errMissingPermission
	}
	return ch, nil
}

// locate finds the message of a call, among those that the bot can see by its
// channel: never an ephemeral one.
func (s *Server) locate(c *call, want Permissions) (*Channel, *Message, *apiError) {
	ch, err := s.reach(c, want)
	if err != nil {
		return nil, nil, err
	}
	i := slices.IndexFunc(ch.messages, func(m *Message) bool { return m.ID == c.params["message_id"] && m.OnlyFor == "" })
	if i < 0 {
		return nil, nil, errUnknownMessage
	}
	return ch, ch.messages[i], nil
}

func (s *Server) getChannel(c *call) answer {
	ch, err := s.reach(c, 0)
	if err != nil {
		return refused(err)
	}
	return done(s.channelJSON(ch))
}

func (s *Server) startTyping(c *call) answer {
	if _, err := s.reach(c, SendMessages); err != nil {
		return refused(err)
	}
	return nothing()
}

func (s *Server) getMessage(c *call) answer {
	_, m, err := s.locate(c, ReadHistory)
	if err != nil {
		return refused(err)
	}
	return done(s.shown(m))
}

// listMessages answers newest first. before, after and around exclude each
// other; limit is 1 to 100, 50 by default.
func (s *Server) listMessages(c *call) answer {
	limit := 50
	if text := c.query.Get("limit"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > 100 {
			return s.invalid(c, invalidBody(fmt.Sprintf("limit %q is not 1 to 100", text)))
		}
		limit = n
	}
	ch, bad := s.reach(c, 0)
	if bad != nil {
		return refused(bad)
	}
	var all []*Message
	if s.permissions(s.bot, ch).Has(ReadHistory) { // without it the list is empty
		for _, m := range ch.messages {
			if m.OnlyFor == "" {
				all = append(all, m)
			}
		}
	}
	list := []object{}
	for _, m := range slices.Backward(page(all, c, limit)) {
		list = append(list, s.shown(m))
	}
	return done(list)
}

// page cuts the part of a list, oldest first, that a query asks for.
func page(all []*Message, c *call, limit int) []*Message {
	place := func(id string) int {
		n, _ := slices.BinarySearchFunc(all, id, func(m *Message, id string) int { return compareIDs(m.ID, id) })
		return n
	}
	from, to := max(len(all)-limit, 0), len(all)
	switch q := c.query; {
	case q.Has("around"):
		n := place(q.Get("around"))
		from = max(n-limit/2, 0)
		to = min(from+limit, len(all))
	case q.Has("before"):
		to = place(q.Get("before"))
		from = max(to-limit, 0)
	case q.Has("after"):
		id := q.Get("after")
		from = place(id)
		if from < len(all) && all[from].ID == id {
			from++
		}
		to = min(from+limit, len(all))
	}
	return all[from:to]
}

// openDirect opens the direct conversation with a person, or finds it.
func (s *Server) openDirect(c *call) answer {
	var body struct {
		RecipientID any `json:"recipient_id"`
	}
	if err := json.Unmarshal(c.body, &body); err != nil {
		return s.invalid(c, invalidBody(err.Error()))
	}
	id := idText(body.RecipientID)
	i := slices.IndexFunc(s.users, func(u *User) bool { return u.ID == id })
	if i < 0 {
		return refused(invalidBody("recipient_id: the value is not a known user"))
	}
	return done(s.channelJSON(s.direct(s.users[i])))
}

// direct is the direct conversation with a person. The lock is held.
func (s *Server) direct(u *User) *Channel {
	if u.directs == nil {
		u.directs = &Channel{ID: s.newID(), Kind: DirectChannel, person: u}
		s.channels[u.directs.ID] = u.directs
	}
	return u.directs
}
