package load

import (
	"math"
	"slices"
	"strings"

	"blockbell/planner"
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
	a := &filler{j: j, days: days, open: open, have: map[Muscle]float64{}, gained: map[Muscle]float64{}}
	for _, d := range days {
		for _, w := range d.Work {
			a.add(w)
		}
	}
	clear(a.gained)
	if j.stage.deload {
		a.most = j.accessoriesBefore()
	}
	a.lack = a.lacking(float64(len(open)) / float64(len(j.days)))
	places := j.places()
	for _, g := range []Muscle{Quads, Hips, Chest, Back, Shoulders, Triceps} {
		a.fillGroup(g, places)
	}
	a.gather()
	if len(open) == len(j.days) {
		a.sayLack()
	}
}

// accessoriesBefore is the sets of each accessory in the week before: a deload has
// none that is new and none with more.
func (j *job) accessoriesBefore() map[planner.Lift]int {
	sets := map[planner.Lift]int{}
	before := j.Request
	before.Today, before.Previous = j.trainedBefore(j.start), nil
	p, err := week(before)
	if err != nil {
		return nil
	}
	for _, d := range p.Days {
		for _, w := range d.Work {
			if w.Role == Accessory {
				sets[w.Lift] += w.Sets
			}
		}
	}
	return sets
}

// filler adds accessories to the open days of a week and keeps count.
type filler struct {
	j    *job
	days []Day
	open []int
	have map[Muscle]float64 // sets of each group, indirect ones half
	// lack is what each group missed before accessories, gained what it has got
	// since.
	lack, gained map[Muscle]float64
	// most is the sets an accessory may have; nil: as many as its place allows.
	most map[planner.Lift]int
}

func (a *filler) add(w Work) {
	for m, s := range Muscles(w.Movement()) {
		a.have[m] += s * float64(w.Sets)
		a.gained[m] += s * float64(w.Sets)
	}
}

// lacking is how many sets each group misses; share is the part of the week's
// training days that is open. Where the days hold less than all, each group gives
// up the same part.
func (a *filler) lacking(share float64) map[Muscle]float64 {
	lack, all := map[Muscle]float64{}, 0.0
	for _, g := range Groups() {
		lack[g] = max(0, share*a.j.muscleAim(g)-a.have[g])
		all += lack[g]
	}
	if room := a.room(); all > room {
		for g := range lack {
			lack[g] *= room / all
		}
	}
	return lack
}

// room is how many sets the open days still hold, by sets and by minutes.
func (a *filler) room() (n float64) {
	const each = 2.25 // minutes of an accessory set with its pause
	for _, i := range a.open {
		n += max(0, min(float64(maxSessionSets-a.days[i].sets()), float64(maxMinutes-minutes(a.days[i].Work))/each))
	}
	return n
}

// fillGroup gives a group what it lacks, place by place. What other groups'
// accessories brought it meanwhile counts.
func (a *filler) fillGroup(g Muscle, places []place) {
	aim, left := a.have[g]+a.lack[g]-a.gained[g], rounds
	for _, p := range places {
		if p.group != g {
			continue
		}
		if need := aim - a.have[g]; need > 1e-9 {
			a.fill(p, need, left)
		}
		left--
	}
}

// floor is the sets a group must have: the low end of its range in hypertrophy,
// else what keeps it.
func (j *job) floor(g Muscle) float64 {
	r := muscleTable[tier(j.level)]
	share := 1.0
	if j.back != nil {
		share = j.back.sets()
	}
	if j.stage.deload {
		share *= deloadShare
	}
	if j.stage.kind == planner.Hypertrophy && j.muscleAim(g) >= share*float64(r.lo)-1e-9 {
		return share * float64(r.lo)
	}
	return min(j.muscleAim(g), share*upkeepShare(j.age)*float64(r.hi))
}

// sayLack tells which groups the days have no room for.
func (a *filler) sayLack() {
	var short []string
	for _, g := range Groups() {
		if a.have[g] < a.j.floor(g)-1e-9 {
			short = append(short, string(g))
		}
	}
	if len(short) > 0 {
		a.j.leftOut = append(a.j.leftOut, "Your training days have no room for all the work for: "+strings.Join(short, ", ")+".")
	}
}

// fill gives a place its part of what a group needs: 2 to 4 sets, as even as the
// places that are left allow, on the day of the place or on the one with most room.
func (a *filler) fill(p place, need float64, left int) {
	parts := min(math.Ceil(need/accessoryMost), float64(left))
	n := max(accessoryLeast, min(accessoryMost, int(math.Ceil(need/parts-1e-9))))
	if a.most != nil {
		n = min(n, a.most[p.lift])
	}
	for ; n > 0 && a.over(p.lift, n); n-- {
	}
	if n == 0 {
		return
	}
	w := a.j.accessory(p.lift, n)
	if day := a.dayFor(p, w); day >= 0 {
		a.days[day].Work = append(a.days[day].Work, w)
		a.add(w)
		if a.most != nil {
			a.most[p.lift] -= n
		}
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
		if j.betweenTwo() || strings.HasPrefix(d.Note, mockNote) {
			continue
		}
		open = append(open, i)
	}
	return open
}
