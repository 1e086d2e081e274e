package strength

import "blockbell/planner"

// History is everything that is known about one lift of one lifter, and about the
// days on which it was lifted. Only Lift, Today and Sets are needed; what is left
// out is taken as not known.
type History struct {
	Lift    planner.Lift
	Variant planner.Variant   // empty: the lift as in competition
	Gear    planner.Equipment // empty: raw. Each gear is a series of its own
	Today   planner.Date
	Level   planner.Level // empty or new: read as a novice
	// Equation is the club's choice; empty means Default.
	Equation Equation
	// BenchStyle and DeadliftStyle are the forms that the lifter trains as the
	// competition lifts.
	BenchStyle    planner.BenchStyle
	DeadliftStyle planner.DeadliftStyle
	// Sets is the log in any order; other lifts, variants and gear in it, sets
	// after Today and pending ones are passed over.
	Sets       []planner.Set
	Prescribed []Prescription
	// Blocks are the agreed blocks, past and present, oldest first. Their tapers
	// lie within the last fourteen days before a meet and need no mention.
	Blocks  []planner.Block
	Deloads []Span
	Meets   []planner.Meet
	Away    []Span // times without training, as told; To zero: not back yet
	Claim   *Claim
	// Expected is the change for which the lifter's own plan allows in the week
	// that contains a day, as a natural logarithm (0.002 is 0.2 % a week): the
	// weekly change of s of the block planner's model, new strength alone. How
	// sharp somebody is on singles comes and goes with the kind of block and is
	// neither expected nor held against anybody. Days before the first plan count at
	// the level's Usual rate; nil is that rate throughout.
	Expected func(planner.Date) float64
}

// Span is a run of days, both ends inclusive. A zero To is still open.
type Span struct{ From, To planner.Date }

// Contains tells whether d is one of the days.
func (s Span) Contains(d planner.Date) bool {
	return d >= s.From && (s.To.IsZero() || d <= s.To)
}

// Prescription is one planned set, or several equal ones.
type Prescription struct {
	Day     planner.Date
	Lift    planner.Lift
	Variant planner.Variant
	Weight  planner.Grams
	Reps    int
	Reserve float64 // repetitions planned to be left, 0 or more
}

// Claim is a maximum that the lifter told without a set in the log.
type Claim struct {
	Max    planner.Grams
	Told   planner.Date // zero: before everything in the log
	Lifted planner.Date // zero: not told
	Seen   bool         // somebody of the club saw it, or a meet's result says so
}

// The names under which the log keeps the forms that are the competition lift of
// some lifters and a variant for the others.
const (
	touchAndGo   planner.Variant = "touch and go"
	sumo         planner.Variant = "sumo"
	conventional planner.Variant = "conventional"
)

// series returns a variant as this lifter counts it: the own form of a lift is no
// variant.
func (h *History) series(lift planner.Lift, v planner.Variant) planner.Variant {
	switch {
	case lift == planner.Bench && v == touchAndGo && h.BenchStyle == planner.TouchAndGo,
		lift == planner.Deadlift && v == sumo && h.DeadliftStyle == planner.Sumo,
		lift == planner.Deadlift && v == conventional && h.DeadliftStyle != planner.Sumo:
		return ""
	}
	return v
}

// bare returns the gear with the empty word for none.
func bare(g planner.Equipment) planner.Equipment {
	if g == planner.Raw {
		return ""
	}
	return g
}

// concerns tells whether a set belongs to the lift, variant and gear asked about
// and may count.
func (h *History) concerns(s planner.Set) bool {
	return s.Lift == h.Lift && h.series(s.Lift, s.Variant) == h.Variant && bare(s.Gear) == bare(h.Gear) &&
		!s.Pending && s.Day <= h.Today && s.Weight > 0 && s.Reps <= planner.MaxReps
}

// level returns the level to reckon with.
func (h *History) level() planner.Level {
	switch h.Level {
	case planner.Intermediate, planner.Advanced, planner.Elite:
		return h.Level
	}
	return planner.Novice
}

// block returns the kind of block that ran on a day; empty where none is known.
func (h *History) block(d planner.Date) planner.BlockKind {
	if i := planner.At(h.Blocks, d); i >= 0 {
		return h.Blocks[i].Kind
	}
	return ""
}
