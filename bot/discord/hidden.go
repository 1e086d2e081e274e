package discord

import (
	"context"
	"fmt"
	"strings"

	"github.com/bwmarrin/discordgo"
)

// Readers tells, in words, which ordinary members can read a channel of the bot's
// server: everybody, or who holds a role that does not run the club. It is empty
// where only captains and single members named in the channel's settings can.
// What is not known, such as a channel that does not exist, counts as readable.
func (a *Adapter) Readers(channel string) string {
	id, ok := a.known.find(channel)
	g := a.known.server()
	if !ok || g == nil {
		return "nobody knows whom: there is no such channel in the server, or I cannot see it"
	}
	c, ok := a.known.channel(id)
	if !ok {
		return "nobody knows whom: I cannot see that channel"
	}
	if g.inChannel(c, "", nil).has(discordgo.PermissionViewChannel) {
		return "everybody"
	}
	captains := a.captainsRole()
	var names []string
	for _, r := range g.Roles {
		alone := []string{r.ID}
		if r.ID == g.ID || r.Managed || g.inServer("", alone).runsClub() || captains != "" && a.known.holds(alone, captains) {
			continue
		}
		if g.inChannel(c, "", alone).has(discordgo.PermissionViewChannel) {
			names = append(names, r.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("members with the role %s", strings.Join(names, ", "))
}

// captainsRole is the role that makes a captain; empty where none is set or it
// cannot be looked up, and then no role is trusted for it.
func (a *Adapter) captainsRole() string {
	if a.CaptainRole == nil {
		return ""
	}
	role, err := a.CaptainRole(context.Background())
	if err != nil {
		return ""
	}
	return role
}
