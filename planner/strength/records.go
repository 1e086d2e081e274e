package strength

import (
	"cmp"
	"slices"

	"blockbell/planner"
)

// RecordKind says what a record is about.
type RecordKind string

// Best single, most weight for a number of repetitions, best estimated maximum.
const (
	BestSingle   RecordKind = "single"
	BestReps     RecordKind = "reps"
	BestEstimate RecordKind = "estimate"
)

// RecordReps is the largest number of repetitions that has a record of its own.
const RecordReps = 12

// Record is a best of one lift, variant and gear.
type Record struct {
	Kind    RecordKind
	Lift    planner.Lift
	Variant planner.Variant
	Gear    planner.Equipment // empty: raw
	// Reps is 1 for singles, 2 to RecordReps for sets, and the repetitions of the
	// set behind an estimate.
	Reps   int
	Weight planner.Grams // of the set
	Kg     float64       // the estimate; of other kinds the weight
	Day    planner.Date
	Set    planner.Set
}

// key tells records apart that compete with each other.
type key struct {
	kind    RecordKind
	lift    planner.Lift
	variant planner.Variant
	gear    planner.Equipment
	reps    int
}

func (r Record) key() key {
	k := key{r.Kind, r.Lift, r.Variant, r.Gear, r.Reps}
	if r.Kind == BestEstimate {
		k.reps = 0
	}
	return k
}

// Records lists the records of a log: for each lift, variant and gear the best
// single, the most weight in sets of 2 to 12, and the best estimate. Misses and
// pending sets never count; more repetitions with the same or more weight do not
// stand for fewer. Of equals the first keeps the record. They are computed from
// the log each time, so a correction takes a record back by itself. Estimates come
// from rated sets, and from unrated ones as if nothing was left.
func Records(e Equation, sets []planner.Set) []Record {
	best := bests(e, sets)
	out := make([]Record, 0, len(best))
	for _, r := range best {
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b Record) int {
		return cmp.Or(cmp.Compare(a.Lift, b.Lift), cmp.Compare(a.Variant, b.Variant), cmp.Compare(a.Gear, b.Gear),
			cmp.Compare(order(a.Kind), order(b.Kind)), cmp.Compare(a.Reps, b.Reps))
	})
	return out
}

// order sorts kinds of record for showing.
func order(k RecordKind) int {
	return slices.Index([]RecordKind{BestSingle, BestReps, BestEstimate}, k)
}

// bests finds the records by key.
func bests(e Equation, sets []planner.Set) map[key]Record {
	sorted := slices.Clone(sets)
	slices.SortStableFunc(sorted, func(a, b planner.Set) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Seq, b.Seq))
	})
	best := map[key]Record{}
	for _, s := range sorted {
		for _, r := range claims(e, s) {
			if old, ok := best[r.key()]; !ok || r.Kg > old.Kg {
				best[r.key()] = r
			}
		}
	}
	return best
}

// claims lists the records that a set could hold.
func claims(e Equation, s planner.Set) []Record {
	if s.Missed || s.Pending || s.Reps < 1 || s.Weight <= 0 {
		return nil
	}
	r := Record{Kind: BestReps, Lift: s.Lift, Variant: s.Variant, Gear: bare(s.Gear), Reps: s.Reps,
		Weight: s.Weight, Kg: s.Weight.Kg(), Day: s.Day, Set: s}
	if s.Reps == 1 {
		r.Kind = BestSingle
	}
	var out []Record
	if s.Reps <= RecordReps {
		out = append(out, r)
	}
	if r.Gear != "" && s.Reps > gearReps {
		return out
	}
	if kg, _, err := Estimate(e, s.Weight.Kg(), s.Reps, s.Reserve); err == nil {
		r.Kind, r.Kg = BestEstimate, kg
		out = append(out, r)
	}
	return out
}

// New returns the records that added sets set over those before, so that each is
// told once: a first best of its kind is none, and of several in one go only the
// best. before must not hold the added sets.
func New(e Equation, before, added []planner.Set) []Record {
	old := bests(e, before)
	all := slices.Concat(before, added)
	var out []Record
	for _, r := range Records(e, all) {
		if was, ok := old[r.key()]; ok && r.Kg > was.Kg {
			out = append(out, r)
		}
	}
	return out
}

// records are those of the lift, variant and gear that the history asks about.
func (h *History) records() []Record {
	var own []planner.Set
	for _, s := range h.Sets {
		if h.concerns(s) {
			s.Variant = h.Variant
			own = append(own, s)
		}
	}
	return Records(h.Equation, own)
}
