package discordtest

import (
	"slices"
	"strings"
	"time"
)

// ChannelKind is the platform's number for a type of channel.
type ChannelKind int

// The kinds of channel that the emulator knows.
const (
	TextChannel   ChannelKind = 0
	DirectChannel ChannelKind = 1
	Thread        ChannelKind = 11
)

// Overwrite changes the rights of one role or person in one channel. ID is that
// of the role or the person; the guild's own id stands for everyone.
type Overwrite struct {
	ID          string
	Person      bool
	Allow, Deny Permissions
}

// Channel is a place for messages.
type Channel struct {
	ID, Name   string
	Kind       ChannelKind
	guild      *Guild // nil for direct messages
	parent     *Channel
	overwrites []Overwrite
	archived   bool
	person     *User // the other side of direct messages
	messages   []*Message
}

// Role is a set of rights with a name.
type Role struct {
	ID, Name    string
	Permissions Permissions
	Mentionable bool
}

// member is a person in a guild.
type member struct {
	user  *User
	nick  string
	roles map[string]bool
}

// Guild is one community, and a handle to change it.
type Guild struct {
	ID, Name string
	srv      *Server
	owner    *User
	roles    []*Role // the first is everyone's
	members  map[string]*member
	channels []*Channel
	gone     bool // the bot was removed
}

// populate makes the first world: one guild with the channels training-log and
// announcements, owned by "cap", and the bot in it.
func (s *Server) populate() {
	s.channels = map[string]*Channel{}
	s.files = map[string]Upload{}
	s.acts = map[string]*Action{}
	s.creates = map[string][]time.Time{}
	s.app = s.newID()
	s.bot = &User{ID: s.app, Name: "emulated-bot", srv: s, bot: true}
	s.users = append(s.users, s.bot)
	s.guild = s.addGuild("Harbour Lifting Club")
	s.guild.addChannel("training-log", TextChannel)
	s.guild.addChannel("announcements", TextChannel)
}

// Guild is the first guild.
func (s *Server) Guild() *Guild { return s.guild }

// AddGuild adds the bot to one more guild, owned by "cap".
func (s *Server) AddGuild(name string) *Guild {
	s.mu.Lock()
	defer s.mu.Unlock()
	g := s.addGuild(name)
	s.tellGuild(g)
	s.changed()
	return g
}

func (s *Server) addGuild(name string) *Guild {
	g := &Guild{ID: s.newID(), Name: name, srv: s, members: map[string]*member{}}
	g.roles = []*Role{{ID: g.ID, Name: "@everyone", Permissions: everyoneDefault}}
	own := &Role{ID: s.newID(), Name: s.bot.Name, Permissions: s.opts.BotPermissions}
	g.roles = append(g.roles, own)
	g.owner = s.person("cap")
	g.members[g.owner.ID] = &member{user: g.owner, roles: map[string]bool{}}
	g.members[s.bot.ID] = &member{user: s.bot, roles: map[string]bool{own.ID: true}}
	s.guilds = append(s.guilds, g)
	return g
}

// AddChannel adds a text channel and returns its id.
func (g *Guild) AddChannel(name string) string {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	c := g.addChannel(strings.TrimPrefix(name, "#"), TextChannel)
	g.srv.gateway.dispatch("CHANNEL_CREATE", about{guild: g, need: GuildsIntent}, g.srv.channelJSON(c))
	g.srv.changed()
	return c.ID
}

// AddThread opens a public thread under a channel and returns its id.
func (g *Guild) AddThread(parent, name string) string {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	c := g.addChannel(name, Thread)
	c.parent = g.srv.find(parent)
	g.srv.gateway.dispatch("THREAD_CREATE", about{guild: g, need: GuildsIntent}, g.srv.channelJSON(c))
	g.srv.changed()
	return c.ID
}

func (g *Guild) addChannel(name string, kind ChannelKind) *Channel {
	c := &Channel{ID: g.srv.newID(), Name: name, Kind: kind, guild: g}
	g.channels = append(g.channels, c)
	g.srv.channels[c.ID] = c
	return c
}

// AddRole adds a role and returns its id.
func (g *Guild) AddRole(name string, p Permissions, mentionable bool) string {
	g.srv.mu.Lock()
	defer g.srv.mu.Unlock()
	r := &Role{ID: g.srv.newID(), Name: name, Permissions: p, Mentionable: mentionable}
	g.roles = append(g.roles, r)
	g.srv.gateway.dispatch("GUILD_ROLE_CREATE", about{guild: g, need: GuildsIntent}, object{"guild_id": g.ID, "role": roleJSON(g, r)})
	g.srv.changed()
	return r.ID
}

// Channel is the id of the channel with that name, "#" or not, in any guild; the
// text itself when it is an id already. It is empty when there is none.
func (s *Server) Channel(name string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if c := s.find(name); c != nil {
		return c.ID
	}
	return ""
}

// find looks a channel up by id or name. The lock is held.
func (s *Server) find(name string) *Channel {
	if c := s.channels[name]; c != nil {
		return c
	}
	name = strings.TrimPrefix(name, "#")
	for _, g := range s.guilds {
		if i := slices.IndexFunc(g.channels, func(c *Channel) bool { return c.Name == name }); i >= 0 {
			return g.channels[i]
		}
	}
	return nil
}
