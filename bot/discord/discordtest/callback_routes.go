package discordtest

import (
	"encoding/json"
	"fmt"
	"slices"
)

// callbackBody is the body of the first answer to an interaction.
type callbackBody struct {
	Type int             `json:"type"`
	Data json.RawMessage `json:"data"`
}

// suitable says which answers fit which interaction.
var suitable = map[int][]int{
	actCommand:   {4, 5, 9},
	actComponent: {4, 5, 6, 7, 9},
	actSuggest:   {8},
	actSubmit:    {4, 5, 6, 7},
}

// callback takes the first answer to an interaction.
func (s *Server) callback(c *call) answer {
	var body callbackBody
	if err := json.Unmarshal(c.body, &body); err != nil {
		return s.invalid(c, invalidBody(err.Error()))
	}
	a := s.acts[c.params["interaction_token"]]
	switch {
	case a == nil || a.ID != c.params["interaction_id"]:
		return refused(errUnknownAct)
	case a.callback != 0:
		return refused(errAcknowledged)
	case s.Now().Sub(a.made) > firstAnswer:
		return refused(errUnknownAct)
	case !slices.Contains(suitable[a.kind], body.Type):
		return s.invalid(c, invalidBody(fmt.Sprintf("type: an answer of type %d does not fit an interaction of type %d", body.Type, a.kind)))
	case a.source == nil && (body.Type == 6 || body.Type == 7):
		return s.invalid(c, invalidBody(fmt.Sprintf("type: %d needs a message to update", body.Type)))
	}
	if bad := s.take(c, a, body); bad != nil {
		return s.invalid(c, bad)
	}
	a.callback, a.answered = body.Type, s.Now()
	s.changed()
	if c.query.Get("with_response") != "true" {
		return nothing()
	}
	return done(s.callbackJSON(a))
}

// take does what an answer of each type means.
func (s *Server) take(c *call, a *Action, body callbackBody) *apiError {
	switch body.Type {
	case 4:
		return s.reply(c, a, body.Data, replyRules)
	case 5:
		return s.reply(c, a, body.Data, deferRules)
	case 6:
		a.original = a.source
		return nil
	case 7:
		return s.update(c, a, body.Data)
	case 8:
		return s.suggest(a, body.Data)
	}
	return s.show(a, body.Data)
}

// reply posts the first message of an answer, or the sign that one is coming.
func (s *Server) reply(c *call, a *Action, data json.RawMessage, r messageRules) *apiError {
	if len(data) == 0 || string(data) == "null" {
		if !r.empty {
			return errEmptyMessage
		}
		data = []byte("{}")
	}
	d, bad := readDraft(data, c.files)
	if bad == nil {
		bad = d.check(r)
	}
	if bad == nil && r.empty && !d.isEmpty() {
		bad = invalidBody("data: a deferred answer carries nothing but flags")
	}
	if bad != nil {
		return bad
	}
	m, bad := s.respond(a, d, r.empty)
	if bad != nil {
		return bad
	}
	a.original = m
	return nil
}

// respond posts a message in answer to an interaction.
func (s *Server) respond(a *Action, d *draft, loading bool) (*Message, *apiError) {
	m := &Message{ID: s.newID(), Channel: a.channel.ID, channel: a.channel, user: s.bot, Author: s.bot.ID, Bot: true,
		Made: s.Now(), act: a, Interaction: a.ID}
	if a.kind == actCommand {
		m.kind = commandMessage
	}
	if d.Flags != nil {
		m.Flags = *d.Flags
	}
	if m.Flags&Ephemeral != 0 {
		m.OnlyFor = a.user.ID
	}
	if loading {
		m.Flags |= Loading
	} else if bad := s.apply(m, d); bad != nil {
		return nil, bad
	}
	m.Pings = s.notifies(m, d.AllowedMentions, "")
	a.messages = append(a.messages, m)
	s.publish(m)
	return m, nil
}

// update changes the message whose button was pressed.
func (s *Server) update(c *call, a *Action, data json.RawMessage) *apiError {
	if len(data) == 0 {
		data = []byte("{}")
	}
	a.original = a.source
	return s.revise(a.source, data, c.files)
}

// suggest keeps the values that the bot offers.
func (s *Server) suggest(a *Action, data json.RawMessage) *apiError {
	var body struct {
		Choices []Choice `json:"choices"`
	}
	if err := json.Unmarshal(data, &body); err != nil {
		return invalidBody("data: " + err.Error())
	}
	var f faultsOf
	if len(body.Choices) > 25 {
		f.add("%d choices, at most 25 are allowed", len(body.Choices))
	}
	for _, choice := range body.Choices {
		f.short("choice name", choice.Name, 1, 100)
		if text, ok := choice.Value.(string); ok {
			f.long("choice value", text, 100)
		}
	}
	a.choices = body.Choices
	return f.err()
}

// show opens a form for the person.
func (s *Server) show(a *Action, data json.RawMessage) *apiError {
	var m modal
	if err := json.Unmarshal(data, &m); err != nil {
		return invalidBody("data: " + err.Error())
	}
	if bad := m.check(); len(bad) > 0 {
		return invalidBody(bad...)
	}
	a.form = &Form{ID: m.CustomID, Title: m.Title, Components: m.Components, from: a}
	return nil
}

// callbackJSON is what with_response=true gets.
func (s *Server) callbackJSON(a *Action) object {
	about := object{"id": a.ID, "type": a.kind}
	o := object{"interaction": about}
	if a.original != nil {
		about["response_message_id"] = a.original.ID
		about["response_message_loading"] = a.original.Flags&Loading != 0
		about["response_message_ephemeral"] = a.original.OnlyFor != ""
		o["resource"] = object{"type": a.callback, "message": s.messageJSON(a.original, true)}
	}
	return o
}
