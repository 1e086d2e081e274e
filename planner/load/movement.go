package load

import (
	"strings"

	"blockbell/planner"
)

// Movement is a lift in one of its forms.
type Movement struct {
	Lift    planner.Lift
	Variant planner.Variant
}

// Name writes the movement as a lifter would: "paused squat", "row".
func (m Movement) Name() string {
	if m.Variant == "" {
		return string(m.Lift)
	}
	if m.Lift == planner.Bench && (m.Variant == "incline" || m.Variant == "pin" || m.Variant == "floor" || m.Variant == "board") {
		return string(m.Variant) + " press"
	}
	return strings.ReplaceAll(string(m.Variant), " ", "-") + " " + string(m.Lift)
}

// Muscle is a group of muscles whose weekly sets are counted.
type Muscle string

// The groups that are held inside a range, and two that are only counted.
const (
	Quads     Muscle = "front of thigh"
	Hips      Muscle = "hips and hamstrings"
	Chest     Muscle = "chest"
	Back      Muscle = "back"
	Shoulders Muscle = "shoulders"
	Triceps   Muscle = "triceps"
	Biceps    Muscle = "biceps"
	Trunk     Muscle = "trunk"
)

// Groups lists the muscle groups that have a weekly range.
func Groups() []Muscle { return []Muscle{Quads, Hips, Chest, Back, Shoulders, Triceps} }

// entry is what the program knows of a movement: the muscles it works (direct 1,
// indirect half), what it needs, its max as a share of the competition lift's (0:
// no relation), and its place for swaps. Shares are common practice and a start
// only: the lifter's effort corrects them.
type entry struct {
	Movement
	muscles map[Muscle]float64
	needs   []Gear
	share   float64
	minutes float64 // of one set with rest; 0: by the rest of the work
}

type sums = map[Muscle]float64

var (
	squatting  = sums{Quads: 1, Hips: 0.5}
	pressing   = sums{Chest: 1, Triceps: 0.5, Shoulders: 0.5}
	pulling    = sums{Hips: 1, Back: 0.5}
	squatGear  = []Gear{Barbell, Rack}
	benchGear  = []Gear{Barbell, Rack, BenchGear}
	pullGear   = []Gear{Barbell}
	catalogued = catalogue()
)

