package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// Role says who may use a command.
type Role int

// Everybody, or only those who run the club.
const (
	Anyone Role = iota
	CaptainOnly
)

// Param is one option of a command.
type Param struct {
	Name     string
	About    string
	Required bool
	Choices  []string // where only these words are allowed
	// File options have a file attached: turn.file returns it.
	File bool
	// Positional options may be given as a bare word after the command.
	Positional bool
}

// Command is one entry of the table: what it is called, who may use it, what it
// takes, and the code behind it.
type Command struct {
	Name    string
	Sub     string // empty for a command without subcommands
	Default bool   // answers when the command is typed without a subcommand
	About   string
	Who     Role
	// Other tells whether a captain or coach may name another lifter.
	Other bool
	// Reads tells that answering usually writes nothing, so that it is tried on a
	// snapshot first. It decides about speed only: an answer that has to write
	// after all does.
	Reads   bool
	Params  []Param
	Example string
	run     func(*turn) (chat.Reply, error)
}

// Path is the command as it is typed, for example "/meet add".
func (c Command) Path() string {
	if c.Sub == "" {
		return "/" + c.Name
	}
	return "/" + c.Name + " " + c.Sub
}

// params lists what the command takes, with the option that names another
// lifter where that is allowed.
func (c Command) params() []Param {
	if !c.Other {
		return c.Params
	}
	return append(c.Params[:len(c.Params):len(c.Params)],
		Param{Name: "lifter", About: "another lifter (captain or that lifter's coach)"})
}

// table is the list of all commands.
type table []Command

// Commands returns the table, for adapters that register commands and for help.
func Commands() []Command { return commands() }

// find returns the command that the words name and the words left over.
func (cs table) find(words []string) (*Command, []string, error) {
	if len(words) == 0 {
		return nil, nil, planner.Errorf(planner.Unknown, "Type /help to see what I can do.", "There is no command after the slash")
	}
	name := strings.ToLower(words[0])
	group := cs.group(name)
	if len(group) == 0 {
		return nil, nil, unknownCommand(words[0], cs.names())
	}
	rest := words[1:]
	if len(rest) > 0 {
		for i := range group {
			if group[i].Sub == strings.ToLower(rest[0]) {
				return &group[i], rest[1:], nil
			}
		}
	}
	return defaultOf(group, rest)
}

// defaultOf picks the subcommand that a bare command means; leftover words must
// fit its positional options.
func defaultOf(group table, rest []string) (*Command, []string, error) {
	for i := range group {
		c := &group[i]
		if c.Sub != "" && !c.Default {
			continue
		}
		if len(rest) <= c.positional() {
			return c, rest, nil
		}
		if c.Sub == "" {
			return nil, nil, planner.Errorf(planner.Unknown, usage(*c), "%s does not take %q", c.Path(), parse.Clean(rest[c.positional()]))
		}
	}
	return nil, nil, unknownSub(group, rest)
}

func (c Command) positional() int {
	n := 0
	for _, p := range c.Params {
		if p.Positional {
			n++
		}
	}
	return n
}

func (cs table) group(name string) table {
	var out table
	for _, c := range cs {
		if c.Name == name {
			out = append(out, c)
		}
	}
	return out
}

func (cs table) names() []string {
	var out []string
	for _, c := range cs {
		if len(out) == 0 || out[len(out)-1] != c.Name {
			out = append(out, c.Name)
		}
	}
	return out
}

func unknownCommand(word string, names []string) error {
	hint := "Type /help to see what I can do."
	if near, ok := parse.Near(strings.ToLower(word), names); ok {
		hint = "Did you mean /" + near + "? Type /help to see everything."
	}
	return planner.Errorf(planner.Unknown, hint, "I do not know the command /%s", parse.Clean(word))
}

func unknownSub(group table, rest []string) error {
	var subs []string
	for _, c := range group {
		subs = append(subs, c.Sub)
	}
	name := group[0].Name
	hint := "It has: " + strings.Join(subs, ", ") + "."
	if len(rest) == 0 {
		return planner.Errorf(planner.Unknown, hint, "/%s needs a second word", name)
	}
	if near, ok := parse.Near(strings.ToLower(rest[0]), subs); ok {
		hint = "Did you mean /" + name + " " + near + "? " + hint
	}
	return planner.Errorf(planner.Unknown, hint, "/%s has no %q", name, parse.Clean(rest[0]))
}

// usage shows how a command is typed.
func usage(c Command) string {
	if c.Example != "" {
		return "For example: " + c.Example
	}
	return "Type /help " + c.Name + " to see how it is used."
}

// typed answers a command written as a message.
func (t *turn) typed() (chat.Reply, error) {
	words, options, err := parse.Command(t.event.Text)
	if err != nil {
		return chat.Reply{}, err
	}
	given := make([]chat.Option, len(options))
	for i, o := range options {
		given[i] = chat.Option{Name: o.Name, Value: o.Value}
	}
	return t.asked(words, given)
}

// asked finds the command, checks its options and the speaker's right, and runs
// it. This is the only place that does so.
func (t *turn) asked(words []string, given []chat.Option) (chat.Reply, error) {
	c, rest, err := t.bot.table.find(words)
	if err != nil {
		return chat.Reply{}, err
	}
	t.command = c
	if err := t.takeOptions(given, rest); err != nil {
		return chat.Reply{}, err
	}
	if err := t.join(); err != nil {
		return chat.Reply{}, err
	}
	if err := t.permit(); err != nil {
		return chat.Reply{}, err
	}
	return c.run(t)
}

