package bot

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// showProfile answers /me.
func showProfile(t *turn) (chat.Reply, error) {
	public, err := t.tx.LifterPublic(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return chat.Reply{}, err
	}
	r := private(render.Profile(masked(t.about, hidden), public))
	fill, err := t.button("Fill in", "me.form", lifterArgs{t.about.ID}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r.Message.Buttons = []chat.Button{fill}
	if t.about.ID == t.speaker.ID {
		me, found, err := t.thatIsMe()
		if err != nil {
			return chat.Reply{}, err
		}
		if found {
			r.Message.Buttons = append(r.Message.Buttons, me)
		}
	}
	return r, t.askStyles(&r.Message, t.about)
}

// setProfile answers /me set: only what is named changes.
func setProfile(t *turn) (chat.Reply, error) {
	if len(t.options) == 0 || len(t.options) == 1 && t.options["lifter"] != "" {
		return showProfile(t)
	}
	before := t.about
	changed, err := t.profileWith(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.SaveLifter(changed, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.keepSideFacts(changed); err != nil {
		return chat.Reply{}, err
	}
	t.about = changed
	if err := t.audit("set profile: " + strings.Join(t.optionNames(), ", ")); err != nil {
		return chat.Reply{}, err
	}
	public, err := t.tx.LifterPublic(changed.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.Profile(masked(changed, hidden), public)
	m.Title = "Saved"
	m.Text = strings.Join(slices.Concat(classRemarks(masked(changed, hidden)), t.askRemark(changed, public), farMaxes(before, changed)), "\n")
	if t.options["class"] != "" || t.options["category"] != "" || t.options["bodyweight"] != "" {
		remark, err := t.classCheck(masked(changed, hidden), changed.Class)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Text = strings.TrimSpace(m.Text + "\n" + remark)
	}
	if err := t.note(changed, "Changed in your profile: "+strings.Join(t.optionNames(), ", ")+". /me shows it.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	err = t.profileBearsOnPlan(&m, before)
	return private(m), err
}

// keepSideFacts stores what /me set touches outside the lifter's own row.
func (t *turn) keepSideFacts(l planner.Lifter) error {
	if v, ok := t.options["public"]; ok {
		if err := t.tx.SetLifterPublic(l.ID, v == "yes"); err != nil {
			return err
		}
	}
	if _, ok := t.options["bodyweight"]; ok && l.Bodyweight != 0 {
		return t.tx.AddBodyweight(l.ID, t.today(), l.Bodyweight, t.now)
	}
	return nil
}

// optionNames lists the options given, in the order of the table.
func (t *turn) optionNames() []string {
	var out []string
	for _, p := range t.command.Params {
		if _, ok := t.options[p.Name]; ok {
			out = append(out, p.Name)
		}
	}
	return out
}

// audit notes what a captain or coach did for somebody else.
func (t *turn) audit(what string) error {
	if t.about.ID == t.speaker.ID {
		return nil
	}
	return t.tx.Audit(t.speaker.ID, t.about.ID, what, t.now)
}

// profileWith returns the lifter with the options of /me set applied.
func (t *turn) profileWith(l planner.Lifter) (planner.Lifter, error) {
	if v, ok := t.options["unit"]; ok {
		l.Unit = planner.Unit(v) // first: the masses below are read in it
	}
	for name, v := range t.options {
		if err := t.setField(&l, name, v); err != nil {
			return l, err
		}
	}
	return l, nil
}

func (t *turn) setField(l *planner.Lifter, name, v string) (err error) {
	if strings.EqualFold(v, "none") && clearField(l, name) {
		return nil
	}
	switch name {
	case "category":
		l.Category = planner.Category(v)
	case "born":
		l.Born, err = t.birthday(v)
	case "bodyweight":
		l.Bodyweight, err = massOf(v, l.Unit)
	case "class":
		l.Class, err = planner.ParseClass(v)
	case "level":
		l.Level = planner.Level(v)
	case "zone":
		l.Zone, err = zoneName(v)
	case "days":
		l.Days, err = trainingDays(v)
	case "squat":
		l.Squat, err = maximum(planner.Squat, v, l.Unit)
	case "bench":
		l.Bench, err = maximum(planner.Bench, v, l.Unit)
	case "deadlift":
		l.Deadlift, err = maximum(planner.Deadlift, v, l.Unit)
	case "bench_style":
		l.BenchStyle = planner.BenchStyle(v)
	case "deadlift_style":
		l.DeadliftStyle = planner.DeadliftStyle(v)
	case "nudges":
		l.Nudges = planner.Where(v)
	case "name":
		l.Name, err = t.freeName(v)
	case "competed":
		l.HasCompeted = v == "yes"
	case "long_blocks":
		l.LongBlocks = v == "yes"
	}
	return err
}

// clearField forgets what was told for an option; false where it cannot be unset.
func clearField(l *planner.Lifter, name string) bool {
	switch name {
	case "born":
		l.Born = 0
	case "bodyweight":
		l.Bodyweight = 0
	case "class":
		l.Class = planner.Class{}
	case "squat", "bench", "deadlift":
		setBest(l, planner.Lift(name), 0)
	case "zone":
		l.Zone = ""
	default:
		return false
	}
	return true
}

// birthday reads a date of birth. The platform admits nobody under 13, and the
// oldest lifter on record is below 110 (common practice).
func (t *turn) birthday(v string) (planner.Date, error) {
	d, err := t.dated("born", v)
	if err != nil {
		return 0, err
	}
	if age := planner.Age(d, t.today()); age < 13 || age > 110 {
		return 0, planner.Errorf(planner.Invalid, "Write it as year-month-day, for example 1996-05-14.",
			"born: %s would make you %d years old; 13 to 110 are allowed", d, age)
	}
	return d, nil
}

// bodyweight reads the lifter's own weight.
func massOf(v string, unit planner.Unit) (planner.Grams, error) {
	g, err := parse.Bodyweight(v, unit)
	return g, named("bodyweight", err)
}

// maximum reads a best single: the empty technique bar to the heaviest the
// program believes.
func maximum(lift planner.Lift, v string, unit planner.Unit) (planner.Grams, error) {
	v = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(v), "about"))
	g, err := parse.Weight(v, unit)
	return g, named(string(lift), err)
}

// named puts the option's name in front of an error's sentence.
func named(name string, err error) error {
	if e, ok := err.(*planner.Error); ok {
		c := *e
		c.Sentence = name + ": " + c.Sentence
		return &c
	}
	return err
}

func zoneName(v string) (string, error) {
	zone, err := parse.Zone(v)
	return zone, named("zone", err)
}

// dated reads the day in an option.
func (t *turn) dated(option, v string) (planner.Date, error) {
	d, err := parse.Date(v, t.today())
	return d, named(option, err)
}

func trainingDays(v string) (int, error) {
	n, err := strconv.Atoi(v)
	if err != nil || n < 1 || n > 6 {
		return 0, planner.Errorf(planner.Invalid, "Tell me on how many days a week you train.", "days: %q is not a number from 1 to 6", parse.Clean(v))
	}
	return n, nil
}

// callable is a name a person can be called by: one to three words of letters.
var callable = regexp.MustCompile(`^[\p{L}\p{M}][\p{L}\p{M}\p{N}'.-]*( [\p{L}\p{M}\p{N}'.-]+){0,2}$`)

// freeName reads what a lifter wants to be called: at most 24 characters in one to
// three words, and nobody else's name, for posts and board tell people apart by
// it.
func (t *turn) freeName(v string) (string, error) {
	if !callable.MatchString(v) || len([]rune(v)) > 24 {
		return "", planner.Errorf(planner.Invalid, "Use one to three words of letters, at most 24 characters.", "name: %q cannot be used", parse.Clean(v))
	}
	all, err := t.tx.Lifters()
	for _, l := range all {
		if store.IsPlaceholder(l) && strings.EqualFold(l.Name, v) && !store.IsPlaceholder(t.about) {
			return "", planner.Errorf(planner.Conflict, "If that is you: /me claim name:\""+l.Name+"\".", "name: a %s was added before joining", l.Name)
		}
	}
	if nameTaken(all, v, t.about.Handle) {
		return "", planner.Errorf(planner.Conflict, "Add a letter of your family name, for example.", "name: somebody is called %s already", v)
	}
	return v, err
}

// askRemark says what 'only when you ask' does not stop.
func (t *turn) askRemark(l planner.Lifter, public bool) []string {
	if _, chosen := t.options["nudges"]; !chosen || l.Nudges != planner.Ask || !public {
		return nil
	}
	return []string{"I tell you nothing unasked. The club's post still names you for blocks and meets; /me set public:no stops that too."}
}

// classRemarks says what stands out between bodyweight and class. It states the
// distance and leaves making weight to the lifter and the coach.
func classRemarks(l planner.Lifter) []string {
	if l.Class.IsZero() || l.Class.Plus || l.Bodyweight == 0 || l.Bodyweight <= l.Class.Limit {
		return nil
	}
	over := (l.Bodyweight - l.Class.Limit).Text(l.Unit)
	return []string{"You are " + over + " above the " + l.Class.String() + " class. Lifting in the class you weigh is always fine; talk to your coach before you change your weight for it."}
}
