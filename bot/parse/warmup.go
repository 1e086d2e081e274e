package parse

import (
	"slices"

	"blockbell/planner"
)

// lightestBar is the lightest bar in common use; what is lighter was no warm-up with one.
const lightestBar = 15 * planner.Kilogram

// warmUps keeps light weights without a question where the same message goes on to a
// heavier set of the lift that raises no doubt: they are its warm-up.
func (s *session) warmUps() {
	for k := len(s.light) - 1; k >= 0; k-- {
		at := s.light[k]
		sets := s.out.Questions[at].Sets
		if slices.ContainsFunc(sets, func(i int) bool { return !s.warmUp(i) }) {
			continue
		}
		for _, i := range sets {
			s.out.Sets[i].Pending = false
		}
		s.out.Questions = slices.Delete(s.out.Questions, at, at+1)
	}
}

// warmUp tells whether a sure and heavier set of the same lift and day follows set i.
func (s *session) warmUp(i int) bool {
	light := s.out.Sets[i]
	return light.Weight >= lightestBar && !light.Missed && slices.ContainsFunc(s.out.Sets[i+1:], func(heavy planner.Set) bool {
		return heavy.Lift == light.Lift && heavy.Day == light.Day && heavy.Weight > light.Weight && !heavy.Pending
	})
}
