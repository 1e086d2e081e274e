package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// muscleReach is how many days back the last muscle block is looked for, to know what
// keeps what it built: half a year.
const muscleReach = 182

// logWeekParams are what /log week takes.
func logWeekParams() []Param {
	return []Param{{Name: "week", About: "last, or a day in the week you mean; without it this week", Positional: true}}
}

// logWeek answers /log week: what was done in a training week, and what it was worth.
func logWeek(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	day, err := t.weekAsked(c)
	if err != nil {
		return chat.Reply{}, err
	}
	v, err := t.weekDone(c, day)
	return private(render.WeekDone(v)), err
}

// weekAsked is a day of the training week that was asked about.
func (t *turn) weekAsked(c course) (planner.Date, error) {
	text, given := t.options["week"]
	switch word := strings.ToLower(strings.TrimSpace(text)); {
	case !given || word == "this":
		return c.today, nil
	case word == "last":
		return c.today.AddDays(-7), nil
	}
	day, err := parse.Date(text, c.today)
	if err != nil {
		return 0, named("week", err)
	}
	if day > c.today {
		return 0, planner.Errorf(planner.Invalid, "What is planned: /week next.", "week: %s is still to come", day.Short())
	}
	return day, nil
}

// weekDone gathers what the training week of a day held.
func (t *turn) weekDone(c course, day planner.Date) (render.WeekDoneView, error) {
	start := day.OnOrBefore(t.club.WeekStart)
	v := render.WeekDoneView{Lifter: c.lifter, Today: c.today, Start: start, End: start.AddDays(6), Who: t.forWhom()}
	if i := planner.At(c.agreed.Season.Blocks, day); c.has && i >= 0 {
		v.Block = c.agreed.Season.Blocks[i]
		v.Week = planner.WeekOf(v.Block.Start, day, t.club.WeekStart)
		v.Start = max(v.Start, v.Block.Start)
		v.End = min(v.End, v.Block.End)
	}
	sets, err := t.tx.Sets(c.lifter.ID, v.Start.AddDays(-muscleReach), v.End)
	if err != nil {
		return v, err
	}
	own := load.Within(sets, v.Start, v.End)
	for _, w := range load.Volume(own, t.club.WeekStart) {
		v.Volume = w
	}
	v.Fit = load.Fit(own, v.Block.Kind)
	v.Kept, v.FromLog = t.keptIn(c, v, sets)
	for _, w := range load.Volume(load.Within(sets, v.Start.AddDays(-7), v.Start.AddDays(-1)), t.club.WeekStart) {
		v.Jumps = load.Jumps(w, v.Volume)
	}
	v.Overload = load.Overload(load.Within(sets, v.End.AddDays(-recentDays), v.End))
	shown, err := t.tx.Prescribed(c.lifter.ID, v.Start, v.End)
	v.Done = load.Adherence(shown, own, c.today)
	if err != nil {
		return v, err
	}
	tr, err := t.tx.Training(c.lifter.ID)
	v.Own = t.weeksOf(tr) == store.OwnWeeks
	v.Easy = easyOn(c, v.Start, t.club.WeekStart)
	return v, err
}

// easyOn tells whether an easy week or the taper began by a day and holds it.
func easyOn(c course, day planner.Date, ws planner.Weekday) bool {
	for _, e := range load.Deloads(c.agreed.Season.Blocks, c.lifter, ws, c.told()) {
		if e.From <= day && day <= e.To {
			return true
		}
	}
	i := planner.At(c.agreed.Season.Blocks, day)
	if i < 0 {
		return false
	}
	taper := c.agreed.Season.Blocks[i].TaperStart
	return !taper.IsZero() && day >= taper
}

// keptIn compares the week's sets by muscle group with what keeps muscle: a share of
// the weeks of the last muscle block in the log or, where none is there, of what such
// a block usually holds. In a muscle block itself nothing is compared.
func (t *turn) keptIn(c course, v render.WeekDoneView, sets []planner.Set) (kept []load.Kept, fromLog bool) {
	if v.Block.Kind == planner.Hypertrophy || v.Block.Kind == planner.Recovery || v.Block.Kind == "" {
		return nil, false
	}
	usual := map[load.Muscle]float64{}
	_, hi := load.MuscleRange(c.lifter.PlannedLevel())
	for _, g := range load.Groups() {
		usual[g] = float64(hi)
	}
	for i := len(c.agreed.Season.Blocks) - 1; i >= 0; i-- {
		b := c.agreed.Season.Blocks[i]
		if b.Kind != planner.Hypertrophy || b.End >= v.Start {
			continue
		}
		if weeks := load.Volume(load.Within(sets, b.Start, b.End), t.club.WeekStart); len(weeks) >= 3 {
			usual, fromLog = load.UsualWeek(weeks), true
		}
		break
	}
	return load.Upkeep(v.Volume.Muscles, usual, planner.Age(c.lifter.Born, v.Start)), fromLog
}
