package bot

import (
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// showToday answers /today: today's work and nothing else.
func showToday(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.dayOn(c, t.trainingDay())
}

// dayOn shows the session of a day, or says why there is none.
func (t *turn) dayOn(c course, day planner.Date) (chat.Reply, error) {
	w, reason, err := t.weekFor(c, day)
	if err != nil {
		return chat.Reply{}, err
	}
	if reason != nil {
		return private(*reason), nil
	}
	if err := t.keepWeek(&w); err != nil {
		return chat.Reply{}, err
	}
	d, has := w.plan.On(day)
	if !has {
		return t.restDay(w, day)
	}
	return t.dayReply(w, d)
}

// dayReply shows a session with what can be done about it.
func (t *turn) dayReply(w weekNow, d load.Day) (chat.Reply, error) {
	v := t.weekView(w)
	m := render.Day(v, d)
	var err error
	if m.Buttons, err = t.dayButtons(w, d); err != nil || d.Date != w.course.today {
		return private(m), err
	}
	lines, open := w.openLines()
	if len(open) == 0 || !w.canFit() || t.about.ID != t.speaker.ID {
		return private(m), nil
	}
	fit, err := t.button("Fit it in", "day.fit", dayArgs{t.about.ID, d.Date}, t.speaker)
	m.Text, m.Buttons = strings.Join(append(lines, m.Text), "\n"), append(m.Buttons, fit)
	return private(m), err
}

// openLines names earlier sessions of the week that nothing was logged for. In a taper
// and around a practice meet they stay left out, so they are no matter any more.
func (w *weekNow) openLines() (lines []string, days []planner.Date) {
	if w.plan.Taper || w.plan.Eased {
		return nil, nil
	}
	for _, d := range w.missed() {
		days = append(days, d.Date)
		lines = append(lines, "Nothing is logged for "+d.Date.Short()+" ("+render.SessionName(d)+").")
	}
	return lines, days
}

// canFit tells whether a training day is left that a missed session could fit into.
func (w *weekNow) canFit() bool {
	return slices.ContainsFunc(w.plan.Days, func(d load.Day) bool { return d.Date >= w.course.today && !w.logged(d.Date) })
}

// restDay says that a day has no session, what is still open, and what comes next.
func (t *turn) restDay(w weekNow, day planner.Date) (chat.Reply, error) {
	data := t.weekView(w).Data()
	for _, m := range w.course.meets {
		if m.Date == day {
			data.Why = "meet day"
			return private(chat.Message{Title: m.Name, Data: data, Text: "Practice meet: lift well inside what you have, to learn. Afterwards: /meet result."}), nil
		}
	}
	data.Why = "rest day"
	m := chat.Message{Title: day.Short() + ": no session"}
	if day == w.course.today {
		m.Title = "Today: no session"
	}
	var lines []string
	lines, data.Open = w.openLines()
	next := ""
	for _, d := range w.plan.Days {
		if d.Date > day && next == "" {
			next = "Next: " + d.Date.Short() + ", " + render.SessionName(d) + "."
			b, err := t.button("Show "+d.Date.Weekday().String(), "day.show", dayArgs{t.about.ID, d.Date}, t.speaker)
			if err != nil {
				return chat.Reply{}, err
			}
			m.Buttons = append(m.Buttons, b)
		}
	}
	if m, ok := w.course.nextMeet(); next == "" && ok && m.Date > day && m.Date <= w.plan.End.AddDays(1) {
		next = "Nothing more is planned before " + m.Name + ", " + m.Date.Short() + ": " + render.InDays(day.DaysUntil(m.Date)) + "."
	}
	if next == "" {
		next = "Nothing more is planned this week. Next week: /week next."
	}
	if len(lines) == 0 {
		lines = append(lines, "Rest is part of the plan.")
	}
	if len(data.Open) > 0 && w.canFit() && t.about.ID == t.speaker.ID && !w.preview {
		b, err := t.button("Fit it in", "day.fit", dayArgs{t.about.ID, day}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
	}
	m.Text, m.Data = strings.Join(append(lines, next), "\n"), data
	return private(m), nil
}

// weekParams are what /week takes.
func weekParams() []Param {
	return []Param{
		{Name: "week", About: "next, or a day in the week you mean", Positional: true},
		{Name: "days", About: "the weekdays you train on, for example mon wed fri; any: spread them for me"},
		{Name: "version", About: "cautious: no maximal work; nobody asks why", Choices: []string{"standard", "cautious"}},
		{Name: "weeks", About: "whose weeks you train by; usual: as the club", Choices: append(words([]store.Weeks{store.BotWeeks, store.ClubWeeks, store.OwnWeeks}), usualDecider)},
	}
}

// showWeek answers /week: this or another week, after changing what is named.
func showWeek(t *turn) (chat.Reply, error) {
	said, err := t.changeTraining()
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	day, err := t.weekNamed(c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.weekReply(c, day)
	if err == nil && len(said) > 0 {
		r.Message.Text = strings.Join(append(said, r.Message.Text), "\n")
	}
	return r, err
}

// weekNamed reads which week is meant, by a day in it.
func (t *turn) weekNamed(today planner.Date) (planner.Date, error) {
	v, given := t.options["week"]
	switch {
	case !given || strings.EqualFold(v, "this"):
		return today, nil
	case strings.EqualFold(v, "next"):
		return today.OnOrBefore(t.club.WeekStart).AddDays(7), nil
	}
	d, err := parse.Date(v, today)
	if err != nil {
		return 0, planner.Errorf(planner.Invalid, "Write next, or a day in the week you mean, for example 2027-02-15.", "week: %q is no week", parse.Clean(v))
	}
	return d, nil
}

// weekReply shows the week that holds a day, with a button for each session.
func (t *turn) weekReply(c course, day planner.Date) (chat.Reply, error) {
	w, reason, err := t.weekFor(c, day)
	if err != nil {
		return chat.Reply{}, err
	}
	if reason != nil {
		return private(*reason), nil
	}
	if err := t.keepWeek(&w); err != nil {
		return chat.Reply{}, err
	}
	m := render.Week(t.weekView(w))
	for _, d := range w.plan.Days {
		b, err := t.button(d.Date.Short(), "day.show", dayArgs{t.about.ID, d.Date}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
	}
	return private(m), nil
}

// weekView is what a week is shown from.
func (t *turn) weekView(w weekNow) render.WeekView {
	v := render.WeekView{Lifter: w.course.lifter, Today: w.course.today, Plan: w.plan, Gym: w.request.Gym, Said: w.said,
		Done: map[planner.Date]bool{}, Last: map[load.Movement]planner.Set{}, Preview: w.preview}
	for _, s := range w.request.Recent { // in order of days, so the last one stays
		if !s.Missed && !s.Pending && s.Weight > 0 {
			v.Last[load.Movement{Lift: s.Lift, Variant: s.Variant}] = s
		}
	}
	if t.about.ID != t.speaker.ID {
		v.Who = render.Called(t.about) + ", "
	}
	for _, s := range w.sets {
		if s.Lift.Competition() {
			v.Done[s.Day] = true
		}
	}
	return v
}
