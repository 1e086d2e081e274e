package load

import (
	"cmp"
	"math"
	"slices"

	"blockbell/planner"
)

// Kept is the sets of one muscle group in a week against those that keep it.
type Kept struct {
	Muscle Muscle
	Sets   float64
	Need   float64 // share of the hypertrophy block's weekly sets
}

// Short tells whether the group got less than what keeps it.
func (k Kept) Short() bool { return k.Sets < k.Need-1e-9 }

// Upkeep compares a week with what keeps muscle: a third of the hypertrophy
// block's weekly sets, a half from 60 years (Bickel et al. 2011; Spiering et al.
// 2021). muscle and hypertrophy are weekly hard sets by group; age -1 is unknown.
func Upkeep(week, hypertrophy map[Muscle]float64, age int) []Kept {
	var out []Kept
	for _, g := range Groups() {
		out = append(out, Kept{g, week[g], upkeepShare(age) * hypertrophy[g]})
	}
	return out
}

// Adhered is how much of a plan was done.
type Adhered struct {
	Sessions, SessionsDone int
	Sets, SetsDone         int // planned sets of the three lifts; of those, at most as many as planned count as done
	Share                  float64
}

// Adherence compares planned days with what was logged on them or up to the end of
// their week: sets by lift, sessions by day. Days after today are not counted.
func Adherence(planned []Day, done []planner.Set, today planner.Date) Adhered {
	var a Adhered
	plan, made := map[planner.Lift]int{}, map[planner.Lift]int{}
	logged := map[planner.Date]bool{}
	for _, s := range HardSets(done) {
		made[s.Lift] += count(s)
		logged[s.Day] = true
	}
	trained := 0
	for range logged {
		trained++
	}
	for _, d := range planned {
		if d.Date > today {
			continue
		}
		a.Sessions++
		for _, w := range d.Work {
			if w.Lift.Competition() {
				plan[w.Lift] += w.Sets
			}
		}
	}
	a.SessionsDone = min(trained, a.Sessions)
	for l, n := range plan {
		a.Sets += n
		a.SetsDone += min(n, made[l])
	}
	if a.Sets > 0 {
		a.Share = float64(a.SetsDone) / float64(a.Sets)
	}
	return a
}

// Progress is how the load of a lift moved at equal repetitions and reserve.
type Progress struct {
	Lift           planner.Lift
	Reps           int
	Reserve        float64
	From, To       planner.Date
	Before, After  planner.Grams
	PercentPerWeek float64
}

// Overload finds, for each competition lift, repetitions and reserve that were
// lifted at least a week apart, how the heaviest load moved between the first and
// the last time. Only rated sets compare. The longest spans come first.
func Overload(sets []planner.Set) []Progress {
	type key struct {
		lift    planner.Lift
		reps    int
		reserve float64
	}
	found := map[key]*Progress{}
	var keys []key
	for _, s := range HardSets(sets) {
		if !s.Lift.Competition() || s.Variant != "" || s.Reserve == nil || s.Weight <= 0 {
			continue
		}
		k := key{s.Lift, s.Reps, math.Round(*s.Reserve*2) / 2}
		p := found[k]
		if p == nil {
			found[k] = &Progress{Lift: s.Lift, Reps: s.Reps, Reserve: k.reserve, From: s.Day, To: s.Day, Before: s.Weight, After: s.Weight}
			keys = append(keys, k)
			continue
		}
		p.see(s)
	}
	var out []Progress
	for _, k := range keys {
		p := found[k]
		if days := p.From.DaysUntil(p.To); days >= 7 {
			p.PercentPerWeek = 100 * math.Log(float64(p.After)/float64(p.Before)) / float64(days) * 7
			out = append(out, *p)
		}
	}
	slices.SortStableFunc(out, func(a, b Progress) int {
		return cmp.Or(index(a.Lift)-index(b.Lift), b.From.DaysUntil(b.To)-a.From.DaysUntil(a.To))
	})
	return out
}

// see takes in a later set; of one day the heaviest counts.
func (p *Progress) see(s planner.Set) {
	switch {
	case s.Day == p.From:
		p.Before = max(p.Before, s.Weight)
		p.After = p.Before
	case s.Day == p.To:
		p.After = max(p.After, s.Weight)
	default:
		p.To, p.After = s.Day, s.Weight
	}
}

// Counts are the repetitions usual in one session at a load, by A. S. Prilepin's
// table (1974, in the contiguous form printed by Hristov 2005). Information, never
// a bound: sets of more than 6 are outside it.
type Counts struct {
	RepsLow, RepsHigh int // in a set
	Low, Usual, High  int // in a session
}

// Prilepin returns the row of the table for a percent of the max.
func Prilepin(percent float64) Counts {
	switch {
	case percent < 70:
		return Counts{3, 6, 18, 24, 30}
	case percent < 80:
		return Counts{3, 6, 12, 18, 24}
	case percent < 90:
		return Counts{2, 4, 10, 15, 20}
	}
	return Counts{1, 2, 4, 7, 10}
}

// Counts returns the row of Prilepin's table for the work, false where it has none:
// sets of more than 6 and accessories are outside it.
func (w Work) Counts() (Counts, bool) {
	if w.Percent == 0 || w.Reps > 6 {
		return Counts{}, false
	}
	return Prilepin(w.Percent), true
}
