package discordtest

import "slices"

// Join makes a person a member.
func (g *Guild) Join(u *User) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	g.join(u)
	s.changed()
}

func (g *Guild) join(u *User) {
	m := &member{user: u, roles: map[string]bool{}}
	g.members[u.ID] = m
	body := memberJSON(m)
	body["guild_id"] = g.ID
	g.srv.gateway.dispatch("GUILD_MEMBER_ADD", about{guild: g, need: MembersIntent}, body)
}

// Leave ends a membership.
func (g *Guild) Leave(u *User) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(g.members, u.ID)
	s.gateway.dispatch("GUILD_MEMBER_REMOVE", about{guild: g, need: MembersIntent}, object{"guild_id": g.ID, "user": userJSON(u)})
	s.changed()
}

// Grant gives a member a role, by its id; Revoke takes it back.
func (g *Guild) Grant(u *User, role string) { g.setRole(u, role, true) }

// Revoke takes a role from a member.
func (g *Guild) Revoke(u *User, role string) { g.setRole(u, role, false) }

func (g *Guild) setRole(u *User, role string, on bool) {
	g.alter(u, func(m *member) {
		delete(m.roles, role)
		if on {
			m.roles[role] = true
		}
	})
}

// Nick gives a member another name in this guild; the empty one takes it back.
func (g *Guild) Nick(u *User, nick string) { g.alter(u, func(m *member) { m.nick = nick }) }

// alter changes a member and tells the bot.
func (g *Guild) alter(u *User, how func(*member)) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	m := g.members[u.ID]
	if m == nil {
		return
	}
	how(m)
	body := memberJSON(m)
	body["guild_id"] = g.ID
	s.gateway.dispatch("GUILD_MEMBER_UPDATE", about{guild: g, need: MembersIntent}, body)
	s.changed()
}

// ChangeRole gives a role other rights.
func (g *Guild) ChangeRole(role string, p Permissions) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, r := range g.roles {
		if r.ID == role {
			r.Permissions = p
			s.gateway.dispatch("GUILD_ROLE_UPDATE", about{guild: g, need: GuildsIntent}, object{"guild_id": g.ID, "role": roleJSON(g, r)})
		}
	}
	s.changed()
}

// DeleteRole removes a role from the guild and from everyone.
func (g *Guild) DeleteRole(role string) {
	s := g.srv
	s.mu.Lock()
	defer s.mu.Unlock()
	g.roles = slices.DeleteFunc(g.roles, func(r *Role) bool { return r.ID == role })
	for _, m := range g.members {
		delete(m.roles, role)
	}
	s.gateway.dispatch("GUILD_ROLE_DELETE", about{guild: g, need: GuildsIntent}, object{"guild_id": g.ID, "role_id": role})
	s.changed()
}
