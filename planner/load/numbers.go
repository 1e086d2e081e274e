package load

import "blockbell/planner"

// span is a range of counts, both ends included.
type span struct{ lo, hi int }

func (s span) contains(n int) bool { return n >= s.lo && n <= s.hi }

// row holds weekly hard sets of squat, bench and deadlift, variants included.
type row [3]span

func (r row) of(l planner.Lift) span { return r[index(l)] }

// index is the place of a competition lift in a row.
func index(l planner.Lift) int {
	switch l {
	case planner.Squat:
		return 0
	case planner.Bench:
		return 1
	}
	return 2
}

// tier folds the five levels into the three that the tables know.
func tier(l planner.Level) int {
	switch l {
	case planner.Intermediate:
		return 1
	case planner.Advanced, planner.Elite:
		return 2
	}
	return 0
}

// setTable is the weekly hard sets of squat, bench and deadlift by level (common
// practice, inside the 8 to 15 a lift of hypertrophy, 6 to 12 of strength and 3 to
// 6 of peaking that the trade uses; sets raise strength with quickly shrinking
// returns, Ralston et al. 2017, Pelland et al. 2025).
var setTable = map[planner.BlockKind][3]row{
	planner.Hypertrophy: {
		{{6, 9}, {8, 10}, {4, 6}}, {{8, 12}, {10, 14}, {5, 8}}, {{10, 14}, {12, 16}, {5, 8}}},
	planner.Strength: {
		{{6, 8}, {6, 9}, {3, 5}}, {{7, 10}, {8, 12}, {4, 6}}, {{8, 11}, {9, 14}, {4, 7}}},
	planner.Peaking: {
		{{4, 5}, {4, 6}, {2, 3}}, {{4, 6}, {5, 8}, {2, 4}}, {{4, 6}, {6, 9}, {2, 4}}},
}

// ramp is where the weekly sets of a lift begin and end inside a block. The sums
// over the three lifts begin at 70 to 75 % of the top; in peaking sets fall.
var ramps = map[planner.BlockKind][3][3]struct{ start, top int }{
	planner.Hypertrophy: {{{6, 9}, {8, 10}, {4, 5}}, {{9, 12}, {10, 14}, {6, 8}}, {{10, 14}, {12, 16}, {6, 8}}},
	planner.Strength:    {{{6, 8}, {6, 9}, {4, 5}}, {{7, 10}, {8, 12}, {5, 6}}, {{8, 11}, {10, 14}, {5, 7}}},
	planner.Peaking:     {{{5, 4}, {6, 4}, {3, 2}}, {{6, 4}, {8, 5}, {4, 2}}, {{6, 4}, {9, 6}, {4, 2}}},
}

// SetRange returns the weekly hard sets of a competition lift, variants included,
// that a block of this kind asks of a lifter of this level, outside deload, taper
// and return; false where the kind has no range (recovery).
func SetRange(level planner.Level, kind planner.BlockKind, lift planner.Lift) (lo, hi int, ok bool) {
	rows, ok := setTable[kind]
	if !ok || !lift.Competition() {
		return 0, 0, false
	}
	s := rows[tier(level)].of(lift)
	return s.lo, s.hi, true
}

// muscleTable is the weekly sets of each muscle group in hypertrophy, indirect
// sets counted half (common practice inside the 10 to 20 of Schoenfeld et al.
// 2017 and Baz-Valle et al. 2022).
var muscleTable = [3]span{{6, 10}, {10, 16}, {12, 18}}

// MuscleRange returns the weekly sets of each muscle group in hypertrophy.
func MuscleRange(level planner.Level) (lo, hi int) {
	s := muscleTable[tier(level)]
	return s.lo, s.hi
}

// Limits of a session and of a week (common practice).
const (
	maxSessionSets = 20
	maxMinutes     = 100
	maxMainSets    = 14 // of the competition lifts in one session, so that room is left for the rest
	maxSetsUp      = 2  // more hard sets of a lift than in the last loading week
	maxTonnageUp   = 1.15
	deloadShare    = 0.55
)

// upkeepShare is the part of the hypertrophy sets that keeps a muscle: a third
// kept size in the young, in people over 60 it did not (Bickel et al. 2011).
func upkeepShare(age int) float64 {
	if age >= 60 {
		return 0.5
	}
	return 1.0 / 3
}

// UpkeepShare is the share of the weekly hypertrophy sets of a muscle that
// strength and peaking keep: a third, from 60 years a half (age -1: unknown).
func UpkeepShare(age int) float64 { return upkeepShare(age) }
