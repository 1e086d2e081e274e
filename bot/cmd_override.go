package bot

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// overrideParams are what /week override takes.
func overrideParams() []Param {
	return []Param{
		{Name: "lift", About: "what is changed, for example bench or paused squat"},
		{Name: "instead", About: "do this in its place"},
		{Name: "leave_out", About: "leave it out", Choices: yesNo},
		{Name: "sets", About: "more or fewer sets each time, for example +1 or -1"},
		{Name: "load", About: "percent more or less load, for example -5; -30 to 10"},
		{Name: "remove", About: "take a change back by its number, or all"},
	}
}

// overrideWeek answers /week override: a coach's changes to a lifter's weeks, and the
// lifter's own swaps. Alone it lists them.
func overrideWeek(t *turn) (chat.Reply, error) {
	if v, given := t.options["remove"]; given {
		return t.removeChange(v)
	}
	if _, given := t.options["lift"]; !given {
		return t.listChanges("Changes to the weeks")
	}
	o, err := t.override()
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.mayOverride(o); err != nil {
		return chat.Reply{}, err
	}
	if _, err := t.tx.AddWeekChange(t.about.ID, o, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.stillPlans(); err != nil {
		return chat.Reply{}, err // the turn is rolled back, and the change with it
	}
	if err := t.note(t.about, "Your weeks changed, also those to come. "+render.Sentence(overrideText(o)), undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("changed the weeks: " + overrideText(o)); err != nil {
		return chat.Reply{}, err
	}
	return t.listChanges("Kept, also when the plan is made again")
}

// mayOverride lets lifters swap for themselves, and lets coaches and captains do the
// rest.
func (t *turn) mayOverride(o load.Override) error {
	if t.about.ID != t.speaker.ID || t.speaker.Captain || o.Instead != (load.Movement{}) && o.Sets == 0 && o.Load == 0 {
		return nil
	}
	return planner.Errorf(planner.Forbidden, "Ask your coach. You can swap with instead:, and leave a lift out with /season rest.", "Sets and loads of the weeks are for the coach to change")
}

// stillPlans refuses a change that no week can be made with.
func (t *turn) stillPlans() error {
	c, err := t.course(t.about)
	if err != nil {
		return err
	}
	_, _, err = t.weekFor(c, c.today)
	return err
}

// override reads the options.
func (t *turn) override() (o load.Override, err error) {
	if o.Of, err = t.movement("lift"); err != nil {
		return o, err
	}
	o.Drop = t.options["leave_out"] == "yes"
	if _, given := t.options["instead"]; given {
		if o.Instead, err = t.movement("instead"); err != nil {
			return o, err
		}
	}
	if v, given := t.options["sets"]; given {
		n, err := strconv.Atoi(strings.TrimPrefix(v, "+"))
		if err != nil || n < -5 || n > 5 || n == 0 {
			return o, planner.Errorf(planner.Invalid, "For example sets:+1 or sets:-1.", "sets: %q is not a whole number from -5 to 5", parse.Clean(v))
		}
		o.Sets = n
	}
	if v, given := t.options["load"]; given {
		f, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(v, "+"), "%")), ",", "."), 64)
		if err != nil || !(f >= -30 && f <= 10) || f == 0 {
			return o, planner.Errorf(planner.Invalid, "For example load:-5 for 5 percent less.", "load: %q is not a percentage from -30 to 10", parse.Clean(v))
		}
		o.Load = f
	}
	if !o.Drop && o.Instead == (load.Movement{}) && o.Sets == 0 && o.Load == 0 {
		return o, planner.Errorf(planner.Invalid, usage(*t.command), "Say what changes: instead:, leave_out:, sets: or load:")
	}
	return o, nil
}

// movement reads the name of a movement in an option.
func (t *turn) movement(option string) (load.Movement, error) {
	lift, variant, ok := parse.LiftOf(t.options[option], standardOf(t.about))
	if !ok {
		return load.Movement{}, unknownAt(option, t.options[option])
	}
	return load.Movement{Lift: lift, Variant: variant}, nil
}

// overrideText says what a change does.
func overrideText(o load.Override) string {
	if o.Drop {
		return "no " + o.Of.Name()
	}
	var parts []string
	if o.Instead != (load.Movement{}) {
		parts = append(parts, o.Instead.Name()+" instead")
	}
	if o.Sets != 0 {
		parts = append(parts, setsChanged(o.Sets))
	}
	if o.Load != 0 {
		how := "lighter"
		if o.Load > 0 {
			how = "heavier"
		}
		parts = append(parts, fmt.Sprintf("%g %% %s", math.Abs(o.Load), how))
	}
	return o.Of.Name() + ": " + strings.Join(parts, ", ")
}

// setsChanged says "1 more set each time".
func setsChanged(n int) string {
	if n < 0 {
		return render.Count(-n, "set") + " less each time"
	}
	return render.Count(n, "set") + " more each time"
}

// removeChange takes one change back, or all.
func (t *turn) removeChange(v string) (chat.Reply, error) {
	all, err := t.tx.WeekChanges(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	gone := all
	if !strings.EqualFold(v, "all") {
		n, err := wholeNumber("remove", v, 1, max(1, len(all)))
		if err != nil {
			return chat.Reply{}, err
		}
		gone = all[min(n-1, len(all)):min(n, len(all))]
	}
	if len(gone) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "", "There is no change to take back")
	}
	for _, x := range gone {
		if err := t.takeChangeBack(x); err != nil {
			return chat.Reply{}, err
		}
	}
	return t.listChanges("Taken back")
}

// takeChangeBack removes one change; what a coach set is not the lifter's to remove.
func (t *turn) takeChangeBack(x store.WeekChange) error {
	if t.about.ID == t.speaker.ID && !t.speaker.Captain && x.By != t.speaker.ID {
		return planner.Errorf(planner.Forbidden, "Ask your coach.", "%s was set by your coach", render.Sentence(overrideText(x.Override)))
	}
	if _, err := t.tx.DropWeekChange(t.about.ID, x.ID); err != nil {
		return err
	}
	if err := t.note(t.about, "Taken back for your weeks: "+overrideText(x.Override)+".", undo{}); err != nil {
		return err
	}
	return t.audit("took back a change of the weeks: " + overrideText(x.Override))
}

// listChanges lists what stays changed in a lifter's weeks.
func (t *turn) listChanges(title string) (chat.Reply, error) {
	all, err := t.tx.WeekChanges(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	names := map[planner.LifterID]string{0: "somebody who has left"}
	lines, data := []string{}, []map[string]any{}
	for i, x := range all {
		by, err := t.nameOf(names, x.By)
		if err != nil {
			return chat.Reply{}, err
		}
		lines = append(lines, fmt.Sprintf("%d. %s (%s)", i+1, overrideText(x.Override), by))
		data = append(data, map[string]any{"number": i + 1, "text": overrideText(x.Override), "by": by})
	}
	if len(lines) == 0 {
		lines = []string{"None: the weeks are as planned."}
	} else {
		lines = append(lines, "Take one back: /week override remove:1")
	}
	return private(chat.Message{Title: title, Text: strings.Join(lines, "\n"), Data: map[string]any{"changes": data}}), nil
}
