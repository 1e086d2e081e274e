package discordtest

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Pings are those whom a message notified when it was posted.
type Pings struct {
	Everyone bool
	Users    []string // ids
	Roles    []string
	Silent   bool // posted with SUPPRESS_NOTIFICATIONS: shown, but without a push
}

// allowedMentions is allowed_mentions of a body.
type allowedMentions struct {
	Parse       *[]string `json:"parse"`
	Users       []string  `json:"users"`
	Roles       []string  `json:"roles"`
	RepliedUser bool      `json:"replied_user"`
}

var mention = regexp.MustCompile(`<@(!|&)?(\d+)>`)

// check finds contradictions. Source: resources/message, "Allowed Mentions Object".
func (a *allowedMentions) check() []string {
	if a == nil {
		return nil
	}
	var bad []string
	parse := a.parse()
	for _, what := range parse {
		if !slices.Contains([]string{"users", "roles", "everyone"}, what) {
			bad = append(bad, fmt.Sprintf("allowed_mentions.parse: %q is not roles, users or everyone", what))
		}
	}
	if len(a.Users) > 100 || len(a.Roles) > 100 {
		bad = append(bad, "allowed_mentions: at most 100 ids are allowed in a list")
	}
	if len(a.Users) > 0 && slices.Contains(parse, "users") || len(a.Roles) > 0 && slices.Contains(parse, "roles") {
		bad = append(bad, "allowed_mentions: ids and the same word in parse exclude each other")
	}
	return bad
}

func (a *allowedMentions) parse() []string {
	if a.Parse == nil {
		return nil
	}
	return *a.Parse
}

// notifies computes whom a text pings. Without allowed_mentions everything in a
// plain post pings, and users only in an answer to an interaction. A role needs
// to be mentionable, or the author the right to mention everyone.
func (s *Server) notifies(m *Message, a *allowedMentions, replied string) Pings {
	p := Pings{Silent: m.Flags&SuppressNotifications != 0}
	if a == nil {
		all := []string{"users", "roles", "everyone"}
		if m.act != nil {
			all = all[:1]
		}
		a = &allowedMentions{Parse: &all, RepliedUser: true}
	}
	parse := a.parse()
	big := s.permissions(m.user, m.channel).Has(MentionEveryone)
	p.Everyone = slices.Contains(parse, "everyone") && big && (strings.Contains(m.Content, "@everyone") || strings.Contains(m.Content, "@here"))
	for _, hit := range mention.FindAllStringSubmatch(m.Content, -1) {
		id := hit[2]
		switch {
		case hit[1] == "&":
			if allowed(parse, "roles", a.Roles, id) && m.channel.roleCanPing(id, big) && !slices.Contains(p.Roles, id) {
				p.Roles = append(p.Roles, id)
			}
		case allowed(parse, "users", a.Users, id) && !slices.Contains(p.Users, id):
			p.Users = append(p.Users, id)
		}
	}
	if replied != "" && a.RepliedUser && !slices.Contains(p.Users, replied) {
		p.Users = append(p.Users, replied)
	}
	return p
}

func allowed(parse []string, word string, ids []string, id string) bool {
	return slices.Contains(parse, word) || slices.Contains(ids, id)
}

func (c *Channel) roleCanPing(id string, big bool) bool {
	if c.guild == nil {
		return false
	}
	i := slices.IndexFunc(c.guild.roles, func(r *Role) bool { return r.ID == id })
	return i >= 0 && (big || c.guild.roles[i].Mentionable)
}
