package load

import (
	"fmt"

	"blockbell/planner"
)

// changes compares a plan with last week's, with the reason of each difference.
func (r Request) changes(p Plan) []Change {
	old, ok := r.lastWeek(p)
	if !ok {
		return nil
	}
	var out []Change
	if old.Block != p.Block {
		out = append(out, Change{Text: fmt.Sprintf("%s begins.", blockName(p.Block))})
	}
	for _, l := range planner.CompetitionLifts() {
		out = append(out, r.liftChanges(l, old, p)...)
	}
	return out
}

// lastWeek is the plan of the last week that was trained before p: the one shown,
// else made again.
func (r Request) lastWeek(p Plan) (Plan, bool) {
	if r.Previous != nil {
		return *r.Previous, true
	}
	before := r
	before.Today = r.trainedBefore(p.Start)
	if b, err := r.block(); err != nil || before.Today < b.Start {
		before.Block = planner.Block{}
	}
	old, err := week(before)
	return old, err == nil
}

func (r Request) liftChanges(l planner.Lift, old, now Plan) (out []Change) {
	unit := r.Gym.Unit
	if a, b := old.LiftSets[l], now.LiftSets[l]; a != b && a > 0 && b > 0 {
		reason := reasonOf(old, now, b < a, r.lighter("because the next rise begins lower"))
		out = append(out, Change{l, fmt.Sprintf("%s: %s instead of %d, %s.", title(string(l)), plural(b, "set"), a, reason)})
	}
	a, b := heaviest(old, l), heaviest(now, l)
	if a.Weight > 0 && b.Weight > 0 && a.Weight != b.Weight {
		reason := reasonOf(old, now, b.Weight < a.Weight, r.lighter("because this week is its lighter one"))
		out = append(out, Change{l, fmt.Sprintf("%s: heaviest %s x %d after %s x %d, %s.", title(string(l)), b.Weight.Text(unit), b.Reps, a.Weight.Text(unit), a.Reps, reason)})
	}
	return out
}

// lighter is why a number falls where nothing special is about the week.
func (r Request) lighter(usual string) string {
	if r.Version == Cautious {
		return "because the careful version asks for less"
	}
	return usual
}

// reasonOf says why a number differs; less tells that it fell, and lighter why it
// does where nothing special is about the week.
func reasonOf(old, now Plan, less bool, lighter string) string {
	switch {
	case now.Back && less:
		return "because you were away"
	case old.Back:
		return "another step back after your time away"
	case now.Eased && less:
		return "because a meet is near"
	case old.Eased:
		return "because the meet is over"
	case now.Deload:
		return "because it is an easy week"
	case now.Taper:
		return "counted back from the meet"
	case old.Deload && !less:
		return "because the easy week is over"
	case old.Block != now.Block:
		return "because another block begins"
	case now.Block == planner.Peaking:
		return "because sets fall and loads rise toward the meet"
	case less:
		return lighter
	}
	return "the week's step in this block"
}

// heaviest is the heaviest work of the competition form of a lift.
func heaviest(p Plan, l planner.Lift) (best Work) {
	for _, d := range p.Days {
		for _, w := range d.Work {
			if w.Lift == l && w.Variant == "" && w.Weight > best.Weight {
				best = w
			}
		}
	}
	return best
}

// blockName is a kind of block in words a first-year lifter knows.
func blockName(k planner.BlockKind) string {
	switch k {
	case planner.Hypertrophy:
		return "Muscle block (hypertrophy)"
	case planner.Strength:
		return "Strength block"
	case planner.Peaking:
		return "Peaking (heavy singles, less work)"
	}
	return "Recovery"
}

func title(s string) string { return string(s[0]-'a'+'A') + s[1:] }
