package bot

import (
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// setParams are what /log set takes.
func setParams() []Param {
	return append([]Param{{Name: "lift", About: "squat, bench, deadlift or another lift, with its form: close-grip bench", Required: true}},
		append([]Param{
			{Name: "weight", About: "in your unit, or with kg or lb", Required: true},
			{Name: "reps", About: "repetitions made", Required: true},
		}, effortParams()...)...)
}

// fixParams are what of a set can be corrected.
func fixParams() []Param {
	return append([]Param{
		{Name: "lift", About: "squat, bench, deadlift or another lift, with its form"},
		{Name: "weight", About: "in your unit, or with kg or lb"},
		{Name: "reps", About: "repetitions made"},
	}, effortParams()...)
}

func effortParams() []Param {
	return []Param{
		{Name: "sets", About: "how many equal sets"},
		{Name: "effort", About: "how hard it was, 7 to 10; 10 is all you had"},
		{Name: "left", About: "repetitions left, instead of effort"},
		{Name: "missed", About: "the last try was missed", Choices: yesNo},
		{Name: "date", About: "the day, if not today"},
	}
}

// logSet answers /log set.
func logSet(t *turn) (chat.Reply, error) {
	s := planner.Set{Day: t.trainingDay(), Sets: 1}
	if err := t.applySetOptions(&s); err != nil {
		return chat.Reply{}, err
	}
	var err error
	if s.Pending, err = t.odd(planner.Set{}, s); err != nil {
		return chat.Reply{}, err
	}
	beaten, err := t.records([]planner.Set{s})
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets([]planner.Set{s}, t.event.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("logged a set"); err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, Data: t.logData(kept, 0, nil, nil)}
	t.announce(&view, beaten)
	var buttons []chat.Button
	if s.Pending {
		view.Questions = []string{s.Weight.Text(t.about.Unit) + farOff}
		buttons, err = t.oddButtons("No", nil, kept[0])
	}
	m := render.Logged(view)
	m.Buttons = buttons
	return private(m), err
}

func unknownLift(text string) error { return unknownAt("lift", text) }

// unknownAt says that an option names no lift.
func unknownAt(option, text string) error {
	hint := "I know squat, bench and deadlift with their forms, and common accessories."
	if near, ok := parse.Near(strings.ToLower(text), parse.LiftNames()); ok {
		hint = "Did you mean " + near + "? " + hint
	}
	return planner.Errorf(planner.Invalid, hint, "%s: I do not know %q", option, parse.Clean(text))
}

// applySetOptions writes the options of /log set and /log fix into a set.
func (t *turn) applySetOptions(s *planner.Set) (err error) {
	for _, name := range []string{"lift", "weight", "reps", "sets", "effort", "left", "missed", "date"} {
		v, ok := t.options[name]
		if !ok {
			continue
		}
		if err := t.setOption(s, name, v); err != nil {
			return err
		}
	}
	return nil
}

func (t *turn) setOption(s *planner.Set, name, v string) (err error) {
	switch name {
	case "lift":
		var ok bool
		if s.Lift, s.Variant, ok = parse.LiftOf(v, standardOf(t.about)); !ok {
			return unknownLift(v)
		}
	case "weight":
		s.Weight, err = parse.Weight(v, t.about.Unit)
		err = named("weight", err)
	case "reps":
		s.Reps, err = wholeNumber("reps", v, 0, planner.MaxReps)
		s.Missed = s.Missed || s.Reps == 0 && err == nil
	case "sets":
		s.Sets, err = wholeNumber("sets", v, 1, planner.MaxSets)
	case "effort":
		s.Reserve, err = effort(v)
	case "left":
		n, e := wholeNumber("left", v, 0, 10)
		left := float64(n)
		s.Reserve, err = &left, e
	case "missed":
		s.Missed = v == "yes"
	case "date":
		s.Day, err = t.loggedDay(v)
	}
	return err
}

func wholeNumber(name, v string, low, high int) (int, error) {
	n, err := strconv.Atoi(v)
	if err != nil || n < low || n > high {
		return 0, planner.Errorf(planner.Invalid, "", "%s: %q is not a whole number from %d to %d", name, parse.Clean(v), low, high)
	}
	return n, nil
}

// effort reads the 1 to 10 effort rating and returns the repetitions left, which
// is ten minus the rating (Zourdos et al. 2016).
func effort(v string) (*float64, error) {
	f, err := strconv.ParseFloat(strings.TrimPrefix(strings.ReplaceAll(v, ",", "."), "@"), 64)
	if err != nil || !(f >= 1 && f <= 10) {
		return nil, planner.Errorf(planner.Invalid, "10 is all you had, 8 means two more would have gone.", "effort: %q is not a number from 1 to 10", parse.Clean(v))
	}
	left := 10 - f
	return &left, nil
}

// loggedDay reads the day of a set: today or earlier.
func (t *turn) loggedDay(v string) (planner.Date, error) {
	d, err := parse.Date(v, t.trainingDay())
	if err != nil {
		return 0, named("date", err)
	}
	if d > t.today() {
		return 0, planner.Errorf(planner.Invalid, "Log it when it is done.", "date: %s is still to come", d.Long())
	}
	return d, nil
}

// fixSet answers /log fix.
func fixSet(t *turn) (chat.Reply, error) {
	s, err := t.numbered()
	if err != nil {
		return chat.Reply{}, err
	}
	was := s
	if err := t.applySetOptions(&s); err != nil {
		return chat.Reply{}, err
	}
	if s.Day != was.Day {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Drop the set and log it on the right day.", "date: a set cannot be moved to another day")
	}
	if err := t.audit("corrected a set"); err != nil {
		return chat.Reply{}, err
	}
	return t.fix(was, s)
}

// dropSet answers /log drop.
func dropSet(t *turn) (chat.Reply, error) {
	s, err := t.numbered()
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Removed " + render.Set(s, t.about.Unit) + " of " + s.Day.Short() + ".", Data: t.dropData(s)}), t.audit("removed a set")
}

// numbered returns the set with the number of /log recent.
func (t *turn) numbered() (planner.Set, error) {
	n, err := wholeNumber("number", t.options["number"], 1, recentReach)
	if err != nil {
		return planner.Set{}, err
	}
	sets, err := t.tx.RecentPage(t.about.ID, 0, n)
	switch {
	case err != nil:
		return planner.Set{}, err
	case len(sets) == 0:
		return planner.Set{}, planner.Errorf(planner.NotFound, "Log one by writing it, for example: squat 140x5 @8", "There is no logged set yet")
	case n > len(sets):
		return planner.Set{}, planner.Errorf(planner.Invalid, "Look at /log recent.", "number: there are %d logged sets, and no number %d", len(sets), n)
	}
	return sets[n-1], nil
}
