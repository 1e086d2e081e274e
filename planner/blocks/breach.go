package blocks

import (
	"fmt"

	"blockbell/planner"
)

func breach(g Guard, format string, args ...any) *Breach {
	return &Breach{g, whole, fmt.Sprintf(format, args...)}
}

// orderBreach holds block i against the one before it.
func (c *comparing) orderBreach(steps []step, i int, r row) *Breach {
	b := steps[i]
	if i == 0 || steps[i-1].stretch != b.stretch {
		switch {
		case c.isGap(b.stretch) && r.recover && r.span[iR][1] > 0 && b.kind != iR:
			return breach(GuardRecovery, "After %s comes recovery first.", c.meetName(c.stretches[b.stretch-1]))
		case b.kind == iR && !b.running && c.stretches[b.stretch].from != fromMeet:
			return breach(GuardRecovery, "Recovery comes after a main meet only.")
		}
		return nil
	}
	a := steps[i-1]
	switch {
	case a.kind == b.kind && a.weeks > 0 && a.next == b.at && !(a.kind == iP && c.endsBeforeMeet(a)):
		return breach(GuardOrder, "Two blocks of one kind in a row are one block: %s of %s.", screenName(b.kind), plural(a.total+b.total))
	case a.kind == iH && b.kind == iP && !r.hToP:
		return breach(GuardMixed, "Peaking straight after a muscle block mixes far-apart aims: new muscle needs a strength block before it lifts more.")
	case b.kind == iR:
		return breach(GuardRecovery, "Recovery comes after a main meet only.")
	case a.kind == iR && b.kind == iP && !r.rToP:
		return breach(GuardOrder, "Peaking straight after recovery: strength comes before it.")
	case a.kind == iP && a.weeks > 0 && !c.endsBeforeMeet(a):
		return breach(GuardPeak, "Peaking ends on the day before a meet; this one goes over into %s, and what it sharpened is lost.", theBlock(b.kind))
	}
	return nil
}

// endsBeforeMeet tells whether a meet or test day follows block b.
func (c *comparing) endsBeforeMeet(b step) bool {
	t := b.at + b.weeks
	if st := c.stretches[b.stretch]; t == st.hi && st.kind != leaving {
		return true
	}
	for _, p := range c.stops {
		if p.before == t && !p.close {
			return true
		}
	}
	return false
}

// lengthBreach holds the length of block b against its bounds.
func (c *comparing) lengthBreach(b step, r row) *Breach {
	lo, hi := r.span[b.kind][0], r.span[b.kind][1]
	name, weeks := capital(theBlock(b.kind)), plural(b.total)
	if b.weeks == 0 {
		if b.kind != iP && b.kind != iR && !r.runShort && b.total < lo {
			return breach(GuardShort, "The running %s would end at once, after %s; under %s it does not pay.", screenName(b.kind), weeks, plural(lo))
		}
		return nil
	}
	if b.kind == iP && b.weeks <= testTaper && c.best.g.testAt(b.at+b.weeks) {
		lo = 1
	}
	switch most := c.caps[b.kind]; {
	case most != noCap && b.total > most:
		bound, _ := c.capOn(b.kind)
		return breach(GuardBound, "%s lasts %s, against the bound %s.", name, weeks, bound.text())
	case b.kind == iP && b.running && b.total <= r.stretch:
		return nil
	case b.kind == iP && b.total > hi:
		return breach(GuardLimit, "Peaking lasts %s; your limit is %d (common practice). About %.1f %% of muscle goes before the meet.", weeks, c.stretches[b.stretch].limit, c.muscleGone(b.total))
	case b.total > hi:
		return breach(GuardLong, "%s lasts %s; the longest I plan is %s (common practice).", name, weeks, plural(hi))
	case b.total < lo && b.kind == iH:
		return breach(GuardShort, "%s lasts %s; under %s new muscle cannot show.", name, weeks, plural(lo))
	case b.total < lo:
		return breach(GuardShort, "%s lasts %s; the shortest that pays is %s (common practice).", name, weeks, plural(lo))
	}
	return nil
}

// placeBreach holds block b against practice meets and times away.
func (c *comparing) placeBreach(b step) *Breach {
	if c.barredPeak(b) {
		return breach(GuardAway, "Peaking comes too soon after the time away.")
	}
	for _, p := range c.stops {
		w, in := c.holds(b, p)
		if p.kind == planner.TuneUp && in && (b.kind == iR || b.kind == iH && w < firstWeeks) {
			return breach(GuardPractice, "The practice meet on %s falls into %s.", p.date.Short(), early(b.kind))
		}
	}
	return nil
}

func early(kind int) string {
	if kind == iH {
		return fmt.Sprintf("the first %d weeks of the muscle block, when you are most tired", firstWeeks)
	}
	return theBlock(kind)
}

// endBreaches names the main meets before which no peaking ends, and peaking before a
// time away or a test.
func (c *comparing) endBreaches(steps []step) (out []Breach) {
	for i, st := range c.stretches {
		last := -1
		for j, b := range steps {
			if b.stretch == i {
				last = j
			}
		}
		if last < 0 || st.weeks() == 0 {
			continue
		}
		switch b := steps[last]; {
		case st.kind == planner.Main && b.kind != iP:
			out = append(out, *breach(GuardPeak, "Nothing peaks for %s: the day before a main meet is the last of a peaking block.", c.meetName(st)))
		case st.kind == leaving && b.kind == iP && b.weeks > 0:
			out = append(out, *breach(GuardPeak, "Peaking ends before a time away, with no meet behind it."))
		case st.kind != planner.Main && st.kind != leaving && b.kind != iP && b.kind != iS:
			out = append(out, *breach(GuardOrder, "A test of strength comes after a strength block."))
		}
	}
	return out
}

// decisionBreach is for what order and lengths alone do not explain.
func (c *comparing) decisionBreach(steps []step) Breach {
	if len(c.pins) > 0 {
		return *breach(GuardFixed, "It does not keep what is fixed by hand.")
	}
	for _, r := range c.season.rows(loosening{}) {
		if r.mostH > 0 && weeksOfKind(steps, iH) > r.mostH {
			return *breach(GuardWeeks, "Without a meet at most %s of this cycle are for muscle (common practice).", plural(r.mostH))
		}
	}
	return *breach(GuardWeeks, "It does not keep the rules for the weeks that are left.")
}

func weeksOfKind(steps []step, kind int) (n int) {
	for _, b := range steps {
		if b.kind == kind {
			n += b.weeks
		}
	}
	return n
}
