package sheet

import (
	"encoding/binary"
	"hash/fnv"

	"blockbell/planner"
)

// New is a set that the log does not have. Marks are digests of it, one for each
// time that it was done, by which it is known when it comes again.
type New struct {
	Set   planner.Set
	Marks []int64
}

// alike is all of a set but how often it was done: five sets are the same whether a
// file writes them in one row or in five.
type alike struct {
	day     planner.Date
	lift    planner.Lift
	variant planner.Variant
	weight  planner.Grams
	reps    int
	reserve float64 // -1: not told
	missed  bool
	gear    planner.Equipment
}

func kindOf(s planner.Set) alike {
	a := alike{s.Day, s.Lift, s.Variant, s.Weight, s.Reps, -1, s.Missed, s.Gear}
	if s.Reserve != nil {
		a.reserve = *s.Reserve
	}
	if a.gear == planner.Raw {
		a.gear = ""
	}
	return a
}

// mark is the digest of the n-th set of its kind.
func (a alike) mark(n int) int64 {
	h := fnv.New64a()
	missed := int64(0)
	if a.missed {
		missed = 1
	}
	for _, text := range []string{string(a.lift), string(a.variant), string(a.gear)} {
		h.Write(append([]byte(text), 0))
	}
	for _, v := range []int64{int64(a.day), int64(a.weight), int64(a.reps), int64(a.reserve * 100), missed, int64(n)} {
		h.Write(binary.LittleEndian.AppendUint64(nil, uint64(v)))
	}
	return int64(h.Sum64())
}

// Fresh leaves out of the lines what the log has already, and what came with an
// earlier file and was changed or dropped since. Of a set that was done five times
// and stands in the log twice, three are new. known counts the sets left out.
func Fresh(lines []Line, log []planner.Set, marked map[int64]bool) (fresh []New, known int) {
	there := make(map[alike]int, len(log))
	for _, s := range log {
		there[kindOf(s)] += s.Sets
	}
	seen := make(map[alike]int, len(lines))
	for _, l := range lines {
		kind := kindOf(l.Set)
		one := New{Set: l.Set}
		for range l.Set.Sets {
			seen[kind]++
			n := seen[kind]
			m := kind.mark(n)
			if n <= there[kind] || marked[m] {
				known++
				continue
			}
			one.Marks = append(one.Marks, m)
		}
		if one.Set.Sets = len(one.Marks); one.Set.Sets > 0 {
			fresh = append(fresh, one)
		}
	}
	return fresh, known
}
