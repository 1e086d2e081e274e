package blocks

import "blockbell/planner"

// Week returns the state after one training week of a block of which w weeks
// were done before. The lines run in this order, each on the result of the one
// before:
//
//	hypertrophy  m += rm phi; s -= dS; where tauH > 0: s += (m + c - s)/tauH
//	strength     c += rc phi; s += (m + c - s)/tauG
//	peaking      from w = grace: m -= dm; s += (m + c - s)/tauP
//	recovery     nothing
//	layoff       from w = 2: m -= 0.015; from w = 4: s -= 0.02
//	all          from w = staleAfter (not layoff): s -= staleLoss
//	all          e += (eT - e)/eTau
func (m Model) Week(x State, kind planner.BlockKind, w int) State {
	k, phi := index(kind), 0.0
	if k == iH || k == iS {
		phi = m.stimulus(k, w)
	}
	return m.next(x, k, w, phi)
}

// next is Week with the stimulus of the week given.
func (m *Model) next(x State, k, w int, phi float64) State {
	switch k {
	case iH:
		x.M += m.Rm * phi
		x.S -= m.DS
		if m.TauH > 0 {
			x.S += (x.M + x.C - x.S) / m.TauH
		}
	case iS:
		x.C += m.Rc * phi
		x.S += (x.M + x.C - x.S) / m.TauG
	case iP:
		if w >= m.Grace {
			x.M -= m.Dm
		}
		x.S += (x.M + x.C - x.S) / m.TauP
	case iLayoff:
		return awayWeek(x, w)
	}
	if w >= m.StaleAfter {
		x.S -= m.StaleLoss
	}
	x.E += (m.ET[k] - x.E) / m.ETau[k]
	return x
}

func awayWeek(x State, w int) State {
	if w >= 2 {
		x.M -= layoffM
	}
	if w >= 4 {
		x.S -= layoffS
	}
	x.E += (layoffE - x.E) / layoffTau
	return x
}

// Replay runs past blocks, oldest first, from x and returns the state after them.
// Only the last weeks of them all are run, each in its true place in its block.
func (m Model) Replay(x State, past []Past, last int) State {
	skip := -last
	for _, p := range past {
		skip += p.Weeks
	}
	for _, p := range past {
		for w := 0; w < p.Weeks; w++ {
			if skip--; skip < 0 {
				x = m.Week(x, p.Kind, w)
			}
		}
	}
	return x
}

// replayWeeks is how far back real blocks are remembered: after a year nothing
// of a block's order is left in the state that matters to the next one.
const replayWeeks = 52

// PeakingDrift tells what peaking for the given weeks does, from the start of
// the model: single is the change of s + e, muscle the change of m, both in log
// units. A lifter past the limit loses muscle first; the single follows later.
func PeakingDrift(m Model, weeks int) (single, muscle float64) {
	x := m.Start.State
	for w := range weeks {
		x = m.Week(x, planner.Peaking, w)
	}
	return x.S + x.E - m.Start.S - m.Start.E, x.M - m.Start.M
}
