package load

import (
	"math"

	"blockbell/planner"
)

// Gaps between two main meets that leave no room for a peaking block of its own
// (common practice).
const (
	holdGap     = 10
	shortGap    = 17
	easyDays    = 5
	holdShare   = 0.4
	tuneUpShare = 0.55
	tuneUpEasy  = 3 // easy days after a practice meet
)

// gapBetweenMeets is the days from the meet behind to the meet ahead; 0 where none
// is behind this block.
func (j *job) gapBetweenMeets() int {
	if j.lastMeet.IsZero() || j.lastMeet > j.block.Start || j.lastMeet.AddDays(shortGap+1) < j.meet {
		return 0
	}
	return j.lastMeet.DaysUntil(j.meet)
}

// betweenTwo tells whether the block fills a gap of up to 17 days between meets.
func (j *job) betweenTwo() bool {
	gap := j.gapBetweenMeets()
	return !j.meet.IsZero() && gap > 0 && gap <= shortGap
}

// betweenMeets plans a gap of up to 17 days: two light sessions in a hold of up
// to 10, else easy days, one session at 85 to 88 %, and the taper's last week.
func (j *job) betweenMeets(gap int) []Day {
	var days []Day
	heavy := j.heavyBetween(gap)
	light := j.lightBetween(gap, heavy)
	for _, t := range j.dates(j.start, j.end) {
		day := Day{Date: t.date}
		switch {
		case t.date == heavy:
			day.Work = j.everyLift(dose{2, 3.5}, 85, 88)
			day.Note = "The one heavier session between the two meets."
		case light[t.date]:
			day.Work = j.everyLift(dose{2, 7}, 70, 75)
			day.Note = "Light: keep the feeling, nothing at 85 % or more."
		}
		days = append(days, day)
	}
	return days
}

// heavyBetween is the day of the one heavier session, 7 to 10 days before the
// meet and after the easy days; zero in a hold.
func (j *job) heavyBetween(gap int) planner.Date {
	var best planner.Date
	for _, t := range j.dates(j.lastMeet.AddDays(easyDays), j.meet.AddDays(-7)) {
		if gap > holdGap && j.out(t.date) <= 10 && (best == 0 || math.Abs(float64(j.out(t.date))-8.5) < math.Abs(float64(j.out(best))-8.5)) {
			best = t.date
		}
	}
	return best
}

// lightBetween chooses two light days: after three days of rest, before two.
func (j *job) lightBetween(gap int, heavy planner.Date) map[planner.Date]bool {
	days := map[planner.Date]bool{}
	from := j.lastMeet.AddDays(3)
	if heavy != 0 {
		from = heavy.AddDays(2)
	}
	all := j.dates(from, j.meet.AddDays(-lastSessionMin))
	for i := len(all) - 1; i >= 0 && len(days) < 2; i-- {
		if !days[all[i].date.AddDays(1)] {
			days[all[i].date] = true
		}
	}
	return days
}

// everyLift has each lift that counts once, with a fifth of a week's sets.
func (j *job) everyLift(d dose, lo, hi float64) (work []Work) {
	for _, l := range planner.CompetitionLifts() {
		if !j.counts(l) {
			continue
		}
		n := max(1, int(math.Round(holdShare/2*float64(ramps[planner.Peaking][tier(j.level)][index(l)].start))))
		if j.finding(j.stage, l) {
			work = append(work, j.findWork(l, n))
			continue
		}
		role := Technique
		best := j.nearest(d.reps, (lo+hi)/2, lo, hi)
		if lo >= heavyFrom {
			role = Top
		} else {
			best = j.lightDose(l, lo, hi)
		}
		work = append(work, j.work(Movement{l, ""}, role, n, j.fitted(j.stage, l, best, hi)))
	}
	return work
}

// lightDose is a triple inside lo to hi, deadlifts at the low end.
func (j *job) lightDose(l planner.Lift, lo, hi float64) dose {
	aim := (lo + hi) / 2
	if l == planner.Deadlift {
		aim = lo + 1
	}
	return j.under(dose{3, 4}, aim+1)
}

// meetWord names a kind of meet on screen.
func meetWord(m planner.Meet) string {
	switch m.Kind {
	case planner.TuneUp:
		return "practice meet"
	case planner.Test:
		return "test day"
	}
	return "meet"
}

// practiceMeet eases the days around a practice meet, or any other the block is
// not peaking for: about half the sets in the
// week before it, the last heavy squat and deadlift 6 or 7 days out, the bench 4
// or 5, rest the day before, easy days after it (common practice). It tells whether
// it changed anything.
func (j *job) practiceMeet(days []Day) (eased bool) {
	for _, m := range j.Meets {
		if m.Date == j.meet {
			continue
		}
		share := easeShare(days, m.Date)
		if j.stage.deload {
			share = 1 // its sets are halved already
		}
		for i := range days {
			out := days[i].Date.DaysUntil(m.Date)
			switch {
			case out == 0 || out == 1:
				days[i].Work, eased = nil, true
			case out > 1 && out <= 7:
				eased = true
				j.easeBefore(&days[i], out, share)
				days[i].Note = join(days[i].Note, "Less work before the "+meetWord(m)+".")
			case out < 0 && out >= -tuneUpEasy && !j.stage.deload:
				eased = true
				j.easeAll(&days[i], 1, 2)
				days[i].Note = join(days[i].Note, "Easy day after the "+meetWord(m)+".")
			}
		}
	}
	return eased
}

// easeShare is the share of its sets that a day before a practice meet keeps, so
// that the week keeps a good half of them although it loses its last session.
func easeShare(days []Day, meet planner.Date) float64 {
	all, before := 0, 0
	for _, d := range days {
		out := d.Date.DaysUntil(meet)
		if out >= 0 && out <= 7 {
			all += d.sets()
		}
		if out > 1 && out <= 7 {
			before += d.sets()
		}
	}
	if before == 0 {
		return 1
	}
	return min(1, tuneUpShare*float64(all)/float64(before))
}

// easeBefore cuts the sets of a day before a practice meet and lowers what comes
// too near to it.
func (j *job) easeBefore(d *Day, out int, share float64) {
	for i, w := range d.Work {
		left := 0.0
		if w.Lift == planner.Bench && out < 4 || w.Lift != planner.Bench && out < 6 {
			left = restDose
		}
		d.Work[i] = j.eased(w, share, left)
	}
}

func (j *job) easeAll(d *Day, share, left float64) {
	for i, w := range d.Work {
		d.Work[i] = j.eased(w, share, left)
	}
}

// eased is work with a share of its sets and more left.
func (j *job) eased(w Work, share, left float64) Work {
	n := max(1, int(math.Round(share*float64(w.Sets))))
	if w.Find || w.Role == Accessory {
		w.Sets = n
		return w
	}
	if left > 0 && w.Percent > 80 {
		left++
	}
	return j.work(w.Movement(), w.Role, n, dose{w.Reps, w.Reserve + left})
}
