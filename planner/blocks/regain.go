package blocks

import "math"

// Lost is what past times away took and training has not yet given back, in log
// units: of strength, and of the sharpness that is shown in a single.
type Lost struct {
	S float64 `json:"s"`
	E float64 `json:"e"`
}

// losing follows what times away take, week by week, beside the state.
type losing struct {
	was float64 // the most strength that a time away began from
	e   float64
	m   float64 // muscle that the time away under way took
}

// week takes in a week that led from one state to the next. What a week away does to
// sharpness wears off in training as sharpness itself comes back.
func (l *losing) week(kind int, before, after State, eTau [4]float64) {
	if kind == iLayoff {
		l.was = math.Max(l.was, before.S)
		l.e += math.Max(0, before.E-after.E)
		l.m += before.M - after.M
		return
	}
	l.e *= 1 - 1/eTau[kind]
}

// back ends a time away. What had once been built comes back far sooner than it was
// built (common practice), so the muscle that was lost stays in reach: strength closes on
// where it was, at the pace of the block, and goes beyond it only by what is new.
func (l *losing) back(x State) State {
	x.C += l.m
	l.m = 0
	return x
}

// at is what is lost in a state. Times away that took nothing, or whose loss is made
// up for, leave nothing.
func (l losing) at(x State) Lost {
	return Lost{S: math.Max(0, l.was-x.S), E: l.e}
}

// relive runs past weeks from a state and returns where they lead and what times away
// among them took.
func (m *Model) relive(x State, past []pastWeek, week func(State, int, int) State) (State, Lost) {
	l := losing{was: math.Inf(-1)}
	for _, w := range past {
		k := index(w.kind)
		if k != iLayoff {
			x = l.back(x)
		}
		next := week(x, k, w.week)
		l.week(k, x, next, m.ETau)
		x = next
	}
	x = l.back(x)
	return x, l.at(x)
}

// fromToday takes the strength realised today off a state, so that it is zero. It comes
// off once, from skill: what strength closes on, muscle and skill less strength, is the
// same before and after.
func (x State) fromToday() State { return State{M: x.M, C: x.C - x.S, E: x.E} }

// regained is how much of the way from the start to x is only what times away took, in
// percent: what brings the lifter back to where they were. The rest of the gain lies
// beyond that.
func (m *Model) regained(x State) float64 {
	s := math.Min(math.Max(0, x.S-m.Start.S), m.Start.Lost.S)
	e := math.Min(math.Max(0, x.E-m.Start.E), m.Start.Lost.E)
	return 100 * math.Expm1(s+e)
}
