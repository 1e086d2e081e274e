package load

import "blockbell/planner"

// accessoryChoice lists what trains each group, first choice first; days and
// blocks take turns.
var accessoryChoice = map[Muscle][]planner.Lift{
	Quads:     {"leg press", "split squat", "leg extension", "lunge", "goblet squat"},
	Hips:      {"leg curl", "back extension", "hip thrust", "romanian deadlift"},
	Chest:     {"dumbbell bench", "fly", "push-up"},
	Back:      {"row", "lat pulldown", "pull-up", "dumbbell row"},
	Shoulders: {"overhead press", "lateral raise", "face pull"},
	Triceps:   {"triceps extension", "dip"},
}

// Accessory sets of one movement in a session.
const (
	accessoryMost  = 4
	accessoryLeast = 2
)

// muscleAim is the weekly sets a group should get: in hypertrophy rising from the
// low end of its range, later at least what keeps the muscle, and a bit more
// while there is time for it.
func (j *job) muscleAim(g Muscle) float64 {
	r := muscleTable[tier(j.level)]
	top := float64(r.lo) + 0.6*float64(r.hi-r.lo)
	aim := 0.0
	switch j.stage.kind {
	case planner.Hypertrophy:
		aim = float64(r.lo) + j.rise(j.stage)*(top-float64(r.lo))
		if !j.counts(planner.Squat) && (g == Quads || g == Hips) && j.event == planner.BenchOnly {
			aim = upkeepShare(j.age) * top
		}
	case planner.Strength:
		aim = max(0.45, upkeepShare(j.age)) * float64(r.hi)
	default:
		aim = upkeepShare(j.age) * float64(r.hi)
	}
	share := 1.0
	if j.back != nil {
		share = j.back.sets()
	}
	switch {
	case j.stage.deload:
		share *= deloadShare
	case !j.meet.IsZero() && j.tapering():
		share *= shareBefore // nothing new so near to a meet
	}
	return aim * share
}

// accessoryFor is the turn-th choice for a group among what the gym has; blocks
// begin at different choices, so that they do not repeat each other.
func (j *job) accessoryFor(g Muscle, turn int) (planner.Lift, bool) {
	var there []planner.Lift
	for _, l := range accessoryChoice[g] {
		if j.rack.gym.has(find(Movement{l, ""}).needs) && !(j.stage.kind == planner.Peaking && l == "romanian deadlift") {
			there = append(there, l)
		}
	}
	if len(there) == 0 {
		return "", false
	}
	shift := 0
	if j.stage.kind == planner.Strength {
		shift = 1
	}
	return there[(turn+shift)%len(there)], true
}

// accessory is the work of an accessory movement.
func (j *job) accessory(l planner.Lift, sets int) Work {
	w := Work{Lift: l, Name: string(l), Role: Accessory, Sets: sets, Reps: 10, Reserve: 2, Rest: 90}
	if len(find(Movement{l, ""}).muscles) == 1 {
		w.Reps = 12
	}
	if j.stage.kind == planner.Strength {
		w.Reps = 10
	}
	if tier(j.level) == 0 || j.stage.kind == planner.Peaking {
		w.Reserve = 3
	}
	if j.age >= 60 {
		w.Reserve++
	}
	if j.stage.deload {
		w.Reserve += restDose
	}
	w.Why = "Choose a weight that leaves " + half(w.Reserve) + "."
	return w
}
