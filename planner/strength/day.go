package strength

import (
	"math"

	"blockbell/planner"
)

const (
	// gearReps is the most repetitions in supportive gear that give an estimate:
	// the gear's help does not follow the relation (common practice).
	gearReps = 3
	// matchPercent is how near to the prescribed weight a set counts as the
	// prescribed one, and matchDays how far from its day: training days are moved
	// within a week (common practice).
	matchPercent = 2.5
	matchDays    = 3
	// plateStep is the usual step of a load in kg: two of the smallest discs.
	plateStep = 2.5
)

// read turns one set into an observation; false where it says nothing: no
// repetition and no miss, too many repetitions, gear above three.
func (h *History) read(s planner.Set) (Observation, bool) {
	o := Observation{Day: s.Day, Set: s}
	kg := s.Weight.Kg()
	if bare(s.Gear) != "" && s.Reps > gearReps {
		return o, false
	}
	switch {
	case s.Missed && s.Reps == 0:
		return o.at(h.Equation, Work{WeightKg: kg, Reps: 1}, AtMost, true)
	case s.Reps < 1:
		return o, false
	case s.Missed:
		// The next repetition failed: nothing was left.
		return o.at(h.Equation, Work{WeightKg: kg, Reps: s.Reps, Reserve: new(float64)}, Hard, true)
	case s.Reserve == nil:
		return h.unrated(o)
	}
	return h.rated(o)
}

// rated reads a set with its effort. Where reserve and repetitions are just as
// prescribed, half of the usual plate step of 2.5 kg says nothing.
func (h *History) rated(o Observation) (Observation, bool) {
	s, kg := o.Set, o.Set.Weight.Kg()
	if p, ok := h.prescribed(s); ok && p.Reps == s.Reps && math.Abs(p.Reserve-*s.Reserve) < 0.25 {
		o.Slack = plateStep / 2 / kg
	}
	switch {
	case *s.Reserve > MaxReserve:
		// Easier than effort 7 the scale names ranges only; three left is their end.
		most := float64(MaxReserve)
		return o.at(h.Equation, Work{WeightKg: kg, Reps: s.Reps, Reserve: &most}, AtLeast, true)
	case *s.Reserve > hardReserve:
		return o.at(h.Equation, Work{WeightKg: kg, Reps: s.Reps, Reserve: s.Reserve}, Easy, true)
	}
	return o.at(h.Equation, Work{WeightKg: kg, Reps: s.Reps, Reserve: s.Reserve}, Hard, true)
}

// unrated reads a set without effort: by its prescription where it has one, else
// as a lower bound.
func (h *History) unrated(o Observation) (Observation, bool) {
	w := Work{WeightKg: o.Set.Weight.Kg(), Reps: o.Set.Reps}
	p, ok := h.prescribed(o.Set)
	switch {
	case ok && p.Reps == o.Set.Reps && p.Reserve <= MaxReserve:
		w.Reserve, w.Planned, o.Planned, o.Slack = &p.Reserve, true, true, matchPercent/100
		return o.at(h.Equation, w, Easy, false)
	case ok && p.Reps > o.Set.Reps && !h.made(p, o.Set.Day):
		// Fewer repetitions than prescribed: taken as all that would go.
		w.Reserve, w.Planned = new(float64), true
		return o.at(h.Equation, w, Hard, false)
	}
	return o.at(h.Equation, w, AtLeast, false)
}

// made tells whether some set of a day did what was prescribed; then a shorter one
// beside it is a step on the way up, or the tired end.
func (h *History) made(p Prescription, day planner.Date) bool {
	for _, s := range h.Sets {
		if s.Day == day && h.concerns(s) && s.Reps >= p.Reps && float64(s.Weight) >= (1-matchPercent/100)*float64(p.Weight) {
			return true
		}
	}
	return false
}

// prescribed returns the prescription a set belongs to: the same weight within
// 2.5 %, on the nearest day within three; of several on one day the one with equal
// repetitions, else the one with the fewest above them.
func (h *History) prescribed(s planner.Set) (Prescription, bool) {
	var best Prescription
	bestRank := math.Inf(1)
	for _, p := range h.Prescribed {
		away := math.Abs(float64(p.Day.DaysUntil(s.Day)))
		off := math.Abs(float64(s.Weight-p.Weight)) * 100
		if p.Lift != s.Lift || h.series(p.Lift, p.Variant) != h.Variant || away > matchDays || p.Weight <= 0 ||
			off > matchPercent*float64(p.Weight) || p.Reps < s.Reps || p.Reserve < 0 {
			continue
		}
		if rank := away + 10*float64(p.Reps-s.Reps); rank < bestRank {
			best, bestRank = p, rank
		}
	}
	return best, !math.IsInf(bestRank, 1)
}

// at completes the observation with the estimate of w; false where there is none.
func (o Observation) at(e Equation, w Work, kind Kind, rated bool) (Observation, bool) {
	ev, err := Measure(e, w)
	if err != nil {
		return o, false
	}
	o.Log, o.SD, o.Kind, o.Rated = math.Log(ev.Kg), ev.SD/ev.Kg, kind, rated
	return o, true
}

// bestOf chooses the observation that stands for a day and holds it by the bounds.
func bestOf(found []Observation) (Observation, bool) {
	var best, low, high *Observation
	for i := range found {
		o := &found[i]
		switch {
		case o.Kind == AtLeast && (low == nil || o.Log > low.Log):
			low = o
		case o.Kind == AtMost && (high == nil || o.Log < high.Log):
			high = o
		case (o.Kind == Hard || o.Kind == Easy) && (best == nil || o.better(*best)):
			best = o
		}
	}
	if low != nil && high != nil && low.Log >= high.Log {
		high = nil // made as much as was missed: the miss was no question of strength
	}
	if best == nil {
		return boundsAlone(low, high)
	}
	o := *best
	if low != nil && o.Log < low.Log {
		o.Log = low.Log
	}
	if high != nil && o.Log > high.Log {
		o.Log, o.Kind, o.Rated = high.Log, Hard, true
	}
	return o, true
}

// boundsAlone makes a day's observation of bounds only.
func boundsAlone(low, high *Observation) (Observation, bool) {
	switch {
	case low == nil && high == nil:
		return Observation{}, false
	case low == nil:
		return *high, true
	case high == nil:
		return *low, true
	}
	o := *low
	width := high.Log - low.Log
	if width > 0.1 { // too far apart to say more than the bound below
		return o, true
	}
	o.Log, o.Kind, o.Rated = low.Log+width/2, Hard, true
	o.SD = math.Hypot(low.SD, width/math.Sqrt(12)) // anywhere between: a uniform error
	return o, true
}

// better tells whether o is stronger evidence than p, which was done before it.
func (o Observation) better(p Observation) bool {
	if o.Kind != p.Kind {
		return o.Kind == Hard
	}
	return o.SD < p.SD-1e-12
}
