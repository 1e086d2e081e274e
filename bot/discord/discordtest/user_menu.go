package discordtest

// CommandOnMessage uses a command of type 3 from the menu of a message.
func (u *User) CommandOnMessage(message, name string) *Action {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	m, err := u.message(message)
	if err != nil {
		return u.failed(err)
	}
	return u.fromMenu(m.channel, 3, name, m.ID, object{"messages": object{m.ID: s.messageJSON(m, true)}})
}

// CommandOnUser uses a command of type 2 from the menu of a person.
func (u *User) CommandOnUser(channel string, target *User, name string) *Action {
	s := u.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	ch, err := u.place(channel)
	if err != nil {
		return u.failed(err)
	}
	f := filling{u: u, channel: ch, resolved: object{}}
	if _, err := f.person(target); err != nil {
		return u.failed(err)
	}
	return u.fromMenu(ch, 2, name, target.ID, f.resolved)
}

// fromMenu begins the interaction of a menu. The lock is held.
func (u *User) fromMenu(ch *Channel, kind int, name, target string, resolved object) *Action {
	c, err := u.pick(ch, kind, name)
	if err != nil {
		return u.failed(err)
	}
	data := object{"id": c.ID, "name": c.Name, "type": kind, "target_id": target, "resolved": resolved}
	if c.Guild != "" {
		data["guild_id"] = c.Guild
	}
	a := u.srv.begin(u, ch, actCommand, data)
	u.srv.send(a)
	return a
}
