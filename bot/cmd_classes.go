package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// classParams are what /club classes takes.
func classParams() []Param {
	return []Param{
		{Name: "table", About: "for example women 63 69 76 84 84+; men 74 83 93 105 120 120+; none: forget them"},
		{Name: "name", About: "the rule book they stand in"},
		{Name: "since", About: "the day since which it holds"},
	}
}

// ruleBookDecides stands under every word about classes.
const ruleBookDecides = "The rule book in force at your meet decides."

// clubClasses answers /club classes: shows the club's classes or replaces them.
func clubClasses(t *turn) (chat.Reply, error) {
	c, err := t.tx.ClassTable()
	if err != nil {
		return chat.Reply{}, err
	}
	if len(t.optionNames()) > 0 {
		if c, err = t.classTable(c); err != nil {
			return chat.Reply{}, err
		}
		if err := t.tx.SaveClassTable(c); err != nil {
			return chat.Reply{}, err
		}
		if err := t.tx.Audit(t.speaker.ID, 0, "changed the class table", t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	m := chat.Message{Title: "Classes", Text: ruleBookDecides}
	data := map[string]any{}
	for _, k := range []planner.Category{planner.Women, planner.Men} {
		if len(c.Classes[k]) > 0 {
			m.Fields = append(m.Fields, chat.Field{Name: string(k), Value: classList(c.Classes[k])})
		}
		data[string(k)] = strings.Fields(strings.ReplaceAll(classList(c.Classes[k]), ",", " "))
	}
	if len(m.Fields) == 0 {
		m.Text = "No classes are set, so I compare none. For example: " + t.command.Example
	} else if from := classSource(c); from != "" {
		m.Text = render.Sentence(from) + " " + ruleBookDecides
	}
	m.Data = map[string]any{"classes": data}
	return private(m), nil
}

// classTable reads the options of /club classes.
func (t *turn) classTable(c store.ClassTable) (store.ClassTable, error) {
	if v, given := t.options["table"]; given {
		c = store.ClassTable{Classes: map[planner.Category][]planner.Class{}}
		if strings.EqualFold(strings.TrimSpace(v), "none") {
			return c, nil
		}
		if err := readClasses(&c, v); err != nil {
			return c, err
		}
	}
	if len(c.Classes) == 0 {
		return c, planner.Errorf(planner.Invalid, usage(*t.command), "Say the classes first: table:")
	}
	if v, given := t.options["name"]; given {
		c.Name = cutTo(parse.Clean(v), 60)
	}
	if v, given := t.options["since"]; given {
		var err error
		if c.Since, err = t.dated("since", v); err != nil {
			return c, err
		}
	}
	return c, nil
}

// mostClasses is more than any rule book has for a category.
const mostClasses = 20

// readClasses reads "women 63 69 84+; men 74 83".
func readClasses(c *store.ClassTable, v string) error {
	k := planner.Category("")
	for _, word := range strings.FieldsFunc(strings.ToLower(v), func(r rune) bool { return strings.ContainsRune(" ;,:\n\t", r) }) {
		if word == string(planner.Women) || word == string(planner.Men) {
			k = planner.Category(word)
			continue
		}
		if k == "" {
			return planner.Errorf(planner.Invalid, "Begin with women or men.", "table: I do not know whose class %q is", parse.Clean(word))
		}
		x, err := planner.ParseClass(word)
		if err != nil {
			return named("table", err)
		}
		if c.Classes[k] = append(c.Classes[k], x); len(c.Classes[k]) > mostClasses {
			return planner.Errorf(planner.Invalid, "", "table: more than %d classes for %s", mostClasses, k)
		}
	}
	if len(c.Classes) == 0 {
		return planner.Errorf(planner.Invalid, "For example table:\"women 63 69 84+; men 74 83\".", "table: %q names no class", parse.Clean(v))
	}
	return nil
}

func classList(all []planner.Class) string {
	out := make([]string, len(all))
	for i, c := range all {
		out[i] = c.String()
	}
	return strings.Join(out, ", ")
}

// classSource says where the club's classes were read.
func classSource(c store.ClassTable) string {
	s := ""
	if c.Name != "" {
		s = "from " + c.Name
	}
	if !c.Since.IsZero() {
		s = strings.TrimSpace(s + " since " + c.Since.Long())
	}
	return s
}

// classCheck compares a class with the club's; empty where there is nothing to say.
// Without a class it names the one of the bodyweight, which is never a word for
// making weight.
func (t *turn) classCheck(l planner.Lifter, entered planner.Class) (string, error) {
	c, err := t.tx.ClassTable()
	all := c.Classes[l.Category]
	if err != nil || len(all) == 0 {
		return "", err
	}
	for _, x := range all {
		if x == entered {
			return "", nil
		}
	}
	if entered.IsZero() {
		x, ok := classOf(all, l.Bodyweight)
		if !ok {
			return "", nil
		}
		return "By bodyweight that is the " + x.String() + " class: class:" + x.String() + " keeps it. " + ruleBookDecides, nil
	}
	text := entered.String() + " is not among the club's classes for " + string(l.Category) + " (" + classList(all) + ")."
	return text + " " + ruleBookDecides, nil
}

// classOf is the class that a bodyweight falls into.
func classOf(all []planner.Class, bodyweight planner.Grams) (planner.Class, bool) {
	var best planner.Class
	for _, x := range all {
		switch {
		case bodyweight == 0 || x.Plus && bodyweight <= x.Limit || !x.Plus && bodyweight > x.Limit:
		case best.IsZero() || best.Plus || !x.Plus && x.Limit < best.Limit:
			best = x
		}
	}
	return best, !best.IsZero()
}
