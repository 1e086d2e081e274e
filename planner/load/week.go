package load

import (
	"slices"

	"blockbell/planner"
)

// Week plans the training week that holds r.Today. The error is Invalid for
// values no lifter or gym has, and NotFound where no block runs on that day.
func Week(r Request) (Plan, error) {
	p, err := week(r)
	if err != nil {
		return Plan{}, err
	}
	p.Changed = r.changes(p)
	return p, nil
}

// week is Week without the comparison with last week.
func week(r Request) (Plan, error) {
	j, err := newJob(r)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Block: j.stage.kind, Week: j.week, Weeks: max(j.block.Weeks, j.week), Start: j.start, End: j.end, Deload: j.stage.deload, Back: j.back != nil}
	switch {
	case j.Table != nil && j.Table.has(j.stage):
		p.Days, p.FromTable = j.fromTable(), true
	case j.meet.IsZero() || j.stage.kind != planner.Peaking:
		p.Days = j.sessions()
	default:
		p.Days = j.peakSessions()
		p.Taper = j.tapering()
	}
	p.Days = j.withoutGear(p.Days)
	if !p.FromTable {
		j.accessories(p.Days)
		p.Eased = j.practiceMeet(p.Days)
	}
	j.holdToPrevious(p.Days)
	p.Days = j.override(p.Days)
	p.Days = j.withoutAway(j.withoutOff(p.Days))
	j.trim(p.Days)
	p.Days = slices.DeleteFunc(p.Days, func(d Day) bool {
		return len(d.Work) == 0 || !j.meet.IsZero() && j.out(d.Date) <= taperFrom && onlyAccessories(d)
	})
	j.explain(p.Days)
	p.count()
	j.say(&p)
	p.Notes, p.LeftOut = j.notes, j.leftOut
	return p, nil
}

// onlyAccessories tells whether a session has nothing else; near a meet it is not
// worth the way.
func onlyAccessories(d Day) bool {
	return !slices.ContainsFunc(d.Work, func(w Work) bool { return w.Role != Accessory })
}

// dates returns the training dates from a to b, each with its place in the layout.
func (j *job) dates(a, b planner.Date) (days []trainingDay) {
	for d := a; d <= b; d = d.AddDays(1) {
		if i := slices.Index(j.days, d.Weekday()); i >= 0 {
			days = append(days, trainingDay{d, i})
		}
	}
	return days
}

// trainingDay is a date with its place in the layout of the week.
type trainingDay struct {
	date planner.Date
	at   int
}

// restAfterMeet is how many days after a main meet have no session (common
// practice).
const restAfterMeet = 2

// sessions lays the sets of an ordinary week over its training days.
func (j *job) sessions() []Day {
	sets := map[planner.Lift][]int{}
	for _, l := range planner.CompetitionLifts() {
		sets[l] = j.spreadSets(l)
	}
	var days []Day
	for _, t := range j.dates(j.start, j.end) {
		if j.stage.kind == planner.Recovery && !j.lastMeet.IsZero() && t.date <= j.lastMeet.AddDays(restAfterMeet) {
			continue
		}
		day := Day{Date: t.date}
		for _, s := range j.layout[t.at] {
			if s.grade < len(sets[s.lift]) {
				day.Work = append(day.Work, j.stepped(j.stage, s, sets[s.lift][s.grade])...)
			}
		}
		days = append(days, day)
	}
	return j.afterMeet(days, sets)
}

// afterMeet gives a lift its easy sets of the week on the session with least where its
// own days fell away behind a meet.
func (j *job) afterMeet(days []Day, sets map[planner.Lift][]int) []Day {
	if j.stage.kind != planner.Recovery || len(days) == 0 {
		return days
	}
	for _, l := range planner.CompetitionLifts() {
		lifted := slices.ContainsFunc(days, func(d Day) bool {
			return slices.ContainsFunc(d.Work, func(w Work) bool { return w.Lift == l })
		})
		if lifted || !j.counts(l) {
			continue
		}
		least := 0
		for i, d := range days {
			if d.sets() < days[least].sets() {
				least = i
			}
		}
		days[least].Work = append(days[least].Work, j.slotWork(j.stage, slot{l, 0}, sets[l][0])...)
	}
	return days
}

// spreadSets is the week's hard sets of a lift by grade, after what a return
// takes off.
func (j *job) spreadSets(l planner.Lift) []int {
	n, _ := j.setsOf(l)
	if share, _ := j.liftBack(l); share < 1 {
		n = max(1, int(share*float64(n)+0.5))
	}
	return split(n, j.grades(l))
}

// withoutOff takes lifts off that a lifter has taken off the plan.
func (j *job) withoutOff(days []Day) []Day {
	said := map[planner.Lift]bool{}
	for i := range days {
		days[i].Work = slices.DeleteFunc(days[i].Work, func(w Work) bool {
			off := j.off(w.Lift, days[i].Date)
			if off && !said[w.Lift] {
				said[w.Lift] = true
				j.leftOut = append(j.leftOut, j.offText(w.Lift))
			}
			return off
		})
	}
	return days
}

func (j *job) offText(l planner.Lift) string {
	for _, o := range j.Off {
		if o.Lift == l {
			return "The " + string(l) + " is off your plan until " + o.Until.Short() + "."
		}
	}
	return ""
}

// withoutGear takes out what the gym lacks the gear for; accessories then train
// the muscles that lose work by it.
func (j *job) withoutGear(days []Day) []Day {
	for i := range days {
		days[i].Work = slices.DeleteFunc(days[i].Work, func(w Work) bool { return !j.rack.gym.has(find(w.Movement()).needs) })
	}
	return days
}
