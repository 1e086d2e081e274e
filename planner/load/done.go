package load

import (
	"cmp"
	"fmt"
	"slices"

	"blockbell/planner"
)

// Bounds of what counts as a hard set when it was not rated, or was.
const (
	warmUpShare = 0.85 // of the day's top set; lighter unrated sets before it are warm-ups
	easyReserve = 5    // sets with more left are no hard sets
)

// HardSets keeps the logged sets that count as work: those rated with at most 5
// left, and unrated ones but for the warm-ups, which are lighter than 85 % of the
// day's top set of the movement and come before it. Missed and unconfirmed sets
// are none. The result is in order of day and sequence.
func HardSets(sets []planner.Set) []planner.Set {
	type key struct {
		day planner.Date
		m   Movement
	}
	top := map[key]planner.Set{}
	sorted := slices.Clone(sets)
	slices.SortStableFunc(sorted, func(a, b planner.Set) int { return cmp.Or(int(a.Day)-int(b.Day), a.Seq-b.Seq) })
	for _, s := range sorted {
		k := key{s.Day, Movement{s.Lift, s.Variant}}
		if !s.Pending && s.Reps > 0 && s.Weight > top[k].Weight {
			top[k] = s
		}
	}
	return slices.DeleteFunc(sorted, func(s planner.Set) bool {
		t := top[key{s.Day, Movement{s.Lift, s.Variant}}]
		switch {
		case s.Pending || s.Missed || s.Reps == 0:
			return true
		case s.Reserve != nil:
			return *s.Reserve > easyReserve
		}
		return s.Seq < t.Seq && s.Weight.Kg() < warmUpShare*t.Weight.Kg()
	})
}

// count is how many equal sets a logged entry holds.
func count(s planner.Set) int { return max(1, s.Sets) }

// WeekVolume is what was done in one training week.
type WeekVolume struct {
	Start   planner.Date
	Lifts   map[planner.Lift]int         // hard sets of squat, bench and deadlift, variants included
	Muscles map[Muscle]float64           // hard sets by muscle group, indirect ones half
	Tonnage map[planner.Lift]float64     // kg x repetitions of the hard sets
	Top     map[planner.Lift]planner.Set // heaviest set of the competition form
}

// Within keeps the sets of the days from one to another, both included.
func Within(sets []planner.Set, from, to planner.Date) []planner.Set {
	var in []planner.Set
	for _, s := range sets {
		if s.Day >= from && s.Day <= to {
			in = append(in, s)
		}
	}
	return in
}

// Volume adds up hard sets by training week, oldest first; weeks without a hard
// set are left out.
func Volume(sets []planner.Set, weekStart planner.Weekday) []WeekVolume {
	var weeks []WeekVolume
	for _, s := range HardSets(sets) {
		start := s.Day.OnOrBefore(weekStart)
		if len(weeks) == 0 || weeks[len(weeks)-1].Start != start {
			weeks = append(weeks, WeekVolume{start, map[planner.Lift]int{}, map[Muscle]float64{}, map[planner.Lift]float64{}, map[planner.Lift]planner.Set{}})
		}
		weeks[len(weeks)-1].add(s)
	}
	return weeks
}

func (w WeekVolume) add(s planner.Set) {
	for m, share := range Muscles(Movement{s.Lift, s.Variant}) {
		w.Muscles[m] += share * float64(count(s))
	}
	if !s.Lift.Competition() {
		return
	}
	w.Lifts[s.Lift] += count(s)
	w.Tonnage[s.Lift] += float64(count(s)*s.Reps) * s.Weight.Kg()
	if s.Variant == "" && s.Weight > w.Top[s.Lift].Weight {
		w.Top[s.Lift] = s
	}
}

// Jumps says where a week of logged work went up by more than a usual step against
// the last loading week before it: hard sets of a lift by more than 20 % and more
// than 2, or tonnage by more than 15 % (common practice; a plain note, no sign of
// anything else: ratios of load do not foretell injury, Impellizzeri et al. 2020).
func Jumps(last, now WeekVolume) (out []Change) {
	for _, l := range planner.CompetitionLifts() {
		a, b := last.Lifts[l], now.Lifts[l]
		if a > 0 && b > a+maxSetsUp && float64(b) > 1.2*float64(a) {
			out = append(out, Change{l, fmt.Sprintf("%s: %d hard sets after %d the week before.", title(string(l)), b, a)})
			continue
		}
		if t, u := last.Tonnage[l], now.Tonnage[l]; t > 0 && u > maxTonnageUp*t {
			out = append(out, Change{l, fmt.Sprintf("%s: %.0f %% more weight moved than the week before.", title(string(l)), 100*(u/t-1))})
		}
	}
	return out
}

// Fitting is how well logged work matches the aim of a block.
type Fitting struct {
	Hard, Inside int     // hard sets of the three lifts and their variants; those in the block's range
	Share        float64 // Inside by Hard; 0 where there are none
	Low, High    int     // repetitions of a set that match the block
	// Mixing: many sets of 8 and more repetitions stand beside many of 3 and fewer,
	// two aims far apart, each paid for by the other.
	Mixing bool
	Text   string
}

// fitRange is the repetitions that match a block, with the heavier first set of
// hypertrophy and the back-offs of peaking (common practice: 6 to 12, 3 to 6, 1 to
// 3).
var fitRange = map[planner.BlockKind]span{
	planner.Hypertrophy: {4, 12}, planner.Strength: {2, 6}, planner.Peaking: {1, 5}, planner.Recovery: {3, 15},
}

// mixingShare is the share of hard sets from which an aim counts as one.
const mixingShare = 0.2

// Fit tells how much of the logged work matches the block it was done in. With
// fewer than 6 hard sets it says nothing.
func Fit(sets []planner.Set, kind planner.BlockKind) Fitting {
	f := Fitting{Low: fitRange[kind].lo, High: fitRange[kind].hi}
	many, few := 0, 0
	for _, s := range HardSets(sets) {
		if !s.Lift.Competition() {
			continue
		}
		n := count(s)
		f.Hard += n
		if fitRange[kind].contains(s.Reps) {
			f.Inside += n
		}
		if s.Reps >= 8 {
			many += n
		}
		if s.Reps <= 3 {
			few += n
		}
	}
	if f.Hard == 0 {
		return f
	}
	f.Share = float64(f.Inside) / float64(f.Hard)
	least := mixingShare * float64(f.Hard)
	f.Mixing = f.Hard >= 6 && float64(many) >= least && float64(few) >= least
	f.Text = f.words(kind)
	return f
}

func (f Fitting) words(kind planner.BlockKind) string {
	switch {
	case f.Hard < 6:
		return ""
	case f.Mixing:
		return "Long sets and very heavy ones stand side by side: two aims far apart, and each takes from the other."
	case f.Share < 0.6:
		r := fitRange[kind]
		return fmt.Sprintf("Less than usual of this work matches the block: sets of %d to %d repetitions would.", r.lo, r.hi)
	}
	return "The work matches the block."
}
