package discordtest

import (
	"encoding/json"
	"strconv"
)

// Permissions are the platform's permission bits. In JSON they are a number in a
// string. Source: the platform's reference, topics/permissions.
type Permissions uint64

// The permissions that matter to a bot in text channels.
const (
	Administrator   Permissions = 1 << 3
	ManageChannels  Permissions = 1 << 4
	ManageGuild     Permissions = 1 << 5
	AddReactions    Permissions = 1 << 6
	ViewChannel     Permissions = 1 << 10
	SendMessages    Permissions = 1 << 11
	ManageMessages  Permissions = 1 << 13
	EmbedLinks      Permissions = 1 << 14
	AttachFiles     Permissions = 1 << 15
	ReadHistory     Permissions = 1 << 16
	MentionEveryone Permissions = 1 << 17
	UseCommands     Permissions = 1 << 31
	SendInThreads   Permissions = 1 << 38
	allPermissions  Permissions = 1<<52 - 1
	everyoneDefault             = ViewChannel | SendMessages | EmbedLinks | AttachFiles | ReadHistory | AddReactions | UseCommands | SendInThreads
)

// MarshalJSON writes the bits as the platform does.
func (p Permissions) MarshalJSON() ([]byte, error) {
	return json.Marshal(strconv.FormatUint(uint64(p), 10))
}

// Has tells whether all of want are there.
func (p Permissions) Has(want Permissions) bool { return p&want == want }

// permissions are those of a person in a channel, after the reference's
// algorithm: owner and administrators have all; then the overwrites of everyone,
// of the roles together, of the person. The lock is held.
func (s *Server) permissions(u *User, c *Channel) Permissions {
	if c.guild == nil {
		return everyoneDefault
	}
	m := c.guild.members[u.ID]
	if m == nil {
		return 0
	}
	base := c.guild.permissions(m)
	if base.Has(Administrator) {
		return allPermissions
	}
	where := c
	if c.parent != nil {
		where = c.parent
	}
	p := where.overwritten(base, m)
	if !p.Has(ViewChannel) {
		return 0
	}
	if c.Kind == Thread {
		p &^= SendMessages
		if p.Has(SendInThreads) {
			p |= SendMessages
		}
	}
	return p
}

// permissions are those of a member in the whole guild. The lock is held.
func (g *Guild) permissions(m *member) Permissions {
	if m.user == g.owner {
		return allPermissions
	}
	p := g.roles[0].Permissions
	for _, r := range g.roles[1:] {
		if m.roles[r.ID] {
			p |= r.Permissions
		}
	}
	if p.Has(Administrator) {
		return allPermissions
	}
	return p
}

// overwritten applies a channel's overwrites to the rights of a member.
func (c *Channel) overwritten(p Permissions, m *member) Permissions {
	apply := func(o Overwrite) { p = p&^o.Deny | o.Allow }
	var roles Overwrite
	for _, o := range c.overwrites {
		switch {
		case o.ID == c.guild.ID:
			apply(o)
		case m.roles[o.ID]:
			roles.Allow |= o.Allow
			roles.Deny |= o.Deny
		}
	}
	apply(roles)
	for _, o := range c.overwrites {
		if o.ID == m.user.ID {
			apply(o)
		}
	}
	return p
}
