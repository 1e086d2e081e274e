package discordtest

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"
)

// filling turns what a person typed into options as a client sends them.
type filling struct {
	u        *User
	channel  *Channel
	focused  string // the option that is being typed, for suggestions
	resolved object
}

func (f *filling) fill(params []CommandParam, opts []Opt) ([]object, error) {
	filled := []object{}
	for _, o := range opts {
		i := slices.IndexFunc(params, func(p CommandParam) bool { return p.Name == o.Name })
		if i < 0 {
			return nil, fmt.Errorf("there is no option %q", o.Name)
		}
		one := object{"name": o.Name, "type": params[i].Type}
		if o.Name == f.focused {
			if !params[i].Autocomplete {
				return nil, fmt.Errorf("option %q suggests nothing", o.Name)
			}
			one["value"], one["focused"] = o.Value, true
		} else {
			v, err := f.value(params[i], o.Value)
			if err != nil {
				return nil, fmt.Errorf("option %q: %w", o.Name, err)
			}
			one["value"] = v
		}
		filled = append(filled, one)
	}
	for _, p := range params {
		given := slices.ContainsFunc(opts, func(o Opt) bool { return o.Name == p.Name })
		if p.Required && !given && f.focused == "" {
			return nil, fmt.Errorf("option %q is required", p.Name)
		}
	}
	return filled, nil
}

// value converts and checks one value as a client does.
func (f *filling) value(p CommandParam, v any) (any, error) {
	switch p.Type {
	case IntegerOption, NumberOption:
		return p.number(v)
	case BooleanOption:
		return strconv.ParseBool(fmt.Sprint(v))
	case UserOption:
		return f.person(v)
	case ChannelOption:
		ch := f.u.srv.find(fmt.Sprint(v))
		if ch == nil {
			return nil, fmt.Errorf("there is no channel %v", v)
		}
		f.resolve("channels", ch.ID, f.u.srv.channelJSON(ch))
		return ch.ID, nil
	case RoleOption:
		return f.role(fmt.Sprint(v))
	case FileOption:
		return f.file(v)
	}
	text := fmt.Sprint(v)
	n := utf8.RuneCountInString(text)
	if p.MinLength != nil && n < *p.MinLength || p.MaxLength != nil && n > *p.MaxLength || n > 6000 {
		return nil, fmt.Errorf("%d characters are too few or too many", n)
	}
	return p.chosen(text)
}

func (p CommandParam) number(v any) (any, error) {
	n, err := strconv.ParseFloat(fmt.Sprint(v), 64)
	if err != nil {
		return nil, err
	}
	if p.MinValue != nil && n < *p.MinValue || p.MaxValue != nil && n > *p.MaxValue {
		return nil, fmt.Errorf("%v is out of range", n)
	}
	if p.Type == IntegerOption {
		if n != math.Trunc(n) || math.Abs(n) > 1<<53 {
			return nil, fmt.Errorf("%v is not a whole number", n)
		}
	}
	return p.chosen(n)
}

// chosen wants a value to be one of the choices, if there are any. A choice is
// named by its value or by what stands on it.
func (p CommandParam) chosen(v any) (any, error) {
	if len(p.Choices) == 0 {
		return v, nil
	}
	for _, c := range p.Choices {
		if fmt.Sprint(c.Value) == fmt.Sprint(v) || c.Name == fmt.Sprint(v) {
			return c.Value, nil
		}
	}
	return nil, fmt.Errorf("%v is not among the choices", v)
}

func (f *filling) person(v any) (any, error) {
	u, ok := v.(*User)
	if !ok {
		i := slices.IndexFunc(f.u.srv.users, func(u *User) bool { return u.ID == v || u.Name == v || u.Mention() == v })
		if i < 0 {
			return nil, fmt.Errorf("there is no person %v", v)
		}
		u = f.u.srv.users[i]
	}
	f.resolve("users", u.ID, userJSON(u))
	if g := f.channel.guild; g != nil && g.members[u.ID] != nil {
		m := memberJSON(g.members[u.ID])
		delete(m, "user")
		m["permissions"] = g.srv.permissions(u, f.channel)
		f.resolve("members", u.ID, m)
	}
	return u.ID, nil
}

func (f *filling) role(id string) (any, error) {
	if g := f.channel.guild; g != nil {
		for _, r := range g.roles {
			if r.ID == id || r.Name == id {
				f.resolve("roles", r.ID, roleJSON(g, r))
				return r.ID, nil
			}
		}
	}
	return nil, fmt.Errorf("there is no role %s", id)
}

func (f *filling) resolve(kind, id string, o object) {
	all, _ := f.resolved[kind].(object)
	if all == nil {
		all = object{}
		f.resolved[kind] = all
	}
	all[id] = o
}
