package blocks

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/planner"
)

// placing is a split laid into the calendar.
type placing struct {
	steps []step
	cut   []string // main meets that lie inside a block
	rest  bool     // the running block's weeks were read as those still to come
}

// place lays a split into the training weeks of the season. The weeks of a first
// part of the running kind are its whole length, or those still to come where only
// they add up. A block that would span a main meet is cut there.
func (s *season) place(sp Split) (placing, error) {
	if s.Running != nil && s.stretches[0].weeks() == 0 {
		return s.placeBehind(sp)
	}
	goes := s.goesOn(sp) && s.done > 0
	if goes && sp[0].Weeks < s.done {
		if p, left := s.lay(sp, 0); left == 0 {
			p.rest = true
			return p, nil
		}
		return placing{}, planner.Errorf(planner.Invalid, "Give the running block its whole length.",
			"the split %s begins with %s of %s, but %s of it are done", sp, plural(sp[0].Weeks), theBlock(index(sp[0].Kind)), plural(s.done))
	}
	whole, left := s.lay(sp, s.done)
	if left == 0 {
		return whole, nil
	}
	if goes {
		if p, left := s.lay(sp, 0); left == 0 {
			p.rest = true
			return p, nil
		}
	}
	return placing{}, s.offBy(sp, left)
}

// placeBehind is place where no training week is left to the running block; it may
// be named with the weeks it had, or not at all.
func (s *season) placeBehind(sp Split) (placing, error) {
	p, left := s.fill(placing{}, sp, 0)
	if left == 0 {
		return p, nil
	}
	if s.goesOn(sp) && sp[0].Weeks == s.done {
		if p, left := s.fill(placing{}, sp[1:], 0); left == 0 {
			return p, nil
		}
	}
	return p, s.offBy(sp, left)
}

// goesOn tells whether a split begins with the block that runs.
func (s *season) goesOn(sp Split) bool {
	return s.Running != nil && len(sp) > 0 && sp[0].Kind == s.Running.Kind
}

// lay places the parts of a split from the day of the plan on, of the running block
// without the weeks done. left is how many training weeks are over at the end, below
// 0 how many too much.
func (s *season) lay(sp Split, done int) (p placing, left int) {
	switch {
	case s.goesOn(sp):
		t := s.put(&p, step{kind: index(sp[0].Kind), weeks: sp[0].Weeks - done, running: true}, 0)
		return s.fill(p, sp[1:], t)
	case s.Running != nil:
		p.steps = append(p.steps, step{kind: index(s.Running.Kind), total: s.done, running: true})
	}
	return s.fill(p, sp, 0)
}

// fill places parts one behind another from training week t on.
func (s *season) fill(p placing, sp Split, t int) (placing, int) {
	for _, part := range sp {
		t = s.put(&p, step{kind: index(part.Kind), weeks: part.Weeks}, t)
	}
	return p, len(s.weeks) - t
}

// put adds block b from training week t on and returns the week after it.
func (s *season) put(p *placing, b step, t int) int {
	for b.weeks > 0 || b.running {
		i := s.stretchHolding(t)
		if i < 0 {
			return t + b.weeks
		}
		st, c := s.stretches[i], b
		c.at, c.stretch, c.weeks = t, i, min(b.weeks, st.hi-t)
		c.total = c.weeks
		if c.running {
			c.total += s.done
		}
		if c.weeks < b.weeks && st.kind == planner.Main && i < len(s.stretches)-1 {
			p.cut = append(p.cut, s.meetName(st))
		}
		c.next = s.behindPeak(c, t+c.weeks)
		t = c.next
		p.steps = append(p.steps, c)
		b.weeks, b.running = b.weeks-c.weeks, false
	}
	return t
}

// stretchHolding is the stretch of training week t; -1 behind the last.
func (s *season) stretchHolding(t int) int {
	return slices.IndexFunc(s.stretches, func(st stretch) bool { return t < st.hi })
}

// behindPeak is the first training week after block b that ends before week t: behind a
// peak for a practice meet or test day the week that begins on that day is skipped.
func (s *season) behindPeak(b step, t int) int {
	if b.kind == iP && b.weeks > 0 && t < s.stretches[b.stretch].hi {
		for _, p := range s.stops {
			if p.before == t && !p.close && p.next < s.stretches[b.stretch].hi {
				return p.next
			}
		}
	}
	return t
}

// offBy is the error for a split that does not add up to the weeks.
func (s *season) offBy(sp Split, left int) error {
	have := fmt.Sprintf("there are %s %s", trainingWeeks(len(s.weeks)), s.untilWhen())
	if s.goesOn(sp) && s.done > 0 {
		have += fmt.Sprintf(", %d with the %d of the running block that are done", len(s.weeks)+s.done, s.done)
	}
	off := fmt.Sprintf("%s missing", isAre(left))
	if left < 0 {
		off = fmt.Sprintf("%s too much", isAre(-left))
	}
	return planner.Errorf(planner.Invalid, s.runUpsHint(), "the split %s has %s; %s: %s", sp, plural(sp.Weeks()), have, off)
}

func isAre(n int) string {
	if n == 1 {
		return "1 is"
	}
	return fmt.Sprintf("%d are", n)
}

func trainingWeeks(n int) string {
	if n == 1 {
		return "1 training week"
	}
	return fmt.Sprintf("%d training weeks", n)
}

// untilWhen names the end of the time to plan.
func (s *season) untilWhen() string {
	last := s.stretches[len(s.stretches)-1]
	if s.rolling() && !s.testClosed() {
		return "in a cycle without a meet"
	}
	return "until " + s.meetName(last)
}

// runUpsHint says how many weeks each run-up has, where there is more than one.
func (s *season) runUpsHint() string {
	var list []string
	for _, st := range s.stretches {
		if st.weeks() > 0 && st.kind != leaving {
			list = append(list, fmt.Sprintf("%s before %s", plural(st.weeks()), s.meetName(st)))
		}
	}
	if len(list) < 2 {
		return "Make the weeks of the blocks add up."
	}
	return "Make the weeks of the blocks add up, recovery after a meet included: " + strings.Join(list, ", ") + "."
}