// takeOptions matches what was given with what the command takes.
func (t *turn) takeOptions(given []chat.Option, rest []string) error {
	params := t.command.params()
	for _, p := range params {
		if p.Positional && len(rest) > 0 {
			given = append(given, chat.Option{Name: p.Name, Value: rest[0]})
			rest = rest[1:]
		}
	}
	if len(rest) > 0 {
		return planner.Errorf(planner.Unknown, usage(*t.command), "%s does not take %q", t.command.Path(), parse.Clean(rest[0]))
	}
	for _, o := range given {
		if err := t.takeOption(params, o); err != nil {
			return err
		}
	}
	for _, p := range params {
		if _, ok := t.options[p.Name]; p.Required && !ok {
			return planner.Errorf(planner.Invalid, usage(*t.command), "%s needs %s: (%s)", t.command.Path(), p.Name, p.About)
		}
	}
	return nil
}

func (t *turn) takeOption(params []Param, o chat.Option) error {
	name := strings.ToLower(o.Name)
	for _, p := range params {
		if p.Name != name {
			continue
		}
		if _, twice := t.options[name]; twice {
			return planner.Errorf(planner.Invalid, "Give it once.", "%s: stands there twice", name)
		}
		v, err := choice(p, o.Value)
		t.options[name] = v
		return err
	}
	var names []string
	for _, p := range params {
		names = append(names, p.Name)
	}
	hint := t.command.Path() + " takes no options."
	if len(names) > 0 {
		hint = "It takes: " + strings.Join(names, ", ") + "."
	}
	if near, ok := parse.Near(name, names); ok {
		hint = "Did you mean " + near + "? " + hint
	}
	return planner.Errorf(planner.Unknown, hint, "%s has no option %q", t.command.Path(), parse.Clean(o.Name))
}

// choice checks a value against the words an option allows.
func choice(p Param, value string) (string, error) {
	value = strings.TrimSpace(value)
	if len(p.Choices) == 0 {
		return value, nil
	}
	lower := strings.ToLower(value)
	for _, c := range p.Choices {
		if c == lower {
			return c, nil
		}
	}
	hint := "It can be: " + strings.Join(p.Choices, ", ") + "."
	if near, ok := parse.Near(lower, p.Choices); ok {
		hint = "Did you mean " + near + "? " + hint
	}
	return "", planner.Errorf(planner.Invalid, hint, "%s: cannot be %q", p.Name, parse.Clean(value))
}

// permit checks the speaker's right to the command and to the lifter named.
func (t *turn) permit() error {
	if t.command.Who == CaptainOnly && !t.speaker.Captain {
		return planner.Errorf(planner.Forbidden, "Ask your captain to do it.", "%s is for the captain", t.command.Path())
	}
	name, ok := t.options["lifter"]
	if !ok || !t.command.Other {
		return nil
	}
	return t.speakFor(name)
}

// speakFor makes the turn about another lifter, where the speaker may.
func (t *turn) speakFor(name string) error {
	l, ok, err := t.lifterCalled(name)
	if err != nil {
		return err
	}
	if ok && l.ID == t.speaker.ID {
		return nil
	}
	if !t.speaker.Captain && (!ok || l.Coach != t.speaker.ID) {
		return planner.Errorf(planner.Forbidden, "You can ask about yourself by leaving lifter: out.",
			"Another lifter's numbers are for that lifter, their coach and the captain")
	}
	if !ok {
		return t.unknownLifter(name)
	}
	t.about = l
	return nil
}

// joined reads a name of several words that was typed as one: @Ana_K.
var joined = strings.NewReplacer("_", " ", ".", " ")

// lifterCalled finds a lifter by handle, or by a name that only one of the club
// is called.
func (t *turn) lifterCalled(name string) (planner.Lifter, bool, error) {
	name = strings.TrimPrefix(strings.TrimSpace(name), "@")
	l, ok, err := t.tx.LifterByHandle(name)
	if err != nil || ok {
		return l, ok, err
	}
	all, err := t.tx.Lifters()
	found := 0
	for _, other := range all {
		if strings.EqualFold(other.Name, name) || strings.EqualFold(other.Name, joined.Replace(name)) {
			l = other
			found++
		}
	}
	return l, found == 1, err
}

// lifterNamed is lifterCalled where the lifter must exist.
func (t *turn) lifterNamed(name string) (planner.Lifter, error) {
	l, ok, err := t.lifterCalled(name)
	if err == nil && !ok {
		err = t.unknownLifter(name)
	}
	return l, err
}

func (t *turn) unknownLifter(name string) error {
	all, err := t.tx.Lifters()
	if err != nil {
		return err
	}
	var handles, same []string
	for _, l := range all {
		handles = append(handles, strings.ToLower(render.Called(l)))
		if strings.EqualFold(l.Name, strings.TrimPrefix(strings.TrimSpace(name), "@")) {
			same = append(same, l.Handle)
		}
	}
	if len(same) > 1 {
		return planner.Errorf(planner.Conflict, "Name the one you mean by the handle: "+render.Some(same, namedAtOnce)+". /me set lifter:… name: tells them apart.", "%d lifters are called %q", len(same), parse.Clean(name))
	}
	hint := "A lifter joins the club by writing to me once."
	if near, ok := parse.Near(strings.ToLower(name), handles); ok {
		hint = "Did you mean " + near + "?"
	}
	return planner.Errorf(planner.NotFound, hint, "Nobody in the club is called %q", parse.Clean(name))
}
