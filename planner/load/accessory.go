package load

import (
	"math"
	"slices"
	"strings"

	"blockbell/planner"
)

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

// noAccessories is how many days before a meet accessories are dropped (surveys:
// about two weeks in New Zealand lifters, Pritchard et al. 2016; 10 days, novices
// 7: common practice).
func (j *job) noAccessories() int {
	if tier(j.level) == 0 {
		return 7
	}
	return 10
}

// place is an accessory's fixed place in the week, so that it stays the same
// through a block and only its sets change.
type place struct {
	group Muscle
	lift  planner.Lift
	at    int // in the layout
}

// rounds is how many accessories a group may have in a week.
const rounds = 3

// places lays accessories over the training days: each goes to the day that has
// least, away from another one for the same group.
func (j *job) places() (all []place) {
	for round := range rounds {
		for _, g := range []Muscle{Back, Quads, Hips, Shoulders, Triceps, Chest} {
			lift, ok := j.accessoryFor(g, round)
			if !ok {
				continue
			}
			best, cost := -1, math.MaxInt
			for at, slots := range j.layout {
				c := 5 * len(slots)
				for _, p := range all {
					if p.at == at {
						c += 3
					}
					if p.at == at && p.group == g {
						c += 7
					}
					if p.at == at && p.lift == lift {
						c += 50
					}
				}
				if c < cost {
					best, cost = at, c
				}
			}
			all = append(all, place{g, lift, best})
		}
	}
	return all
}

// accessories fills each muscle group up to its aim of the week.
func (j *job) accessories(days []Day) {
	open := j.openDays(days)
	if len(open) == 0 || j.stage.kind == planner.Recovery {
		return
	}
	a := &filler{j: j, days: days, open: open, have: map[Muscle]float64{}}
	for _, d := range days {
		for _, w := range d.Work {
			a.add(w)
		}
	}
	share := float64(len(open)) / float64(len(j.days))
	if lack := a.lack(share); lack > 0 {
		share *= min(1, a.room()/lack)
	}
	places := j.places()
	for _, g := range []Muscle{Quads, Hips, Chest, Back, Shoulders, Triceps} {
		aim := a.have[g] + share*max(0, j.muscleAim(g)-a.have[g])
		if share == 1 || len(open) < len(j.days) {
			aim = share * j.muscleAim(g)
		}
		for _, p := range places {
			if need := aim - a.have[g]; p.group == g && need > 1e-9 {
				a.fill(p, need)
			}
		}
	}
	if len(open) == len(j.days) {
		a.sayLack()
	}
}

// filler adds accessories to the open days of a week and keeps count.
type filler struct {
	j    *job
	days []Day
	open []int
	have map[Muscle]float64
}

func (a *filler) add(w Work) {
	for m, s := range Muscles(w.Movement()) {
		a.have[m] += s * float64(w.Sets)
	}
}

// lack is how many sets all groups together miss.
func (a *filler) lack(share float64) (n float64) {
	for _, g := range Groups() {
		n += max(0, share*a.j.muscleAim(g)-a.have[g])
	}
	return n
}

// room is how many sets the open days still hold, by sets and by minutes.
func (a *filler) room() (n float64) {
	const each = 2.25 // minutes of an accessory set with its pause
	for _, i := range a.open {
		n += max(0, min(float64(maxSessionSets-a.days[i].sets()), float64(maxMinutes-minutes(a.days[i].Work))/each))
	}
	return n
}

// sayLack tells which groups the days have no room for.
func (a *filler) sayLack() {
	var short []string
	for _, g := range Groups() {
		if a.have[g] < a.j.muscleAim(g)-0.5 {
			short = append(short, string(g))
		}
	}
	if len(short) > 0 {
		a.j.leftOut = append(a.j.leftOut, "Your training days have no room for all the work for: "+strings.Join(short, ", ")+".")
	}
}

// fill gives a place its part of what a group needs: 2 to 4 sets, as even as the
// places allow, on the day of the place or on the one with most room.
func (a *filler) fill(p place, need float64) {
	parts := math.Ceil(need / accessoryMost)
	n := max(accessoryLeast, min(accessoryMost, int(math.Ceil(need/parts-1e-9))))
	for ; n > 0 && a.over(p.lift, n); n-- {
	}
	if n == 0 {
		return
	}
	w := a.j.accessory(p.lift, n)
	if day := a.dayFor(p, w); day >= 0 {
		a.days[day].Work = append(a.days[day].Work, w)
		a.add(w)
	}
}

// over tells whether n sets would take a group over its range.
func (a *filler) over(l planner.Lift, n int) bool {
	hi := float64(muscleTable[tier(a.j.level)].hi)
	for m, s := range Muscles(Movement{l, ""}) {
		if a.have[m]+s*float64(n) > hi && slices.Contains(Groups(), m) {
			return true
		}
	}
	return false
}

// dayFor is the open day of a place, or the one with the fewest sets where that
// is full or absent; -1 where none has room.
func (a *filler) dayFor(p place, w Work) int {
	best, fewest := -1, math.MaxInt
	for _, i := range a.open {
		work := a.days[i].Work
		n := a.days[i].sets()
		if n+w.Sets > maxSessionSets || minutes(append(slices.Clone(work), w)) > maxMinutes ||
			slices.ContainsFunc(work, func(o Work) bool { return o.Lift == w.Lift }) {
			continue
		}
		if a.j.days[p.at] == a.days[i].Date.Weekday() {
			return i
		}
		if n < fewest {
			best, fewest = i, n
		}
	}
	return best
}

// openDays are the places of the days that may have accessories.
func (j *job) openDays(days []Day) (open []int) {
	for i, d := range days {
		if !j.meet.IsZero() && j.out(d.Date) <= j.noAccessories() {
			continue
		}
		if gap := j.gapBetweenMeets(); !j.meet.IsZero() && gap > 0 && gap <= shortGap {
			continue
		}
		open = append(open, i)
	}
	return open
}

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
		share = j.back.sets
	}
	if j.stage.deload {
		share *= deloadShare
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
