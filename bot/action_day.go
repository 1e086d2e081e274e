package bot

import (
	"fmt"
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// dayArgs is what a button about one session carries.
type dayArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Day    planner.Date     `json:"day"`
}

// minuteArgs is what a choice of minutes carries.
type minuteArgs struct {
	Lifter  planner.LifterID `json:"lifter"`
	Day     planner.Date     `json:"day"`
	Minutes int              `json:"minutes"`
}

// dayActions names what the buttons about a session do. The names are kept in the
// database, so they must not change.
func dayActions() map[string]action {
	return map[string]action{
		"day.show":  {run: dayShown, again: true},
		"day.why":   {run: dayWhy, again: true},
		"day.done":  {run: dayDone, again: true},
		"day.undo":  {run: dayUndone},
		"day.short": {run: dayShort, again: true},
		"day.cut":   {run: dayCut, again: true},
		"day.swap":  {run: daySwap, again: true},
		"day.other": {run: dayOthers, again: true},
		"day.take":  {run: dayTaken, again: true},
		"day.move":  {run: dayMoved, again: true},
		"day.fit":   {run: dayFitted, again: true},
		"day.reset": {run: dayReset, again: true},
	}
}

// dayButtons are what can be done about a session: all of it by the lifter, and only
// up to its day once it is past.
func (t *turn) dayButtons(w weekNow, d load.Day) ([]chat.Button, error) {
	type offer struct{ label, does string }
	var offers []offer
	own := t.about.ID == t.speaker.ID && !w.preview
	if own && d.Date <= w.course.today && len(d.Prescribed()) > 0 {
		offers = append(offers, offer{"Done", "day.done"})
	}
	if own && d.Date >= w.course.today && !w.logged(d.Date) {
		offers = append(offers, offer{"Short on time", "day.short"}, offer{"Swap", "day.swap"})
		if slices.ContainsFunc(w.edits, func(e weekEdit) bool { return e.within(d.Date) }) {
			offers = append(offers, offer{"As planned", "day.reset"})
		}
		if d.Date == w.course.today && d.Date.AddDays(1) <= w.lastForWork() {
			offers = append(offers, offer{"Move to tomorrow", "day.move"})
		}
	}
	offers = append(offers, offer{"Why", "day.why"})
	var out []chat.Button
	for _, o := range offers {
		b, err := t.button(o.label, o.does, dayArgs{t.about.ID, d.Date}, t.speaker)
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// lastForWork is the last day of the week that a session may be moved to: never the
// day before a meet.
func (w *weekNow) lastForWork() planner.Date {
	last := w.plan.End
	for _, m := range w.course.meets {
		if m.Date > w.course.today && m.Date.AddDays(-2) < last {
			last = m.Date.AddDays(-2)
		}
	}
	return last
}

// dayPressed reads which session a button means, as it stands now. Who may no longer
// speak for the lifter is refused.
func (t *turn) dayPressed(lifter planner.LifterID, day planner.Date) (weekNow, load.Day, error) {
	c, err := t.courseOf(lifter)
	if err != nil {
		return weekNow{}, load.Day{}, err
	}
	w, reason, err := t.weekFor(c, day)
	if err != nil {
		return w, load.Day{}, err
	}
	if reason != nil {
		return w, load.Day{}, planner.Errorf(planner.Conflict, reason.Text, "Nothing is planned on %s any more", day.Short())
	}
	d, has := w.plan.On(day)
	if !has {
		return w, d, planner.Errorf(planner.Conflict, "Look at /week.", "There is no session on %s any more", day.Short())
	}
	return w, d, nil
}

// dayAt is dayPressed for a button that carries nothing but the session.
func (t *turn) dayAt(b store.Button) (weekNow, load.Day, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return weekNow{}, load.Day{}, err
	}
	return t.dayPressed(a.Lifter, a.Day)
}

func dayShown(t *turn, b store.Button) (chat.Reply, error) {
	w, d, err := t.dayAt(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.keepWeek(&w); err != nil {
		return chat.Reply{}, err
	}
	return t.dayReply(w, d)
}

func dayWhy(t *turn, b store.Button) (chat.Reply, error) {
	w, d, err := t.dayAt(b)
	if err != nil {
		return chat.Reply{}, err
	}
	return private(render.DayWhy(t.weekView(w), d)), nil
}

// openDay is dayPressed for a session that can still be changed.
func (t *turn) openDay(lifter planner.LifterID, day planner.Date) (weekNow, load.Day, error) {
	w, d, err := t.dayPressed(lifter, day)
	switch {
	case err != nil:
	case lifter != t.speaker.ID:
		err = planner.Errorf(planner.Forbidden, "/week override changes a lifter's weeks.", "A session is for its lifter to change")
	case day < w.course.today:
		err = planner.Errorf(planner.Conflict, "Look at /today.", "%s is over", day.Short())
	case w.logged(day):
		err = planner.Errorf(planner.Conflict, "Log what you do; the rest can stay undone.", "You have begun that session: sets of it are in your log")
	}
	return w, d, err
}

// shortChoices are the minutes offered to who is short on time.
var shortChoices = []int{20, 30, 40, 50, 60, 75}

func dayShort(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	_, d, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "How long do you have?", Text: fmt.Sprintf("As planned it takes about %d minutes. The heaviest sets stay; what matters least goes first.", d.Minutes)}
	for _, n := range shortChoices {
		if n >= d.Minutes {
			break
		}
		c, err := t.button(fmt.Sprintf("%d minutes", n), "day.cut", minuteArgs{a.Lifter, a.Day, n}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, c)
	}
	if len(m.Buttons) == 0 {
		m.Text = fmt.Sprintf("It takes about %d minutes; there is nothing left to cut.", d.Minutes)
	}
	return private(m), nil
}

func dayCut(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[minuteArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, d, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	short, gone, err := load.Shorten(d, a.Minutes)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.changeWeek(&w, weekEdit{Short: &shortEdit{a.Day, a.Minutes}}); err != nil {
		return chat.Reply{}, err
	}
	r, err := t.dayReply(w, short)
	if len(gone) > 0 {
		r.Message.Text = "Left out: " + render.List(gone) + ".\n" + r.Message.Text
	}
	return r, err
}

// dayMoved moves a session to the next day; where that has one, they change places.
func dayMoved(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, _, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	to := a.Day.AddDays(1)
	_, warning, err := w.plan.Exchange(a.Day, to)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.changeWeek(&w, weekEdit{Move: &moveEdit{a.Day, to}}); err != nil {
		return chat.Reply{}, err
	}
	text := "Moved to " + to.Short() + "."
	if other, both := w.plan.On(a.Day); both {
		text = "Changed places: " + a.Day.Short() + " is now " + render.SessionName(other) + "."
	}
	if warning != "" {
		text += "\n" + render.Sentence(warning)
	}
	return t.after(w, text)
}

// dayFitted lays what is left of the week over the days that are left.
func dayFitted(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.courseOf(a.Lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	w, reason, err := t.weekFor(c, c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	if reason != nil {
		return private(*reason), nil
	}
	done := []planner.Date{}
	for _, d := range w.plan.Days {
		if w.logged(d.Date) {
			done = append(done, d.Date)
		}
	}
	_, said := w.plan.Left(done, c.today)
	if err := t.changeWeek(&w, weekEdit{Fit: &fitEdit{c.today, done}}); err != nil {
		return chat.Reply{}, err
	}
	text := "Fitted to the days that are left."
	for _, s := range said {
		text += "\n" + s
	}
	return t.after(w, text)
}

// dayReset takes back what the lifter cut and swapped in a session.
func dayReset(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[dayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	w, _, err := t.openDay(a.Lifter, a.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	w.edits = slices.DeleteFunc(w.edits, func(e weekEdit) bool { return e.within(a.Day) })
	if err := t.keepWeek(&w); err != nil {
		return chat.Reply{}, err
	}
	return t.dayOn(w.course, a.Day) // read back: without the edits the plan is another
}

// after says what was changed and shows the week.
func (t *turn) after(w weekNow, text string) (chat.Reply, error) {
	r, err := t.weekReply(w.course, w.course.today)
	r.Message.Text = text + "\n" + r.Message.Text
	return r, err
}
