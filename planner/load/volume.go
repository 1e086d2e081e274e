package load

import (
	"math"

	"blockbell/planner"
)

// setsOf returns the weekly hard sets of a lift in the week of the job, and those
// of the last loading week before it (0 in the first).
func (j *job) setsOf(l planner.Lift) (now, last int) {
	tonnage := 0.0
	for week := 1; ; week++ {
		st := j.stageAt(week)
		n := j.target(st, l)
		switch {
		case st.deload:
			n = j.easier(max(last, 1))
		case last > 0 && st.kind != planner.Peaking && st.kind != planner.Recovery:
			n = min(n, last+maxSetsUp)
			for n > last && j.tonnage(st, l, n) > maxTonnageUp*tonnage {
				n--
			}
		}
		if week >= j.stage.week {
			return n, last
		}
		if light := st.kind == planner.Strength && j.restsDeadlift(l, st); !st.deload && !light {
			last, tonnage = n, j.tonnage(st, l, n)
		}
	}
}

// easier is what a deload leaves of n sets.
func (j *job) easier(n int) int { return max(1, int(math.Round(deloadShare*float64(n)))) }

// target is the weekly hard sets of a lift before the limits on steps.
func (j *job) target(st stage, l planner.Lift) int {
	if st.kind == planner.Recovery {
		return j.recoverySets(st, l)
	}
	if !j.counts(l) {
		return j.upkeepSets(l)
	}
	r := j.ramp(st.kind, l)
	if st.kind == planner.Peaking {
		return max(r.top, r.start-st.loading)
	}
	return r.start + int(math.Round(j.rise(st)*float64(r.top-r.start)))
}

// upkeepSets is what a lift keeps that the meet ahead does not count.
func (j *job) upkeepSets(l planner.Lift) int {
	top := ramps[planner.Hypertrophy][tier(j.level)][index(l)].top
	return int(math.Ceil(upkeepShare(j.age) * float64(top)))
}

// recoverySets is about half of what a strength block begins with.
func (j *job) recoverySets(st stage, l planner.Lift) int {
	start := ramps[planner.Strength][tier(j.level)][index(l)].start
	share := min(0.4+0.15*float64(st.week-1), 0.7)
	return max(2, int(math.Round(share*float64(start))))
}

// ramp is the row of the ramp table, lowered where the week has too few sessions
// for its top.
func (j *job) ramp(kind planner.BlockKind, l planner.Lift) struct{ start, top int } {
	r := ramps[kind][tier(j.level)][index(l)]
	if room := j.mainRoom(kind); room < 1 {
		lo := j.leastSets(kind, l)
		r.top = max(lo, int(room*float64(r.top)))
		r.start = min(r.start, max(lo, r.top))
	}
	if j.Version == Cautious {
		r.top = r.start
	}
	return r
}

// mainRoom is the share of a block's top sets that the training days hold, 1 and
// more where all fit.
func (j *job) mainRoom(kind planner.BlockKind) float64 {
	sum := 0
	for _, l := range planner.CompetitionLifts() {
		if j.counts(l) {
			r := ramps[kind][tier(j.level)][index(l)]
			sum += max(r.top, r.start)
		} else {
			sum += j.upkeepSets(l)
		}
	}
	return float64(maxMainSets*len(j.days)) / float64(sum)
}

// leastSets is the low end of the table, or less where a single day a week cannot
// hold that.
func (j *job) leastSets(kind planner.BlockKind, l planner.Lift) int {
	lo := setTable[kind][tier(j.level)].of(l).lo
	if len(j.days) == 1 {
		return (lo + 1) / 2
	}
	return lo
}

// newAtLow is how many weeks a new lifter stays at the low end.
const newAtLow = 3

// rise is how far the sets have risen in this week: 0 at the start of the block,
// 1 at its top. Later waves begin half way up; a wave of 6 weeks and more without
// a deload inside is two waves.
func (j *job) rise(st stage) float64 {
	if j.back != nil && j.back.Anew {
		return 0 // who begins anew builds up to where a block begins, not to its top
	}
	at, length, wave := st.inWave, st.waveLen, st.wave
	if length >= 6 {
		half := (length + 1) / 2
		if at >= half {
			at, length, wave = at-half, length-half, wave+1
		} else {
			length = half
		}
	}
	if j.level == planner.New {
		return max(0, min(1, float64(st.loading+1-newAtLow)/4))
	}
	f := 0.0
	if length > 1 {
		f = min(1, float64(at)/float64(length-1)) // a deload stands behind the top of its wave
	} else if wave > 0 {
		f = 1
	}
	if wave > 0 {
		return 0.5 + 0.5*f
	}
	return f
}

// tonnage is sets x repetitions x percent of a lift in a week, which compares
// weeks as kilograms would before rounding.
func (j *job) tonnage(st stage, l planner.Lift, n int) float64 {
	t := 0.0
	for grade, sets := range split(n, j.grades(l)) {
		for _, w := range j.stepped(st, slot{l, grade}, sets) {
			kg := w.Weight.Kg()
			if kg == 0 || w.Find {
				kg = w.Percent
			}
			t += float64(w.Sets*w.Reps) * kg
		}
	}
	return t
}
