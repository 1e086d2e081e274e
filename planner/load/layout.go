package load

import "blockbell/planner"

// slot is one lift's place in a session. Grade 0 is the lift's main session of
// the week, 1 the second, 2 and 3 the lighter ones.
type slot struct {
	lift  planner.Lift
	grade int
}

func sq(grade int) slot { return slot{planner.Squat, grade} }
func be(grade int) slot { return slot{planner.Bench, grade} }
func dl(grade int) slot { return slot{planner.Deadlift, grade} }

// layouts says which lifts meet on which training day, by event and days a week.
// The main squat and the main deadlift lie as far apart as the week allows, the
// bench comes two to four times, and what is lighter fills the days between. An
// empty day has accessories only.
var layouts = map[planner.EventKind][7][][]slot{
	planner.Full: {
		1: {{sq(0), be(0), dl(0)}},
		2: {{sq(0), be(0), dl(1)}, {dl(0), be(1), sq(1)}},
		3: {{sq(0), be(1)}, {be(0), dl(1)}, {dl(0), sq(1), be(2)}},
		4: {{sq(0), dl(1)}, {be(0)}, {dl(0), be(2)}, {sq(1), be(1)}},
		5: {{sq(0), dl(1)}, {be(0)}, {sq(1), be(2)}, {dl(0)}, {be(1)}},
		6: {{sq(0)}, {be(0)}, {dl(1)}, {sq(1), be(2)}, {dl(0)}, {be(1)}},
	},
	planner.BenchOnly: {
		1: {{be(0), sq(0), dl(0)}},
		2: {{be(0), sq(0)}, {be(1), dl(0)}},
		3: {{be(0)}, {be(2), sq(0)}, {be(1), dl(0)}},
		4: {{be(0)}, {sq(0)}, {be(2), dl(0)}, {be(1)}},
		5: {{be(0)}, {sq(0)}, {be(2)}, {dl(0)}, {be(1)}},
		6: {{be(0)}, {sq(0)}, {be(2)}, {dl(0)}, {be(1)}, {}},
	},
	planner.PushPull: {
		1: {{be(0), dl(0), sq(0)}},
		2: {{be(0), dl(1), sq(0)}, {dl(0), be(1)}},
		3: {{be(0), dl(1)}, {be(2), sq(0)}, {dl(0), be(1)}},
		4: {{dl(0)}, {be(0), sq(0)}, {dl(1), be(2)}, {be(1)}},
		5: {{dl(0)}, {be(0)}, {be(2), sq(0)}, {dl(1)}, {be(1)}},
		6: {{dl(0)}, {be(0)}, {sq(0)}, {be(2)}, {dl(1)}, {be(1)}},
	},
	planner.DeadliftOnly: {
		1: {{dl(0), sq(0), be(0)}},
		2: {{dl(0), be(0)}, {dl(1), sq(0)}},
		3: {{dl(0)}, {be(0), sq(0)}, {dl(1)}},
		4: {{dl(0)}, {be(0)}, {dl(1)}, {sq(0)}},
		5: {{dl(0)}, {be(0)}, {}, {dl(1)}, {sq(0)}},
		6: {{dl(0)}, {be(0)}, {}, {dl(1)}, {sq(0)}, {}},
	},
}

// arrange returns the sessions of the week in the order of its training days,
// turned so that two days lie between the main squat and the main deadlift; where
// no turn does it, both share a session.
func (j *job) arrange() [][]slot {
	n := len(j.days)
	base := layouts[planner.Full][n]
	if l, ok := layouts[j.event]; ok {
		base = l[n]
	}
	best, bestGap := base, j.heavyGap(base)
	for turn := 1; turn < n && bestGap < 2; turn++ {
		turned := append(append([][]slot{}, base[turn:]...), base[:turn]...)
		if gap := j.heavyGap(turned); gap > bestGap {
			best, bestGap = turned, gap
		}
	}
	if bestGap < 2 {
		j.notes = append(j.notes, "Your training days lie close together, so the heavy squat and the heavy deadlift share a day; two days between them would be better.")
		best = together(best)
	}
	return best
}

// heavyGap is the fewest days between the main squat and the main deadlift, also
// around the weekend; 7 where they share a session or one is missing.
func (j *job) heavyGap(sessions [][]slot) int {
	s, d := -1, -1
	for i, session := range sessions {
		for _, x := range session {
			if x == sq(0) && j.counts(planner.Squat) {
				s = j.offset(j.days[i])
			}
			if x == dl(0) && j.counts(planner.Deadlift) {
				d = j.offset(j.days[i])
			}
		}
	}
	if s < 0 || d < 0 || s == d {
		return 7
	}
	gap := abs(s - d)
	return min(gap, 7-gap)
}

// together puts the main deadlift into the session of the main squat, and the
// lighter one where the main one was.
func together(sessions [][]slot) [][]slot {
	out := make([][]slot, len(sessions))
	for i, session := range sessions {
		light := false
		for _, x := range session {
			switch x {
			case dl(0):
				light = true
			case dl(1):
			case sq(0):
				out[i] = append(out[i], x, dl(0))
			default:
				out[i] = append(out[i], x)
			}
		}
		if light {
			out[i] = append(out[i], dl(1))
		}
	}
	return out
}

// grades is how many sessions of the week have the lift.
func (j *job) grades(l planner.Lift) int {
	n := 0
	for _, session := range j.layout {
		for _, x := range session {
			if x.lift == l {
				n++
			}
		}
	}
	return n
}

// shares is how the weekly sets of a lift spread over its sessions.
var shares = [5][]float64{1: {1}, 2: {0.55, 0.45}, 3: {0.4, 0.35, 0.25}, 4: {0.34, 0.26, 0.2, 0.2}}

// split spreads n sets over at most grades sessions, at least two in each but
// the only one; the main session gets what is left over.
func split(n, grades int) []int {
	grades = max(1, min(grades, n/2))
	out := make([]int, grades)
	left := n
	for g := grades - 1; g > 0; g-- {
		out[g] = max(2, int(shares[grades][g]*float64(n)+0.5))
		left -= out[g]
	}
	for g := grades - 1; left < 2 && g > 0; g-- {
		give := min(out[g]-1, 2-left)
		out[g], left = out[g]-give, left+give
	}
	out[0] = left
	return out
}
