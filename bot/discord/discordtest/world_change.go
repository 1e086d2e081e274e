package discordtest

import "slices"

// Overwrite sets the rights of a role or a person in a channel. The id of the
// guild stands for everyone.
func (g *Guild) Overwrite(channel string, o Overwrite) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.find(channel)
	if c == nil {
		return
	}
	c.overwrites = slices.DeleteFunc(c.overwrites, func(old Overwrite) bool { return old.ID == o.ID })
	c.overwrites = append(c.overwrites, o)
	s.gateway.dispatch("CHANNEL_UPDATE", about{guild: g, need: GuildsIntent}, s.channelJSON(c))
	s.changed()
}

// Deny takes rights away from the bot in a channel.
func (s *Server) Deny(channel string, p Permissions) {
	s.guild.Overwrite(channel, Overwrite{ID: s.BotID(), Person: true, Deny: p})
}

// DeleteChannel removes a channel and what was said in it.
func (g *Guild) DeleteChannel(channel string) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	c := s.find(channel)
	if c == nil {
		return
	}
	delete(s.channels, c.ID)
	g.channels = slices.DeleteFunc(g.channels, func(other *Channel) bool { return other == c })
	event := "CHANNEL_DELETE"
	if c.Kind == Thread {
		event = "THREAD_DELETE"
	}
	s.gateway.dispatch(event, about{guild: g, need: GuildsIntent}, s.channelJSON(c))
	s.changed()
}

// Archive closes a thread: the bot can post there no more (50083).
func (g *Guild) Archive(thread string) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	if c := s.find(thread); c != nil {
		c.archived = true
		s.gateway.dispatch("THREAD_UPDATE", about{guild: g, need: GuildsIntent}, s.channelJSON(c))
		s.changed()
	}
}

// RemoveBot throws the bot out of the guild.
func (g *Guild) RemoveBot() {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	g.gone = true
	delete(g.members, s.bot.ID)
	s.gateway.dispatch("GUILD_DELETE", about{guild: g, need: GuildsIntent}, object{"id": g.ID})
	s.changed()
}

// LetIn lets a bot that was thrown out in again, with the rights it had at first.
func (g *Guild) LetIn() {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	if !g.gone {
		return
	}
	g.gone = false
	own := &Role{ID: s.newID(), Name: s.bot.Name, Permissions: s.opts.BotPermissions}
	g.roles = append(g.roles, own)
	g.members[s.bot.ID] = &member{user: s.bot, roles: map[string]bool{own.ID: true}}
	s.tellGuild(g)
	s.changed()
}

// Outage makes the guild unavailable and, with on false, available again. The
// bot stays a member throughout.
func (g *Guild) Outage(on bool) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	if on {
		s.gateway.dispatch("GUILD_DELETE", about{guild: g, need: GuildsIntent}, object{"id": g.ID, "unavailable": true})
	} else {
		s.tellGuild(g)
	}
	s.changed()
}

// Transfer makes a person the owner.
func (g *Guild) Transfer(u *User) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	g.owner = u
	s.gateway.dispatch("GUILD_UPDATE", about{guild: g, need: GuildsIntent}, s.guildJSON(g))
	s.changed()
}
