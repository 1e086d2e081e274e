package discordtest

import (
	"encoding/json"
	"slices"
	"time"
)

// createsPerDay is how many new commands a scope may get in a day.
const createsPerDay = 200

// perScope is how many commands of a type a scope holds.
var perScope = map[int]int{1: 100, 2: 15, 3: 15, 4: 1}

func (s *Server) listCommands(c *call) answer {
	guild, err := s.scope(c)
	if err != nil {
		return refused(err)
	}
	return done(s.inScope(guild))
}

// createCommand adds a command, or replaces the one of the same name and type.
func (s *Server) createCommand(c *call) answer {
	guild, err := s.scope(c)
	if err != nil {
		return refused(err)
	}
	made := &Command{Guild: guild, App: s.app}
	if bad := readCommand(c.body, made); bad != nil {
		return s.invalid(c, bad)
	}
	made.Guild, made.App = guild, s.app
	if old := s.sameName(made); old != nil {
		made.ID, made.Version = old.ID, s.newID()
		*old = *made
		s.changed()
		return done(old)
	}
	if err := s.mayCreate(guild, []*Command{made}); err != nil {
		return refused(err)
	}
	s.addCommand(made)
	return created(made)
}

func (s *Server) addCommand(c *Command) {
	c.ID, c.Version = s.newID(), s.newID()
	s.commands = append(s.commands, c)
	s.creates[c.Guild] = append(s.creates[c.Guild], s.Now())
	s.changed()
}

// mayCreate checks the limits of a scope for commands that do not exist yet.
func (s *Server) mayCreate(guild string, fresh []*Command) *apiError {
	day := slices.DeleteFunc(s.creates[guild], func(at time.Time) bool { return s.Now().Sub(at) >= 24*time.Hour })
	s.creates[guild] = day
	if len(day)+len(fresh) > createsPerDay {
		return errDailyCreates
	}
	return overfull(append(s.inScope(guild), fresh...))
}

// overfull counts the commands of a scope by type.
func overfull(all []*Command) *apiError {
	counts := map[int]int{}
	for _, c := range all {
		if counts[c.Type]++; counts[c.Type] > perScope[c.Type] {
			return errTooManyCommands
		}
	}
	return nil
}

// overwriteCommands replaces all commands of a scope. Those that exist keep
// their ids and do not count as creations.
func (s *Server) overwriteCommands(c *call) answer {
	guild, err := s.scope(c)
	if err != nil {
		return refused(err)
	}
	var bodies []json.RawMessage
	if err := json.Unmarshal(c.body, &bodies); err != nil {
		return s.invalid(c, invalidBody(err.Error()))
	}
	list, fresh := []*Command{}, []*Command{}
	for _, body := range bodies {
		made := &Command{}
		if bad := readCommand(body, made); bad != nil {
			return s.invalid(c, bad)
		}
		made.Guild, made.App = guild, s.app
		if slices.ContainsFunc(list, func(o *Command) bool { return o.Type == made.Type && o.Name == made.Name }) {
			return s.invalid(c, invalidBody("command "+made.Name+" comes twice"))
		}
		if old := s.sameName(made); old != nil {
			made.ID, made.Version = old.ID, old.Version
		} else {
			fresh = append(fresh, made)
		}
		list = append(list, made)
	}
	if err := overfull(list); err != nil {
		return refused(err)
	}
	if err := s.replaceScope(guild, list, fresh); err != nil {
		return refused(err)
	}
	return done(list)
}

func (s *Server) replaceScope(guild string, list, fresh []*Command) *apiError {
	kept := s.commands
	s.commands = slices.DeleteFunc(slices.Clone(s.commands), func(o *Command) bool { return o.Guild == guild })
	if err := s.mayCreate(guild, fresh); err != nil {
		s.commands = kept
		return err
	}
	for _, c := range list {
		if c.ID == "" {
			s.addCommand(c)
		} else {
			s.commands = append(s.commands, c)
		}
	}
	s.changed()
	return nil
}

// command finds the command of a call.
func (s *Server) command(c *call) (*Command, *apiError) {
	guild, err := s.scope(c)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(s.commands, func(o *Command) bool { return o.Guild == guild && o.ID == c.params["command_id"] })
	if i < 0 {
		return nil, errUnknownCommand
	}
	return s.commands[i], nil
}

func (s *Server) getCommand(c *call) answer {
	found, err := s.command(c)
	if err != nil {
		return refused(err)
	}
	return done(found)
}

func (s *Server) editCommand(c *call) answer {
	found, err := s.command(c)
	if err != nil {
		return refused(err)
	}
	next := *found
	var keys map[string]json.RawMessage
	if json.Unmarshal(c.body, &keys) == nil && keys["options"] != nil {
		next.Options = nil // replaced as a whole, not merged
	}
	if bad := readCommand(c.body, &next); bad != nil {
		return s.invalid(c, bad)
	}
	next.ID, next.App, next.Guild, next.Type, next.Version = found.ID, found.App, found.Guild, found.Type, s.newID()
	*found = next
	s.changed()
	return done(found)
}

func (s *Server) deleteCommand(c *call) answer {
	found, err := s.command(c)
	if err != nil {
		return refused(err)
	}
	s.commands = slices.DeleteFunc(s.commands, func(o *Command) bool { return o == found })
	s.changed()
	return nothing()
}

// overwriteRights is what guild admins do; a bot's token cannot.
func (s *Server) overwriteRights(*call) answer {
	return refused(&apiError{status: 403, code: 20001, message: "Bots cannot use this endpoint"})
}
