package planner

// Set is one logged group of equal sets of one lift.
type Set struct {
	Day     Date
	Seq     int // order within the day, given by the store
	Lift    Lift
	Variant Variant // empty for the competition lift
	Weight  Grams
	Reps    int // repetitions made in each set; 0 where every one was missed
	Sets    int // how many equal sets, at least 1
	// Reserve is the repetitions left in reserve as the lifter said; nil when
	// it was not told.
	Reserve *float64
	Missed  bool
	Gear    Equipment // empty means raw
	// Pending sets are far from what the lifter has done before and count for
	// nothing until the lifter confirms them.
	Pending bool
}

// Bounds of one set: what a person can have lifted. The heaviest squat known to
// the trade is below 600 kg (common practice), so 700 kg only stops typing slips.
const (
	MinWeight = 500 * Grams(1)
	MaxWeight = 700 * Kilogram
	MaxReps   = 100
	MaxSets   = 30
)
