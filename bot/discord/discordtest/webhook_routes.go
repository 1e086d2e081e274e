package discordtest

import "slices"

// entitled finds the interaction whose token a call carries. The token lives 15
// minutes, and works only after the first answer.
func (s *Server) entitled(c *call) (*Action, *apiError) {
	a := s.acts[c.params["webhook_token"]]
	switch {
	case a == nil || c.params["webhook_id"] != s.app:
		return nil, errUnknownWebhook
	case s.Now().Sub(a.made) > tokenLife:
		return nil, errTokenExpired
	case a.callback == 0:
		return nil, errUnknownWebhook
	}
	return a, nil
}

// followUp posts one more message. The first one after a deferral still edits
// the original; the platform calls that deprecated.
func (s *Server) followUp(c *call) answer {
	a, err := s.entitled(c)
	if err != nil {
		return refused(err)
	}
	if a.original != nil && a.original.Flags&Loading != 0 {
		return s.change(c, a.original)
	}
	d, bad := readDraft(c.body, c.files)
	if bad == nil {
		bad = d.check(replyRules)
	}
	if bad != nil {
		return s.invalid(c, bad)
	}
	m, bad := s.respond(a, d, false)
	if bad != nil {
		return s.invalid(c, bad)
	}
	return done(s.messageJSON(m, true))
}

// followed finds a message of an interaction: the original or a follow-up.
func (s *Server) followed(c *call) (*Action, *Message, *apiError) {
	a, err := s.entitled(c)
	if err != nil {
		return nil, nil, err
	}
	id := c.params["message_id"]
	if id == "@original" {
		if a.original == nil || !slices.Contains(a.original.channel.messages, a.original) {
			return nil, nil, errUnknownMessage
		}
		return a, a.original, nil
	}
	i := slices.IndexFunc(a.messages, func(m *Message) bool { return m.ID == id && slices.Contains(m.channel.messages, m) })
	if i < 0 {
		return nil, nil, errUnknownMessage
	}
	return a, a.messages[i], nil
}

func (s *Server) getFollowUp(c *call) answer {
	_, m, err := s.followed(c)
	if err != nil {
		return refused(err)
	}
	return done(s.messageJSON(m, true))
}

func (s *Server) editFollowUp(c *call) answer {
	_, m, err := s.followed(c)
	if err != nil {
		return refused(err)
	}
	return s.change(c, m)
}

func (s *Server) deleteFollowUp(c *call) answer {
	_, m, err := s.followed(c)
	if err != nil {
		return refused(err)
	}
	s.remove(m)
	return nothing()
}
