package discordtest

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
)

// User is a person on the platform, and a handle to act as that person. The
// channel in its methods is a name, with "#" or not, or an id; the empty one is
// the direct conversation with the bot.
type User struct {
	ID, Name string
	srv      *Server
	bot      bool
	deaf     bool // takes no direct messages
	language string
	directs  *Channel
}

// User is the person of that name. One who was not there before joins the first
// guild.
func (s *Server) User(name string) *User {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, u := range s.users {
		if u.Name == name {
			return u
		}
	}
	u := s.person(name)
	s.guild.join(u)
	s.changed()
	return u
}

// OtherBot is another bot of that name, a member of the first guild.
func (s *Server) OtherBot(name string) *User {
	u := s.User(name)
	s.mu.Lock()
	defer s.mu.Unlock()
	u.bot = true
	return u
}

// Stranger is a person who shares no guild with the bot.
func (s *Server) Stranger(name string) *User {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.person(name)
}

// person finds or makes a person. The lock is held.
func (s *Server) person(name string) *User {
	for _, u := range s.users {
		if u.Name == name {
			return u
		}
	}
	u := &User{ID: s.newID(), Name: name, srv: s}
	s.users = append(s.users, u)
	return u
}

// CloseDirects makes the person refuse direct messages (50007), or take them.
func (u *User) CloseDirects(closed bool) {
	u.srv.mu.Lock()
	defer u.srv.mu.Unlock()
	u.deaf = closed
}

// Speak sets the locale of the person's client, such as "de".
func (u *User) Speak(locale string) {
	u.srv.mu.Lock()
	defer u.srv.mu.Unlock()
	u.language = locale
}

func (u *User) locale() string { return cmp.Or(u.language, "en-US") }

// Mention is how a text names the person so that it pings.
func (u *User) Mention() string { return "<@" + u.ID + ">" }

// place finds the channel that a person means. The lock is held.
func (u *User) place(channel string) (*Channel, error) {
	if channel == "" {
		return u.srv.direct(u), nil
	}
	ch := u.srv.find(channel)
	if ch == nil {
		return nil, fmt.Errorf("discordtest: there is no channel %q", channel)
	}
	if ch.guild != nil && !u.srv.permissions(u, ch).Has(ViewChannel) || ch.guild == nil && ch.person != u {
		return nil, fmt.Errorf("discordtest: %s does not see channel %q", u.Name, channel)
	}
	return ch, nil
}

// Sees are the messages that the person sees in a channel, oldest first: those
// of all and those for this person only.
func (u *User) Sees(channel string) []Message {
	u.srv.mu.Lock()
	defer u.srv.mu.Unlock()
	ch, err := u.place(channel)
	if err != nil {
		return nil
	}
	var list []Message
	for _, m := range ch.messages {
		if m.OnlyFor == "" || m.OnlyFor == u.ID {
			list = append(list, m.copy())
		}
	}
	return list
}

// Inbox are the messages that the bot wrote to the person directly.
func (u *User) Inbox() []Message {
	return slices.DeleteFunc(u.Sees(""), func(m Message) bool { return !m.Bot })
}

// AwaitMessage blocks until the person sees a message in the channel for which
// ok is true, and returns the newest such.
func (u *User) AwaitMessage(ctx context.Context, channel string, ok func(Message) bool) (Message, error) {
	var found Message
	err := u.srv.Until(ctx, func() bool {
		for _, m := range slices.Backward(u.Sees(channel)) {
			if ok(m) {
				found = m
				return true
			}
		}
		return false
	})
	if err != nil {
		return found, fmt.Errorf("%s sees no such message in %q, but %v: %w", u.Name, channel, u.Sees(channel), err)
	}
	return found, nil
}

// errUnseen is what touching a message ends with that is not there.
var errUnseen = errors.New("discordtest: the person sees no such message")

// message finds a message that the person sees. The lock is held.
func (u *User) message(id string) (*Message, error) {
	for _, ch := range u.srv.channels {
		if _, err := u.place(ch.ID); err != nil {
			continue
		}
		for _, m := range ch.messages {
			if m.ID == id && (m.OnlyFor == "" || m.OnlyFor == u.ID) {
				return m, nil
			}
		}
	}
	return nil, errUnseen
}
