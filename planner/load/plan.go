package load

import (
	"blockbell/planner"
)

// Role says what a piece of work is for.
type Role string

// The roles of work in a session.
const (
	Top        Role = "top"         // the heaviest of the lift that day
	BackOff    Role = "back-off"    // lighter sets after it
	FirstHeavy Role = "first-heavy" // the one heavier set a week that hypertrophy keeps
	WorkSets   Role = "work"        // even sets without a top set
	Technique  Role = "technique"   // light and exact
	Accessory  Role = "accessory"
)

// Broad folds the roles into top, back-off and accessory: the first heavy set of
// hypertrophy is a top set, even and technique sets are back-offs.
func (r Role) Broad() Role {
	switch r {
	case Top, FirstHeavy:
		return Top
	case Accessory:
		return Accessory
	}
	return BackOff
}

// Work is a number of equal sets of one movement.
type Work struct {
	Lift    planner.Lift
	Variant planner.Variant // empty: the competition lift
	Name    string          // in words: "paused squat"
	Role    Role
	Sets    int
	Reps    int
	// Reserve is the repetitions left at the end of each set, in halves.
	Reserve float64
	// Percent of the movement's max, exactly what reps and reserve give; 0 on
	// accessories. Weight is the load that plates can make nearest to it; 0 on
	// accessories and while there is no estimate.
	Percent float64
	Weight  planner.Grams
	// Max is the kg that Percent is of; for a variant a share of the lift's.
	Max float64
	// Find asks the lifter to find the weight: start with Weight and add until
	// Reserve is left.
	Find bool
	Rest int // seconds between sets
	// Why is where weight and sets come from, in a few words; where there is a percent it
	// is read behind that and the max.
	Why string
}

// WeightKG returns the load in kg.
func (w Work) WeightKG() float64 { return w.Weight.Kg() }

// Movement returns what is moved.
func (w Work) Movement() Movement { return Movement{w.Lift, w.Variant} }

// Day is one session.
type Day struct {
	Date    planner.Date
	Work    []Work
	Minutes int    // estimate, warm-up included
	Note    string // what is special about this day; may be empty
}

// HardSets counts the work sets of a session: all but technique work.
func (d Day) HardSets() int {
	n := 0
	for _, w := range d.Work {
		if w.Role != Technique {
			n += w.Sets
		}
	}
	return n
}

// Change is a difference to last week.
type Change struct {
	Lift planner.Lift // empty: the whole week
	Text string
}

// Plan is a week of training.
type Plan struct {
	Block     planner.BlockKind
	Week      int // of the block, from 1
	Weeks     int // of the block
	Start     planner.Date
	End       planner.Date
	Deload    bool
	Taper     bool // at least one day lies in the taper
	Eased     bool // a meet lies near that the block is not peaking for
	Back      bool // lower, after time away
	Days      []Day
	Notes     []string
	LeftOut   []string
	Changed   []Change
	LiftSets  map[planner.Lift]int // hard sets by competition lift, variants included
	Muscles   map[Muscle]float64   // hard sets by muscle group, indirect ones half
	FromTable bool                 // the club's own week
}

// On returns the session of a day, false where none is planned.
func (p Plan) On(d planner.Date) (Day, bool) {
	for _, day := range p.Days {
		if day.Date == d {
			return day, true
		}
	}
	return Day{}, false
}

// Tonnage returns sets x repetitions x kg of a lift with its variants.
func (p Plan) Tonnage(lift planner.Lift) float64 {
	t := 0.0
	for _, d := range p.Days {
		for _, w := range d.Work {
			if w.Lift == lift {
				t += float64(w.Sets*w.Reps) * w.Weight.Kg()
			}
		}
	}
	return t
}

// count fills in what is summed over the days.
func (p *Plan) count() {
	p.LiftSets, p.Muscles = map[planner.Lift]int{}, map[Muscle]float64{}
	for i := range p.Days {
		for _, w := range p.Days[i].Work {
			if w.Lift.Competition() {
				p.LiftSets[w.Lift] += w.Sets
			}
			for m, share := range Muscles(w.Movement()) {
				p.Muscles[m] += share * float64(w.Sets)
			}
		}
		p.Days[i].Minutes = minutes(p.Days[i].Work)
	}
}
