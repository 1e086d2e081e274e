package load

import (
	"math"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// dose is repetitions and what is left after them; the percent follows.
type dose struct {
	reps    int
	reserve float64
}

// percent is the load the dose asks for, in percent of the max.
func (j *job) percent(d dose) float64 {
	return strength.Percent(j.eq(), float64(d.reps)+d.reserve)
}

// Ladders of doses: one step a loading week, half a repetition or one repetition
// nearer to failure, which is the weekly step of the load. All common practice:
// hypertrophy 6 to 12 repetitions with 1 to 3 left, strength 3 to 6 with 2 to 4.
var (
	hypertrophyLadder = [3][]dose{
		{{8, 3}, {8, 2.5}, {8, 2}, {6, 3}, {6, 3}},
		{{10, 3}, {10, 2.5}, {10, 2}, {8, 3}, {8, 2.5}},
		{{12, 3}, {12, 2.5}, {12, 2}, {10, 3}, {10, 2.5}},
	}
	noviceLadder = [3][]dose{
		{{8, 3}, {8, 2.5}, {8, 2}, {6, 3}, {6, 3}},
		{{8, 3.5}, {8, 3}, {8, 2.5}, {7, 3}, {7, 2.5}},
		{{8, 4}, {8, 3.5}, {8, 3}, {7, 3.5}, {7, 3}},
	}
	strengthTops    = []dose{{5, 3}, {5, 2.5}, {4, 3}, {4, 2.5}, {3, 3}, {3, 2.5}}
	strengthBacks   = []dose{{5, 4}, {5, 4}, {5, 3.5}, {5, 3.5}, {4, 4}, {4, 4}}
	strengthSeconds = []dose{{6, 3}, {6, 2.5}, {5, 3}, {5, 2.5}, {4, 3}, {4, 3}}
	strengthThirds  = []dose{{6, 4}, {6, 3.5}, {6, 3}, {5, 3.5}, {5, 3}, {5, 3}}
)

// Ceilings in percent of the max (common practice; hypertrophy and strength by
// the trade's usual ranges).
const (
	hypertrophyCeiling = 78
	firstHeavyLow      = 77
	firstHeavyHigh     = 82
	strengthCeiling    = 88
	singleCeiling      = 93
	benchCeiling       = 94
	heavyFrom          = 85 // what counts as a heavy set
	youthCeiling       = 85 // under 18
	provenCeiling      = 90 // under 18, technique proven and supervised
	firstMeetCeiling   = 90
	cautiousCeiling    = 80
	restDose           = 2 // more left in a deload
)

// step is the rung of a ladder with n rungs in this loading week. In hypertrophy
// a later wave begins two rungs up, in strength the ladder spans the block.
func (j *job) step(st stage, n int) int {
	at := st.loading
	if st.deload {
		at-- // the loads of the week before it, with more left
	}
	if st.kind == planner.Hypertrophy {
		again := 2*st.wave + at - st.loading + st.inWave
		if tier(j.level) == 0 || j.mainRoom(st.kind) < 1 {
			again = n // the sets hardly fall at the start of a wave, so repetitions do not rise
		}
		return max(0, min(n-1, at-st.wave, again))
	}
	if st.total < 2 {
		return 0
	}
	even := int(math.Round(float64((n-1)*at) / float64(st.total-1)))
	return max(0, min(even, 2*at, n-1))
}

// ceiling is the highest percent this lifter is given for a lift today, and the
// reason where it is not the usual one.
func (j *job) ceiling(l planner.Lift) (float64, string) {
	top, why := float64(singleCeiling), ""
	if l == planner.Bench {
		top = benchCeiling
	}
	lower := func(to float64, reason string) {
		if to < top {
			top, why = to, reason
		}
	}
	if !j.Lifter.HasCompeted {
		lower(firstMeetCeiling, "first meet: nothing above 90 %")
	}
	if j.young() && j.Supervised {
		lower(provenCeiling, "under 18: nothing above 90 %")
	} else if j.young() {
		lower(youthCeiling, "under 18: nothing above 85 % until a coach has seen the technique")
	}
	if j.back != nil && !j.back.heavy || j.unheavy(l) {
		lower(heavyFrom-0.5, "nothing at 85 % or more so soon")
	}
	if j.Version == Cautious {
		lower(cautiousCeiling, "careful version: no maximal work")
	}
	return top, why
}

func (j *job) young() bool { return j.age >= 0 && j.age < 18 }

// unheavy tells whether the log shows the lift in the last three weeks, but never
// at 85 % or more: then no peaking single comes above that.
func (j *job) unheavy(l planner.Lift) bool {
	most := 0.0
	for _, s := range j.Recent {
		if s.Lift == l && s.Variant == "" && !s.Missed && s.Reps > 0 && s.Day < j.start && s.Day >= j.start.AddDays(-21) {
			most = max(most, s.Weight.Kg())
		}
	}
	e := j.Estimates[l].Max()
	const rounding = 1 // what rounding to discs may have taken from 85 %
	return j.block.Kind == planner.Peaking && most > 0 && e > 0 && most/e*100 < heavyFrom-rounding
}

// fitted raises the reserve of a dose for age, version and deload, and until its
// percent is under the ceiling.
func (j *job) fitted(st stage, l planner.Lift, d dose, high float64) dose {
	if j.age >= 60 {
		d.reserve++
	}
	if st.deload {
		d.reserve += restDose
	}
	if j.young() {
		d.reserve = max(2, d.reserve)
	}
	if j.Version == Cautious {
		d.reserve = max(4, d.reserve)
	}
	top, _ := j.ceiling(l)
	return j.under(d, min(top, high))
}

// under raises the reserve of a dose until its percent is at most top, or as low
// as the relation goes.
func (j *job) under(d dose, top float64) dose {
	for j.percent(d) > top && float64(d.reps)+d.reserve < strength.MaxReps {
		d.reserve += 0.5
	}
	return d
}

// firstHeavy is the one heavier first set a week of hypertrophy: 4 to 6
// repetitions at 77 to 82 % (maximal strength lasts 30 +- 5 days without it,
// Issurin 2008).
func (j *job) firstHeavy(st stage, l planner.Lift) dose {
	aim := firstHeavyLow + 1.0 + float64(j.step(st, 5))
	left := 3.0
	if j.age >= 60 {
		left++
	}
	if st.deload {
		aim, left = firstHeavyLow+0.5, left+restDose
	}
	best, off := dose{6, left}, math.Inf(1)
	for reps := 4; reps <= 6; reps++ {
		for r := left; r >= left-0.5; r -= 0.5 {
			d := dose{reps, r}
			p := j.percent(d)
			outside := max(0, firstHeavyLow-p, p-firstHeavyHigh)
			if miss := 10*outside + math.Abs(p-aim); miss < off {
				best, off = d, miss
			}
		}
	}
	top, _ := j.ceiling(l)
	return j.under(best, top)
}

// heavyAims are the top sets of peaking, counted back from the last heavy day:
// repetitions and percent (common practice: singles 90 to 93 %, doubles 87 to 90,
// triples 84 to 87; final heavy load 90 to 92.5 % in the survey of Travis et al.
// 2021).
var heavyAims = []struct {
	reps         int
	aim, lo, top float64
}{
	{1, 91, 90, 92}, {1, 92, 90, 93}, {2, 88.8, 87, 90}, {2, 87.6, 87, 90}, {3, 86, 84, 87}, {3, 85, 84, 87}, {3, 84.5, 84, 87},
}

// noviceAims are those of a first meet and of lifters under 18: no singles.
var noviceAims = []struct {
	reps         int
	aim, lo, top float64
}{
	{2, 88.8, 87, 90}, {2, 87.6, 87, 90}, {3, 86, 84, 87}, {3, 85, 84, 87}, {3, 84.5, 84, 87},
}

// heavy is the top set of a lift on its heavy day of peaking, countdown heavy days
// before the last one.
func (j *job) heavy(st stage, l planner.Lift, countdown int) dose {
	aims := heavyAims
	if !j.Lifter.HasCompeted || j.young() || j.Version == Cautious {
		aims = noviceAims
	}
	a := aims[max(0, min(countdown, len(aims)-1))]
	if l == planner.Bench && countdown == 1 && a.reps == 1 {
		a.aim, a.top = 93, benchCeiling
	}
	if st.week == 1 && j.before.Kind != planner.Strength && !j.samePeak() {
		a = aims[len(aims)-1]
		a.aim, a.lo, a.top = 84, 80, 85
	}
	return j.fitted(st, l, j.nearest(a.reps, a.aim, a.lo, a.top), a.top)
}

// samePeak tells whether this peaking continues the one before the last meet: under
// 5 weeks ago (common practice).
func (j *job) samePeak() bool {
	return !j.lastMeet.IsZero() && !j.meet.IsZero() && j.lastMeet.DaysUntil(j.meet) < 35
}

// nearest is the dose of reps, reserve in halves, whose percent is nearest to the
// aim inside lo to hi; outside where the relation has none inside.
func (j *job) nearest(reps int, aim, lo, hi float64) dose {
	best, off := dose{reps, 3}, math.Inf(1)
	for r := 1.0; r <= 6; r += 0.5 {
		p := j.percent(dose{reps, r})
		outside := max(0, lo-p, p-hi)
		if miss := 10*outside + math.Abs(p-aim); miss < off {
			best, off = dose{reps, r}, miss
		}
	}
	return best
}
