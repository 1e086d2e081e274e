package strength

import (
	"cmp"
	"math"
	"slices"

	"blockbell/planner"
)

// Kind says in which direction an observation may move an estimate.
type Kind string

const (
	// Hard work speaks both ways: sets rated 8 or harder, sets that failed on the
	// way, and fewer repetitions than prescribed.
	Hard Kind = "hard"
	// Easy work may raise the level and never lower it: sets rated below 8, unrated
	// ones that match their prescription, claims, and all work on spared days.
	Easy Kind = "easy"
	// AtLeast is a lower bound: an unrated set, or one rated below effort 7.
	AtLeast Kind = "at least"
	// AtMost is an upper bound: a miss.
	AtMost Kind = "at most"
)

// Observation is what one day says about the maximum.
type Observation struct {
	Day  planner.Date
	Log  float64 // natural logarithm of the maximum in kg
	SD   float64 // its standard deviation in log units, about the relative error
	Kind Kind
	// Rated: the lifter said how hard it was, or failed. Only rated work on days
	// that are not spared says whether a lift is moving: prescribed work done as
	// prescribed repeats what the plan believed.
	Rated   bool
	Planned bool // unrated, and read with the reserve of its prescription
	// Slack is how far from the level, in log units, work that was done exactly as
	// prescribed says nothing: the weight was rounded to what the discs can make.
	Slack float64
	Spare bool // a deload, the days before a meet, a layoff or the week after it
	Set   planner.Set
	Claim bool // no set, but the maximum that the lifter told
}

// Kg returns the observed maximum in kg.
func (o Observation) Kg() float64 { return math.Exp(o.Log) }

// hardReserve is the most repetitions left in a set that may lower an estimate:
// effort 8.
const hardReserve = 2

// Observe turns a log into at most one observation a day, oldest first, with the
// claimed maximum among them. Per day the best evidence stands for all: hard
// before easy before bounds, then the smaller error, then the set done first. The
// choice never looks at the estimate, since picking the best of several would lean
// upwards. Bounds of the same day then hold it: it is raised to an unrated set that
// proves more and lowered to a miss that proves less. Where bounds are all there is,
// a set made and a miss above it are one hard observation between the two.
func Observe(h History) []Observation {
	days := map[planner.Date][]planner.Set{}
	for _, s := range h.Sets {
		if h.concerns(s) {
			days[s.Day] = append(days[s.Day], s)
		}
	}
	var all []Observation
	for day, sets := range days {
		if o, ok := h.ofDay(day, sets); ok {
			all = append(all, o)
		}
	}
	slices.SortFunc(all, func(a, b Observation) int { return cmp.Compare(a.Day, b.Day) })
	return h.withClaim(all)
}

// ofDay returns the observation of one day.
func (h *History) ofDay(day planner.Date, sets []planner.Set) (Observation, bool) {
	slices.SortStableFunc(sets, func(a, b planner.Set) int { return cmp.Compare(a.Seq, b.Seq) })
	spare := h.spared(day)
	var found []Observation
	for _, s := range withoutWarmUps(sets) {
		if o, ok := h.read(s); ok {
			o.Spare = spare
			found = append(found, o)
		}
	}
	o, ok := bestOf(found)
	if ok && spare && o.Kind == Hard {
		o.Kind = Easy
	}
	return o, ok && !(spare && o.Kind == AtMost)
}

// withoutWarmUps drops unrated sets that were done before the day's top set with
// less than 85 % of it (common practice).
func withoutWarmUps(sets []planner.Set) []planner.Set {
	top, at := planner.Grams(0), 0
	for i, s := range sets {
		if s.Reps > 0 && s.Weight > top {
			top, at = s.Weight, i
		}
	}
	var kept []planner.Set
	for i, s := range sets {
		warmUp := i < at && s.Reserve == nil && !s.Missed && float64(s.Weight) < 0.85*float64(top)
		if !warmUp {
			kept = append(kept, s)
		}
	}
	return kept
}

// withClaim puts the claimed maximum at its place. One that is older than three
// months, or that nobody saw, counts as 95 % of what was told, with an error of 5 %
// (common practice).
func (h *History) withClaim(all []Observation) []Observation {
	c := h.Claim
	if c == nil || c.Max <= 0 || c.Told > h.Today {
		return all
	}
	o := Observation{Day: c.Told, Log: math.Log(c.Max.Kg() * 0.95), SD: 0.05, Kind: Easy, Claim: true}
	if o.Day.IsZero() {
		o.Day = h.Today
		if len(all) > 0 {
			o.Day = all[0].Day
		}
	}
	if c.Seen && !c.Lifted.IsZero() && c.Lifted.DaysUntil(o.Day) <= 92 {
		o.Log, o.SD = math.Log(c.Max.Kg()), noisePercent/100.0
	}
	at, _ := slices.BinarySearchFunc(all, o, func(a, b Observation) int { return cmp.Compare(a.Day, b.Day) })
	return slices.Insert(all, at, o)
}