// catalogue lists the movements the bot plans with; order is preference.
func catalogue() []entry {
	s, b, d := planner.Squat, planner.Bench, planner.Deadlift
	return []entry{
		{Movement{s, ""}, squatting, squatGear, 1, 0},
		{Movement{s, "paused"}, squatting, squatGear, 0.90, 0},
		{Movement{s, "high bar"}, squatting, squatGear, 0.93, 0},
		{Movement{s, "front"}, squatting, squatGear, 0.78, 0},
		{Movement{s, "tempo"}, squatting, squatGear, 0.85, 0},
		{Movement{s, "safety bar"}, squatting, []Gear{Barbell, Rack, SafetyBar}, 0.88, 0},
		{Movement{s, "pin"}, squatting, squatGear, 0.85, 0},
		{Movement{s, "box"}, squatting, []Gear{Barbell, Rack, Boxes}, 0.88, 0},
		{Movement{b, ""}, pressing, benchGear, 1, 0},
		{Movement{b, "close grip"}, sums{Chest: 1, Triceps: 1, Shoulders: 0.5}, benchGear, 0.92, 0},
		{Movement{b, "long pause"}, pressing, benchGear, 0.94, 0},
		{Movement{b, "touch and go"}, pressing, benchGear, 1.03, 0},
		{Movement{b, "incline"}, sums{Chest: 1, Triceps: 0.5, Shoulders: 0.5}, benchGear, 0.80, 0},
		{Movement{b, "feet up"}, pressing, benchGear, 0.92, 0},
		{Movement{b, "wide grip"}, pressing, benchGear, 0.96, 0},
		{Movement{b, "tempo"}, pressing, benchGear, 0.88, 0},
		{Movement{b, "pin"}, pressing, benchGear, 0.92, 0},
		{Movement{b, "floor"}, pressing, pullGear, 0.90, 0},
		{Movement{b, "board"}, pressing, benchGear, 1.02, 0},
		{Movement{d, ""}, pulling, pullGear, 1, 0},
		{Movement{d, "paused"}, pulling, pullGear, 0.90, 0},
		{Movement{d, "deficit"}, pulling, []Gear{Barbell, Boxes}, 0.92, 0},
		{Movement{d, "stiff leg"}, pulling, pullGear, 0.75, 0},
		{Movement{d, "block"}, pulling, []Gear{Barbell, Boxes}, 1.03, 0},
		{Movement{d, "tempo"}, pulling, pullGear, 0.85, 0},
		{Movement{d, "snatch grip"}, pulling, pullGear, 0.80, 0},
		{Movement{d, "sumo"}, pulling, pullGear, 0.90, 0},
		{Movement{d, "conventional"}, pulling, pullGear, 0.90, 0},

		{Movement{"row", ""}, sums{Back: 1, Biceps: 0.5}, []Gear{Barbell}, 0, 2.5},
		{Movement{"lat pulldown", ""}, sums{Back: 1, Biceps: 0.5}, []Gear{Cable}, 0, 2.25},
		{Movement{"pull-up", ""}, sums{Back: 1, Biceps: 0.5}, []Gear{Bars}, 0, 2.5},
		{Movement{"chin-up", ""}, sums{Back: 1, Biceps: 0.5}, []Gear{Bars}, 0, 2.5},
		{Movement{"dumbbell row", ""}, sums{Back: 1, Biceps: 0.5}, []Gear{Dumbbells}, 0, 2.25},
		{Movement{"overhead press", ""}, sums{Shoulders: 1, Triceps: 0.5}, []Gear{Barbell}, 0, 2.5},
		{Movement{"lateral raise", ""}, sums{Shoulders: 1}, []Gear{Dumbbells}, 0, 2},
		{Movement{"face pull", ""}, sums{Shoulders: 1, Back: 0.5}, []Gear{Cable}, 0, 2},
		{Movement{"triceps extension", ""}, sums{Triceps: 1}, []Gear{Cable}, 0, 2},
		{Movement{"dip", ""}, sums{Triceps: 1, Chest: 1}, []Gear{Bars}, 0, 2.25},
		{Movement{"push-up", ""}, sums{Chest: 1, Triceps: 0.5, Shoulders: 0.5}, nil, 0, 2},
		{Movement{"dumbbell bench", ""}, sums{Chest: 1, Triceps: 0.5, Shoulders: 0.5}, []Gear{Dumbbells, BenchGear}, 0, 2.25},
		{Movement{"fly", ""}, sums{Chest: 1}, []Gear{Dumbbells, BenchGear}, 0, 2},
		{Movement{"leg press", ""}, sums{Quads: 1, Hips: 0.5}, []Gear{LegRoom}, 0, 2.5},
		{Movement{"split squat", ""}, sums{Quads: 1, Hips: 0.5}, []Gear{Dumbbells}, 0, 2.5},
		{Movement{"leg extension", ""}, sums{Quads: 1}, []Gear{LegRoom}, 0, 2},
		{Movement{"lunge", ""}, sums{Quads: 1, Hips: 0.5}, nil, 0, 2.5},
		{Movement{"goblet squat", ""}, sums{Quads: 1, Hips: 0.5}, []Gear{Dumbbells}, 0, 2.25},
		{Movement{"leg curl", ""}, sums{Hips: 1}, []Gear{LegRoom}, 0, 2},
		{Movement{"romanian deadlift", ""}, sums{Hips: 1, Back: 0.5}, []Gear{Barbell}, 0, 2.5},
		{Movement{"hip thrust", ""}, sums{Hips: 1}, []Gear{Barbell, BenchGear}, 0, 2.5},
		{Movement{"back extension", ""}, sums{Hips: 1}, nil, 0, 2},
		{Movement{"good morning", ""}, sums{Hips: 1}, squatGear, 0, 2.5},
		{Movement{"glute ham raise", ""}, sums{Hips: 1}, []Gear{LegRoom}, 0, 2.25},
		{Movement{"curl", ""}, sums{Biceps: 1}, []Gear{Dumbbells}, 0, 2},
		{Movement{"sit-up", ""}, sums{Trunk: 1}, nil, 0, 1.5},
	}
}

// find returns what is known of a movement. A variant nobody listed counts like
// its lift, a movement nobody listed works no counted muscle.
func find(m Movement) entry {
	fallback := entry{Movement: m, minutes: 2.25}
	for _, e := range catalogued {
		if e.Movement == m {
			return e
		}
		if e.Lift == m.Lift && e.Variant == "" && m.Lift.Competition() {
			fallback = entry{m, e.muscles, e.needs, 0.9, e.minutes}
		}
	}
	return fallback
}

// Muscles returns the muscle groups a movement works: 1 for direct, 0.5 for
// indirect work, as sets are counted by Pelland et al. 2025 (Sports Med). It is
// nil for movements the program does not know.
func Muscles(m Movement) map[Muscle]float64 { return find(m).muscles }
