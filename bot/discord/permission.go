package discord

import (
	"net/url"
	"strconv"

	"github.com/bwmarrin/discordgo"
)

// rights are the platform's permission bits.
type rights uint64

const (
	administrator rights = discordgo.PermissionAdministrator
	manageGuild   rights = discordgo.PermissionManageGuild
	allRights     rights = 1<<62 - 1
)

// need is a right that the bot asks for, with the name that the platform's
// settings show.
type need struct {
	bit  rights
	name string
}

// needs are the rights without which some answer cannot be given, and no others.
var needs = []need{
	{discordgo.PermissionViewChannel, "View Channel"},
	{discordgo.PermissionSendMessages, "Send Messages"},
	{discordgo.PermissionEmbedLinks, "Embed Links"},
	{discordgo.PermissionAttachFiles, "Attach Files"},
	{discordgo.PermissionReadMessageHistory, "Read Message History"},
	{discordgo.PermissionAddReactions, "Add Reactions"},
	{discordgo.PermissionSendMessagesInThreads, "Send Messages in Threads"},
}

// Permissions is the sum of the rights that the bot asks for.
const Permissions = 274878024768

// parseRights reads bits, which the platform writes as a number in a string.
func parseRights(text string) rights {
	n, _ := strconv.ParseUint(text, 10, 64) // what is no number grants nothing
	return rights(n)
}

func (r rights) has(want rights) bool { return r&want == want }

// runsClub tells whether the rights in a server make a captain.
func (r rights) runsClub() bool { return r.has(administrator) || r.has(manageGuild) }

// inServer adds up what a member may do in the whole server. Source: the
// platform's reference, topics/permissions; the role of everyone has the server's
// number.
func (g *guild) inServer(person string, roles []string) rights {
	if person == g.Owner {
		return allRights
	}
	held := map[string]bool{g.ID: true}
	for _, id := range roles {
		held[id] = true
	}
	var sum rights
	for _, r := range g.Roles {
		if held[r.ID] {
			sum |= parseRights(r.Permissions)
		}
	}
	if sum.has(administrator) {
		return allRights
	}
	return sum
}

// inChannel applies a channel's overwrites, in the reference's order: everyone,
// the member's roles together, the member.
func (g *guild) inChannel(c channel, person string, roles []string) rights {
	r := g.inServer(person, roles)
	if r == allRights {
		return r
	}
	held := map[string]bool{}
	for _, id := range roles {
		held[id] = true
	}
	var allow, deny, ownAllow, ownDeny rights
	for _, o := range c.Overwrites {
		switch {
		case o.ID == g.ID:
			r = r&^parseRights(o.Deny) | parseRights(o.Allow)
		case o.Type == 0 && held[o.ID]:
			allow, deny = allow|parseRights(o.Allow), deny|parseRights(o.Deny)
		case o.ID == person:
			ownAllow, ownDeny = parseRights(o.Allow), parseRights(o.Deny)
		}
	}
	r = r&^deny | allow
	return r&^ownDeny | ownAllow
}

// InviteURL is the page on which somebody who manages a server lets the bot in,
// with the least rights it needs.
func InviteURL(appID string) string {
	q := url.Values{
		"client_id":   {appID},
		"permissions": {strconv.Itoa(Permissions)},
		"scope":       {"bot applications.commands"},
	}
	return DefaultAPI + "/oauth2/authorize?" + q.Encode()
}
