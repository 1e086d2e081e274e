package blocks

import (
	"fmt"

	"blockbell/planner"
)

// awayNotes says what times away did to the running block and to the plan.
func (s *season) awayNotes() (out []string) {
	for _, e := range s.endedAway {
		out = append(out, fmt.Sprintf("The running %s ended with the time away from %s to %s: after 28 days or more a new block begins.",
			screenName(index(e.kind)), e.away.From.Short(), e.away.To.Short()))
	}
	for _, a := range s.spans {
		switch {
		case a.To < s.Today:
			continue
		case a.days() >= awayEnds:
			out = append(out, fmt.Sprintf("Away from %s to %s: the block before it ends, and a new one begins on %s.", a.From.Short(), a.To.Short(), a.To.AddDays(1).Short()))
		default:
			out = append(out, fmt.Sprintf("Away from %s to %s: those weeks do not count as weeks of a block.", a.From.Short(), a.To.Short()))
		}
	}
	for _, st := range s.stretches {
		if st.from == fromAway && st.kind == planner.Main && st.weeks() == 0 {
			out = append(out, fmt.Sprintf("You are away until just before %s: nothing can be planned for it, so lift it lightly.", s.meetName(st)))
		}
	}
	return out
}

// soonAfterAway says that peaking comes sooner after a time away than it should.
func (s *season) soonAfterAway(f found) []string {
	for _, b := range f.steps {
		if s.barredPeak(b) {
			return []string{fmt.Sprintf("Peaking before %s comes soon after your time away: %s. Nothing at 85 %% or more before day 10.",
				s.meetName(s.stretches[b.stretch]), s.because(func(o loosening) bool { return o.back }, "no other plan fits"))}
		}
	}
	return nil
}
