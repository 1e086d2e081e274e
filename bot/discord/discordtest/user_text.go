package discordtest

import "fmt"

// Say writes a message and returns its id.
func (u *User) Say(channel, text string) (string, error) {
	return u.write(channel, text, nil)
}

// Reply writes a message that answers another one and pings its author.
func (u *User) Reply(message, text string) (string, error) {
	u.srv.mu.Lock()
	m, err := u.message(message)
	u.srv.mu.Unlock()
	if err != nil {
		return "", err
	}
	return u.write(m.Channel, text, m)
}

func (u *User) write(channel, text string, to *Message) (string, error) {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	ch, err := u.place(channel)
	if err != nil {
		return "", err
	}
	if ch.guild != nil && !s.permissions(u, ch).Has(SendMessages) {
		return "", fmt.Errorf("discordtest: %s may not write in %q", u.Name, channel)
	}
	m := &Message{ID: s.newID(), Channel: ch.ID, channel: ch, user: u, Author: u.ID, Content: text, Made: s.Now()}
	replied := ""
	if to != nil {
		m.kind, m.ReplyTo, replied = replyMessage, to.ID, to.Author
	}
	m.Pings = s.notifies(m, nil, replied)
	s.publish(m)
	return m.ID, nil
}

// Edit changes a message that the person wrote.
func (u *User) Edit(message, text string) error {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	m, err := u.message(message)
	if err != nil {
		return err
	}
	if m.user != u {
		return fmt.Errorf("discordtest: %s did not write message %s", u.Name, message)
	}
	m.Content, m.Edited = text, s.Now()
	m.Edits++
	m.Pings = s.notifies(m, nil, "")
	s.tell("MESSAGE_UPDATE", m)
	s.changed()
	return nil
}

// Delete removes a message: the person's own, or any for one who may manage
// messages.
func (u *User) Delete(message string) error {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	m, err := u.message(message)
	if err != nil {
		return err
	}
	if m.user != u && !s.permissions(u, m.channel).Has(ManageMessages) {
		return fmt.Errorf("discordtest: %s may not delete message %s", u.Name, message)
	}
	s.remove(m)
	return nil
}

// React sets a reaction of the person, and Unreact takes it back.
func (u *User) React(message, emoji string) error { return u.mark(message, emoji, u.srv.react) }

// Unreact takes a reaction of the person back.
func (u *User) Unreact(message, emoji string) error { return u.mark(message, emoji, u.srv.unreact) }

func (u *User) mark(message, emoji string, how func(*Message, *User, string)) error {
	u.srv.mu.Lock()
	defer u.srv.mu.Unlock()
	m, err := u.message(message)
	if err != nil {
		return err
	}
	how(m, u, emoji)
	return nil
}
