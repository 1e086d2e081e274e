package discordtest

import (
	"slices"
	"time"
)

// object is a JSON object.
type object = map[string]any

// stamp is how the platform writes a moment.
func stamp(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.000000+00:00") }

func userJSON(u *User) object {
	o := object{
		"id": u.ID, "username": u.Name, "global_name": u.Name, "discriminator": "0",
		"avatar": nil, "public_flags": 0, "flags": 0, "primary_guild": nil,
	}
	if u.bot {
		o["bot"] = true
		o["global_name"] = nil
	}
	return o
}

func roleIDs(m *member) []string {
	ids := []string{}
	for id := range m.roles {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

func memberJSON(m *member) object {
	var nick any
	if m.nick != "" {
		nick = m.nick
	}
	return object{
		"user": userJSON(m.user), "nick": nick, "avatar": nil, "banner": nil, "roles": roleIDs(m),
		"joined_at": stamp(TimeOf(m.user.ID)), "premium_since": nil, "deaf": false, "mute": false,
		"flags": 0, "pending": false, "communication_disabled_until": nil,
	}
}

func roleJSON(g *Guild, r *Role) object {
	o := object{
		"id": r.ID, "name": r.Name, "permissions": r.Permissions, "mentionable": r.Mentionable,
		"position": 0, "color": 0, "hoist": false, "managed": false, "icon": nil, "unicode_emoji": nil, "flags": 0,
		"colors": object{"primary_color": 0, "secondary_color": nil, "tertiary_color": nil},
	}
	for i, other := range g.roles {
		if other == r {
			o["position"] = i
		}
	}
	return o
}

func rolesJSON(g *Guild) []object {
	var roles []object
	for _, r := range g.roles {
		roles = append(roles, roleJSON(g, r))
	}
	return roles
}

// channelJSON is a channel as events and answers show it. The lock is held.
func (s *Server) channelJSON(c *Channel) object {
	o := object{"id": c.ID, "type": c.Kind, "flags": 0, "last_message_id": nil}
	if n := len(c.messages); n > 0 {
		o["last_message_id"] = c.messages[n-1].ID
	}
	if c.guild == nil {
		o["recipients"] = []object{userJSON(c.person)}
		return o
	}
	o["guild_id"], o["name"], o["position"] = c.guild.ID, c.Name, 0
	if c.Kind == Thread {
		o["parent_id"], o["owner_id"] = c.parent.ID, c.guild.owner.ID
		o["message_count"], o["member_count"], o["total_message_sent"] = len(c.messages), 1, len(c.messages)
		o["thread_metadata"] = object{"archived": c.archived, "locked": false, "auto_archive_duration": 1440,
			"archive_timestamp": stamp(TimeOf(c.ID)), "create_timestamp": stamp(TimeOf(c.ID))}
		return o
	}
	overwrites := []object{}
	for _, w := range c.overwrites {
		kind := 0
		if w.Person {
			kind = 1
		}
		overwrites = append(overwrites, object{"id": w.ID, "type": kind, "allow": w.Allow, "deny": w.Deny})
	}
	o["permission_overwrites"], o["parent_id"], o["nsfw"], o["topic"] = overwrites, nil, false, nil
	return o
}

// guildJSON is a guild as REST shows it.
func (s *Server) guildJSON(g *Guild) object {
	return object{
		"id": g.ID, "name": g.Name, "owner_id": g.owner.ID, "roles": rolesJSON(g), "emojis": []any{}, "stickers": []any{}, "features": []string{},
		"icon": nil, "description": nil, "home_header": nil, "splash": nil, "discovery_splash": nil, "banner": nil,
		"application_id": nil, "region": "deprecated", "afk_channel_id": nil, "afk_timeout": 300,
		"system_channel_id": nil, "system_channel_flags": 0, "widget_enabled": false, "widget_channel_id": nil,
		"verification_level": 0, "default_message_notifications": 1, "mfa_level": 0, "explicit_content_filter": 0,
		"max_presences": nil, "max_members": 500000, "max_stage_video_channel_users": 50, "max_video_channel_users": 25,
		"vanity_url_code": nil, "premium_tier": 0, "premium_subscription_count": 0, "preferred_locale": "en-US",
		"rules_channel_id": nil, "safety_alerts_channel_id": nil, "public_updates_channel_id": nil,
		"premium_progress_bar_enabled": false, "nsfw": false, "nsfw_level": 0, "incidents_data": nil,
	}
}

// guildEvent is a guild as GUILD_CREATE tells of it. Without the intent for
// presences the bot is the only member listed; source: events/gateway-events.
func (s *Server) guildEvent(g *Guild, intents Intents) object {
	o := s.guildJSON(g)
	channels, threads, members := []object{}, []object{}, []object{}
	for _, c := range g.channels {
		if c.Kind == Thread {
			threads = append(threads, s.channelJSON(c))
		} else {
			channels = append(channels, s.channelJSON(c))
		}
	}
	for _, u := range s.users {
		if m := g.members[u.ID]; m != nil && (u == s.bot || intents&PresencesIntent != 0) {
			members = append(members, memberJSON(m))
		}
	}
	o["channels"], o["threads"], o["members"] = channels, threads, members
	o["joined_at"], o["large"], o["unavailable"], o["member_count"] = stamp(TimeOf(g.ID)), false, false, len(g.members)
	o["presences"], o["voice_states"], o["stage_instances"] = []any{}, []any{}, []any{}
	return o
}

// tellGuild tells the bot of a guild that it can use from now on.
func (s *Server) tellGuild(g *Guild) {
	s.gateway.dispatchEach("GUILD_CREATE", about{guild: g, need: GuildsIntent}, func(i Intents) any { return s.guildEvent(g, i) })
}
