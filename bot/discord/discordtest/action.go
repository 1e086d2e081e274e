package discordtest

import (
	"encoding/base64"
	"fmt"
	"slices"
	"time"
)

// Kinds of interaction.
const (
	actCommand   = 2
	actComponent = 3
	actSuggest   = 4
	actSubmit    = 5
)

// Deadlines of an interaction. Source: interactions/receiving-and-responding.
const (
	firstAnswer = 3 * time.Second
	tokenLife   = 15 * time.Minute
)

// Action is something a person did that the bot must answer: a command, a press,
// a form, a value typed halfway.
type Action struct {
	ID string

	srv     *Server
	err     error // the person could not even do it
	kind    int
	token   string
	user    *User
	channel *Channel
	made    time.Time
	data    object
	source  *Message // whose button was pressed
	edits   int      // of the source, when it was pressed

	callback int // type of the first answer, 0 when there is none
	original *Message
	form     *Form
	choices  []Choice
	answered time.Time
	messages []*Message // the original and the follow-ups
}

// Form is a sheet that the bot shows in answer to an Action.
type Form struct {
	ID         string
	Title      string
	Components []Component
	from       *Action
}

// begin makes an interaction. The lock is held.
func (s *Server) begin(u *User, ch *Channel, kind int, data object) *Action {
	a := &Action{ID: s.newID(), srv: s, kind: kind, user: u, channel: ch, made: s.Now(), data: data}
	a.token = base64.RawURLEncoding.EncodeToString([]byte("interaction:" + a.ID + ":" + u.Name))
	s.acts[a.token] = a
	return a
}

// send tells the bot of an interaction. The lock is held.
func (s *Server) send(a *Action) {
	s.gateway.dispatch("INTERACTION_CREATE", about{guild: a.channel.guild, always: true}, a.event())
	s.changed()
}

// event is the payload of INTERACTION_CREATE.
func (a *Action) event() object {
	s, g := a.srv, a.channel.guild
	o := object{
		"id": a.ID, "application_id": s.app, "type": a.kind, "token": a.token, "version": 1, "data": a.data,
		"channel_id": a.channel.ID, "channel": s.channelJSON(a.channel), "locale": a.user.locale(), "entitlements": []any{},
		"authorizing_integration_owners": a.owners(), "attachment_size_limit": maxFile,
		"app_permissions": s.permissions(s.bot, a.channel),
	}
	if a.source != nil {
		o["message"] = s.messageJSON(a.source, true)
	}
	if g == nil {
		o["user"], o["context"] = userJSON(a.user), 1
		return o
	}
	m := memberJSON(g.members[a.user.ID])
	m["permissions"] = s.permissions(a.user, a.channel)
	o["member"], o["context"], o["guild_id"], o["guild_locale"] = m, 0, g.ID, "en-US"
	o["guild"] = object{"id": g.ID, "locale": "en-US", "features": []string{}}
	return o
}

func (a *Action) owners() object {
	if a.channel.guild == nil {
		return object{"0": "0"}
	}
	return object{"0": a.channel.guild.ID}
}

// commandName is the command with its subcommands.
func (a *Action) commandName() string {
	name := fmt.Sprint(a.data["name"])
	for options, _ := a.data["options"].([]object); len(options) > 0; options, _ = options[0]["options"].([]object) {
		if options[0]["type"] != SubCommand && options[0]["type"] != SubGroup {
			break
		}
		name += " " + fmt.Sprint(options[0]["name"])
	}
	return name
}

// Err says why the person could not do it: no such command or button, a value
// that the client refuses, no right. The bot learns nothing of such an action.
func (a *Action) Err() error { return a.err }

// Token is the secret with which the bot answers, for asserting that it stands
// in no log.
func (a *Action) Token() string { return a.token }

// Callback is the type of the bot's first answer (4 message, 5 deferred, 6
// deferred update, 7 update, 8 suggestions, 9 form), 0 while there is none.
func (a *Action) Callback() int {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	return a.callback
}

// Answered tells when the first answer came, by the simulated clock; the zero
// time while there is none.
func (a *Action) Answered() time.Time {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	return a.answered
}

// Repeat delivers the interaction to the bot once more, as the platform may.
func (a *Action) Repeat() {
	a.srv.mu.Lock()
	defer a.srv.mu.Unlock()
	if a.err == nil {
		a.srv.send(a)
	}
}

// copy is a snapshot for a test to keep.
func (m *Message) copy() Message {
	c := *m
	c.Embeds, c.Attachments, c.Reactions = slices.Clone(m.Embeds), slices.Clone(m.Attachments), slices.Clone(m.Reactions)
	return c
}
