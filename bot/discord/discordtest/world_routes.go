package discordtest

import (
	"slices"
	"strconv"
)

func (s *Server) getGateway(*call) answer { return done(object{"url": s.GatewayURL()}) }

func (s *Server) getGatewayBot(*call) answer {
	remaining, reset := s.gateway.budget(s.Now())
	return done(object{"url": s.GatewayURL(), "shards": 1, "session_start_limit": object{
		"total": identifiesPerDay, "remaining": remaining, "reset_after": reset.Milliseconds(), "max_concurrency": 1,
	}})
}

func (s *Server) getMe(*call) answer {
	o := userJSON(s.bot)
	o["mfa_enabled"], o["locale"], o["verified"] = true, "en-US", true
	return done(o)
}

func (s *Server) getUser(c *call) answer {
	i := slices.IndexFunc(s.users, func(u *User) bool { return u.ID == c.params["user_id"] })
	if i < 0 {
		return refused(errUnknownUser)
	}
	return done(userJSON(s.users[i]))
}

func (s *Server) getMyGuilds(*call) answer {
	list := []object{}
	for _, g := range s.guilds {
		if m := g.members[s.bot.ID]; m != nil {
			list = append(list, object{"id": g.ID, "name": g.Name, "icon": nil, "banner": nil, "owner": false, "permissions": g.permissions(m), "features": []string{}})
		}
	}
	return done(list)
}

// appFlags are the application's flags that tell which privileged intents it may
// ask for; the limited forms stand for an application below the size at which
// review begins. Source: resources/application, "Application Flags".
func (s *Server) appFlags() int {
	flags := 0
	for intent, flag := range map[Intents]int{PresencesIntent: 1 << 13, MembersIntent: 1 << 15, MessageContentIntent: 1 << 19} {
		if s.opts.Disallowed&intent == 0 {
			flags |= flag
		}
	}
	return flags
}

func (s *Server) getApplication(*call) answer {
	return done(object{
		"id": s.app, "name": s.bot.Name, "icon": nil, "description": "", "type": nil, "verify_key": "00",
		"flags": s.appFlags(), "flags_new": strconv.Itoa(s.appFlags()), "redirect_uris": []string{}, "interactions_endpoint_url": nil,
		"role_connections_verification_url": nil, "owner": userJSON(s.guild.owner), "approximate_guild_count": len(s.guilds),
		"approximate_user_install_count": 0, "approximate_user_authorization_count": 0, "explicit_content_filter": 0,
		"team": nil, "eligible_oauth2_scopes": []string{}, "bot": userJSON(s.bot), "bot_public": false,
	})
}

// myGuild finds a guild of a call, if the bot is in it.
func (s *Server) myGuild(c *call) (*Guild, *apiError) {
	i := slices.IndexFunc(s.guilds, func(g *Guild) bool { return g.ID == c.params["guild_id"] })
	switch {
	case i < 0:
		return nil, errUnknownGuild
	case s.guilds[i].members[s.bot.ID] == nil:
		return nil, errMissingAccess
	}
	return s.guilds[i], nil
}

func (s *Server) getGuild(c *call) answer {
	g, err := s.myGuild(c)
	if err != nil {
		return refused(err)
	}
	return done(s.guildJSON(g))
}

func (s *Server) getGuildChannels(c *call) answer {
	g, err := s.myGuild(c)
	if err != nil {
		return refused(err)
	}
	list := []object{}
	for _, ch := range g.channels {
		if ch.Kind != Thread {
			list = append(list, s.channelJSON(ch))
		}
	}
	return done(list)
}

func (s *Server) getGuildRoles(c *call) answer {
	g, err := s.myGuild(c)
	if err != nil {
		return refused(err)
	}
	return done(rolesJSON(g))
}

func (s *Server) getGuildMember(c *call) answer {
	g, err := s.myGuild(c)
	if err != nil {
		return refused(err)
	}
	m := g.members[c.params["user_id"]]
	if m == nil {
		return refused(errUnknownMember)
	}
	return done(memberJSON(m))
}
