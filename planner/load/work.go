package load

import (
	"fmt"
	"math"

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
	case s.grade == 0 && j.restsDeadlift(s.lift, st.week) && !st.deload:
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
// so that heavy ones come 10 to 14 days apart (common practice).
func (j *job) restsDeadlift(l planner.Lift, week int) bool {
	return l == planner.Deadlift && j.age >= 60 && week%2 == 0
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
	w := Work{Lift: l, Name: string(l), Role: WorkSets, Sets: n, Reps: 5, Reserve: 3, Find: true, Rest: 180, Weight: j.rack.gym.Bar}
	w.Percent = j.percent(dose{5, 3})
	step := "10 kg"
	if l == planner.Bench {
		step = "5 kg"
	}
	if j.rack.gym.Unit == planner.LB {
		step = map[string]string{"10 kg": "20 lb", "5 kg": "10 lb"}[step]
	}
	w.Why = fmt.Sprintf("No max is known yet. Start with the empty bar, add %s or less a set, and stop adding when 3 repetitions are left; your log sets the loads from then on.", step)
	return w
}

// work dresses a dose with its load.
func (j *job) work(m Movement, role Role, n int, d dose) Work {
	e := find(m)
	_, load := j.liftBack(m.Lift)
	w := Work{Lift: m.Lift, Variant: m.Variant, Name: m.Name(), Role: role, Sets: n, Reps: d.reps, Reserve: d.reserve}
	w.Percent = j.percent(d)
	w.Max = j.Estimates[m.Lift].max() * e.share * load
	exact := w.Max * w.Percent / 100
	w.Weight = j.rack.nearest(planner.Kilograms(exact))
	top, _ := j.ceiling(m.Lift)
	if limit := planner.Kilograms(w.Max * top / 100); w.Weight > limit && limit >= j.rack.gym.Bar {
		w.Weight = j.rack.below(limit)
	}
	w.Rest = restAfter(w)
	return w
}

// explain adds to each load where it comes from.
func (j *job) explain(days []Day) {
	for i := range days {
		for k, w := range days[i].Work {
			if w.Percent > 0 && !w.Find {
				days[i].Work[k].Why = join(j.why(w), w.Why)
			}
		}
	}
}

// why tells where a load comes from.
func (j *job) why(w Work) string {
	share := find(w.Movement()).share
	_, load := j.liftBack(w.Lift)
	unit := j.rack.gym.Unit
	of := "your estimated max"
	if j.Estimates[w.Lift].Source == Claimed {
		of = "95 % of the max you told"
	}
	text := fmt.Sprintf("%.0f %% of %s: %s with %s left.", w.Percent, planner.Kilograms(w.Max).Text(unit), plural(w.Reps, "repetition"), half(w.Reserve))
	switch {
	case w.Variant != "":
		text += fmt.Sprintf(" A %s is taken at %.0f %% of the %s.", w.Name, share*100, w.Lift)
	case load < 1:
		text += fmt.Sprintf(" Your max is taken %.0f %% lower for now.", (1-load)*100)
	default:
		text = fmt.Sprintf("%.0f %% of %s (%s): %s with %s left.", w.Percent, of, planner.Kilograms(w.Max).Text(unit), plural(w.Reps, "repetition"), half(w.Reserve))
	}
	if w.Max > 0 && planner.Kilograms(w.Max*w.Percent/100) < j.rack.gym.Bar {
		text += " The empty bar is the lightest there is: slow, exact repetitions."
	}
	if top, why := j.ceiling(w.Lift); why != "" && w.Percent > top-2 {
		text += " " + sentence(why)
	}
	return text
}

// restAfter is the pause between sets in seconds, longer for heavier work (common
// practice).
func restAfter(w Work) int {
	switch {
	case w.Role == Accessory:
		return 90
	case w.Percent >= 88:
		return 240
	case w.Percent >= 80:
		return 210
	case w.Percent >= 75:
		return 180
	}
	return 150
}

// half writes repetitions left in halves as a lifter says them.
func half(r float64) string {
	if r >= 6 {
		return "6 or more"
	}
	if r == math.Trunc(r) {
		return fmt.Sprintf("%.0f", r)
	}
	return fmt.Sprintf("%.0f-%.0f", math.Floor(r), math.Ceil(r))
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// sentence makes a clause a sentence.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return string(s[0]-'a'+'A') + s[1:] + "."
}
