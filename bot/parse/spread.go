package parse

import (
	"math"

	"blockbell/planner"
)

// spread makes one planner.Set of each run of equal sets: "5,5,4" is two of five
// and one of four; one effort for each set parts them too.
func (p *placer) spread(w *work, base planner.Set, reps []int, count int) []planner.Set {
	if len(reps) == 1 && count == 1 && len(w.efforts) > 1 {
		count = len(w.efforts) // "140x5 @7,8,9" can only be three sets
	}
	each := make([]planner.Set, 0, len(reps))
	efforts := p.efforts(w, max(len(reps), count))
	if len(reps) == 1 && len(efforts) <= 1 {
		base.Sets = count
		return []planner.Set{rated(made(base, w, reps[0]), w, efforts, 0)}
	}
	earlier := *w // of several sets only the last was missed, unless all were
	earlier.missed = w.missed && w.every
	for i := range max(len(reps), count) {
		of := w
		if i < max(len(reps), count)-1 {
			of = &earlier
		}
		set := rated(made(base, of, reps[min(i, len(reps)-1)]), w, efforts, i)
		if n := len(each); n > 0 && same(each[n-1], set) {
			each[n-1].Sets++
			continue
		}
		each = append(each, set)
	}
	if w.missed {
		each = lastMissed(each, w.failedAt)
	}
	return each
}

// efforts returns the efforts of n sets: none, one for all, or one for each. Any
// other number is a problem, and the sets are kept without.
func (p *placer) efforts(w *work, n int) []float64 {
	if len(w.efforts) > 1 && len(w.efforts) != n {
		p.r.quoted(w.effortCol, "Write one effort, or one for each set.", "the efforts are not as many as the sets")
		return nil
	}
	if w.unrated {
		return nil
	}
	if len(w.efforts) == 0 && w.felt > 0 && !w.missed && !w.amrap {
		return []float64{w.felt}
	}
	return w.efforts
}

// made says how many repetitions were made: "2/3" and "got 2" say it, a missed set
// lost its last one, and no repetition at all is a miss.
func made(set planner.Set, w *work, reps int) planner.Set {
	set.Reps = reps
	switch {
	case w.tried > 0:
		set.Missed = reps < w.tried
	case reps == 0:
		set.Missed = true
	case w.missed && len(w.reps) == 1:
		set.Missed = true
		set.Reps--
	}
	return set
}

// lastMissed marks the last of several listed sets as missed, at the given
// repetition or else at its last.
func lastMissed(sets []planner.Set, at int) []planner.Set {
	n := len(sets) - 1
	if sets[n].Missed {
		return sets
	}
	last := sets[n]
	last.Missed, last.Sets = true, 1
	last.Reps = max(last.Reps-1, 0)
	if at > 0 {
		last.Reps = at - 1
	}
	if sets[n].Sets--; sets[n].Sets == 0 {
		sets = sets[:n]
	}
	return append(sets, last)
}

// rated sets the reserve of set i from its effort.
func rated(set planner.Set, w *work, efforts []float64, i int) planner.Set {
	var effort float64
	switch {
	case len(efforts) > 0:
		effort = efforts[min(i, len(efforts)-1)]
	case w.amrap:
		effort = mostEffort
	default:
		return set
	}
	left := math.Round((mostEffort-effort)*100) / 100
	set.Reserve = &left
	return set
}

// same tells whether two sets differ in nothing but their number.
func same(a, b planner.Set) bool {
	if (a.Reserve == nil) != (b.Reserve == nil) || a.Reserve != nil && *a.Reserve != *b.Reserve {
		return false
	}
	return a.Reps == b.Reps && a.Missed == b.Missed && a.Weight == b.Weight
}
