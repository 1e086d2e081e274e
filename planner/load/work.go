package load

import (
	"fmt"

	"blockbell/planner"
)

// slotWork is what n sets of a lift in one slot are, before the calendar of a
// meet changes them.
func (j *job) slotWork(st stage, s slot, n int) []Work {
	switch {
	case n <= 0:
		return nil
	case j.finding(st, s.lift):
		return []Work{j.findWork(s.lift, n)}
	case st.kind == planner.Recovery:
		return []Work{j.work(Movement{s.lift, ""}, WorkSets, n, j.fitted(st, s.lift, dose{8, 5}, 70))}
	case !j.counts(s.lift):
		return []Work{j.work(Movement{s.lift, ""}, WorkSets, n, j.fitted(st, s.lift, dose{8, 3}, 75))}
	case st.kind == planner.Hypertrophy:
		return j.muscleWork(st, s, n)
	case st.kind == planner.Peaking:
		return j.peakWork(st, s, n, 3)
	}
	return j.strengthWork(st, s, n)
}

// finding tells whether the week has to find what the lifter can do.
func (j *job) finding(st stage, l planner.Lift) bool { return j.Estimates[l].Kg == 0 }

// stepped is slotWork with the load of each piece of work held within 5 % or one
// step of the plates of the last loading week's in the same place.
func (j *job) stepped(st stage, s slot, n int) []Work {
	work := j.slotWork(st, s, n)
	if st.deload || st.loading == 0 || st.kind != planner.Hypertrophy && st.kind != planner.Strength {
		return work
	}
	for _, old := range j.placeBefore(st, s) {
		for i, w := range work {
			if w.Movement() != old.Movement() || w.Role != old.Role || w.Find {
				continue
			}
			if limit := j.rack.most(old.Weight); w.Weight > limit {
				work[i].Weight = j.rack.below(limit)
			}
		}
	}
	return work
}

// most is the heaviest that may follow a load a week later.
func (k *rack) most(w planner.Grams) planner.Grams {
	return max(w+k.step(), planner.Grams(float64(w)*(1+mostPercent/100.0)))
}

// placed names a slot in a week of the block.
type placed struct {
	week int
	slot slot
}

// placeBefore is the work of a slot in the last loading week; it is remembered,
// since every later week builds on it.
func (j *job) placeBefore(st stage, s slot) []Work {
	before := j.stageAt(st.week - 1)
	if before.deload {
		before = j.stageAt(st.week - 2)
	}
	key := placed{before.week, s}
	work, ok := j.remembered[key]
	if !ok {
		work = j.stepped(before, s, 2)
		j.remembered[key] = work
	}
	return work
}

func (j *job) muscleWork(st stage, s slot, n int) []Work {
	ladder := hypertrophyLadder
	if tier(j.level) == 0 {
		ladder = noviceLadder
	}
	g := min(s.grade, 2)
	d := j.fitted(st, s.lift, ladder[g][j.step(st, len(ladder[g]))], hypertrophyCeiling)
	m := j.variant(st.kind, s)
	if s.grade > 0 || st.week == 1 || j.Version == Cautious {
		return []Work{j.work(m, WorkSets, n, d)}
	}
	first := j.work(Movement{s.lift, ""}, FirstHeavy, 1, j.firstHeavy(st, s.lift))
	if n == 1 {
		return []Work{first}
	}
	return []Work{first, j.work(m, BackOff, n-1, d)}
}

func (j *job) strengthWork(st stage, s slot, n int) []Work {
	m := j.variant(st.kind, s)
	rung := j.step(st, len(strengthTops))
	switch {
	case s.grade == 0 && j.Version == Cautious:
		return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, strengthBacks[rung], strengthCeiling))}
	case s.grade == 0 && j.restsDeadlift(s.lift, st):
		return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, strengthBacks[rung], strengthCeiling))}
	case s.grade == 0:
		top := j.work(m, Top, 1, j.fitted(st, s.lift, strengthTops[rung], strengthCeiling))
		if n == 1 {
			return []Work{top}
		}
		back := j.fitted(st, s.lift, strengthBacks[rung], strengthCeiling)
		return []Work{top, j.work(m, BackOff, n-1, back)}
	case s.grade == 1:
		return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, strengthSeconds[rung], strengthCeiling))}
	}
	return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, strengthThirds[rung], strengthCeiling))}
}

// restsDeadlift gives lifters of 60 and older a light deadlift every other week,
// so that heavy ones come 14 days apart, and none falls into a deload (common
// practice: 10 to 14 days).
func (j *job) restsDeadlift(l planner.Lift, st stage) bool {
	if l != planner.Deadlift || j.age < 60 {
		return false
	}
	if st.wave == 0 {
		return st.deload || (st.waveLen-1-st.inWave)%2 == 1 // the last week before a deload is heavy
	}
	return st.deload || st.inWave%2 == 1
}

func (j *job) peakWork(st stage, s slot, n, countdown int) []Work {
	m := Movement{s.lift, ""}
	switch s.grade {
	case 0:
		top := j.work(m, Top, 1, j.heavy(st, s.lift, countdown))
		if n == 1 {
			return []Work{top}
		}
		return []Work{top, j.work(m, BackOff, n-1, j.fitted(st, s.lift, dose{4, 4}, 85))}
	case 1:
		return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, dose{3, 5}, 82))}
	}
	return []Work{j.work(m, WorkSets, n, j.fitted(st, s.lift, dose{4, 5}, 80))}
}

// variant picks the form of a lift in a slot: wide in hypertrophy, near to
// competition in strength, none in peaking; novices and new lifters practise the
// competition lifts.
func (j *job) variant(kind planner.BlockKind, s slot) Movement {
	plain := Movement{s.lift, ""}
	if s.grade == 0 || tier(j.level) == 0 && (s.grade < 2 || s.lift != planner.Bench) || j.level == planner.New {
		return plain
	}
	for _, v := range forms[kind][s.lift][min(s.grade, 2)-1] {
		m := Movement{s.lift, v}
		if j.rack.gym.has(find(m).needs) {
			return m
		}
	}
	return plain
}

// forms lists the variants of the second and of the lighter sessions, first
// choice first.
var forms = map[planner.BlockKind]map[planner.Lift][2][]planner.Variant{
	planner.Hypertrophy: {
		planner.Squat:    {{"high bar"}, {"front"}},
		planner.Bench:    {{"close grip"}, {"incline"}},
		planner.Deadlift: {{"stiff leg"}, {"stiff leg"}},
	},
	planner.Strength: {
		planner.Squat:    {{"paused"}, {"paused"}},
		planner.Bench:    {{"close grip"}, {"long pause"}},
		planner.Deadlift: {{"paused"}, {"paused"}},
	},
}

// findWork finds a max: sets of 5 up to effort 7, from the empty bar (common
// practice).
func (j *job) findWork(l planner.Lift, n int) Work {
	d := j.fitted(stage{kind: j.stage.kind}, l, dose{5, 3}, 100)
	w := Work{Lift: l, Name: string(l), Role: WorkSets, Sets: n, Reps: d.reps, Reserve: d.reserve, Percent: j.percent(d), Find: true, Rest: 180, Weight: j.rack.gym.Bar}
	step := map[bool]string{false: "10 kg", true: "20 lb"}[j.rack.gym.Unit == planner.LB]
	if l == planner.Bench {
		step = map[bool]string{false: "5 kg", true: "10 lb"}[j.rack.gym.Unit == planner.LB]
	}
	w.Why = fmt.Sprintf("No max is known yet. Start with the empty bar, add %s or less a set, and stop adding when %s repetitions are left; your log sets the loads from then on.", step, half(d.reserve))
	return w
}

// work dresses a dose with its load.
func (j *job) work(m Movement, role Role, n int, d dose) Work {
	e := find(m)
	_, load := j.liftBack(m.Lift)
	w := Work{Lift: m.Lift, Variant: m.Variant, Name: m.Name(), Role: role, Sets: n, Reps: d.reps, Reserve: d.reserve}
	w.Percent = j.percent(d)
	w.Max = j.Estimates[m.Lift].Max() * e.share * load
	exact := w.Max * w.Percent / 100
	w.Weight = j.rack.nearest(planner.Kilograms(exact))
	top, _ := j.ceiling(m.Lift)
	if limit := planner.Kilograms(w.Max * top / 100); w.Weight > limit && limit >= j.rack.gym.Bar {
		w.Weight = j.rack.below(limit)
	}
	w.Rest = restAfter(w)
	return w
}
