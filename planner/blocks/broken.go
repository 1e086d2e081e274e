package blocks

import (
	"fmt"

	"blockbell/planner"
)

// broken says, one sentence each, why the planner would not choose these steps:
// rules of order and length, the coach's pins and bounds. It is empty where some
// legal order has them.
func (c *comparing) broken(p placing) (out []string) {
	if c.allowed(p.steps) || c.allowed(c.restInOddDays(p.steps)) {
		return nil
	}
	for _, name := range p.cut {
		out = append(out, "No block goes on through a main meet: "+name+" lies inside one.")
	}
	rows := c.season.rows(c.free.o)
	for i, b := range p.steps {
		out = append(out, c.brokenOrder(p.steps, i, rows)...)
		out = append(out, c.brokenLength(b, rows[b.stretch])...)
		out = append(out, c.brokenPlace(b)...)
	}
	out = append(out, c.unpeaked(p.steps)...)
	if len(out) == 0 {
		out = append(out, c.brokenDecision(p.steps))
	}
	return distinct(out)
}

// allowed tells whether steps are a plan of the order prescribed or of any legal
// one, with no more rules set aside than the best plan needed.
func (c *comparing) allowed(steps []step) bool {
	return c.best.g.allows(steps) || c.free.allows(steps)
}

// restInOddDays puts a recovery of no training week into gaps whose odd days are it.
func (c *comparing) restInOddDays(steps []step) []step {
	var out []step
	for i, b := range steps {
		if i > 0 && b.stretch > steps[i-1].stretch && c.isGap(b.stretch) && b.kind != iR {
			out = append(out, step{kind: iR, at: b.at, next: b.at, stretch: b.stretch})
		}
		out = append(out, b)
	}
	return out
}

// brokenOrder holds block i against the one before it.
func (c *comparing) brokenOrder(steps []step, i int, rows []row) []string {
	b := steps[i]
	r := rows[b.stretch]
	if i == 0 || steps[i-1].stretch != b.stretch {
		if c.isGap(b.stretch) && r.recover && r.span[iR][1] > 0 && b.kind != iR {
			return []string{fmt.Sprintf("After %s comes recovery first.", c.meetName(c.stretches[b.stretch-1]))}
		}
		if b.kind == iR && !b.running && c.stretches[b.stretch].from != fromMeet {
			return []string{"Recovery comes after a main meet only."}
		}
		return nil
	}
	a := steps[i-1]
	switch {
	case a.kind == b.kind && a.weeks > 0:
		return []string{fmt.Sprintf("Two blocks of one kind in a row are one block: %s of %s.", screenName(b.kind), plural(a.total+b.total))}
	case a.kind == iH && b.kind == iP && !r.hToP:
		return []string{"Peaking straight after a muscle block mixes far-apart aims: new muscle needs a strength block before it lifts more."}
	case b.kind == iR:
		return []string{"Recovery comes after a main meet only."}
	case a.kind == iR && b.kind == iP && !r.rToP:
		return []string{"Peaking straight after recovery: strength comes before it."}
	case a.kind == iP && (b.kind == iH || b.kind == iS) && a.weeks > 0 && a.next == a.at+a.weeks && !c.endsBeforeMeet(a):
		return []string{fmt.Sprintf("Peaking ends on the day before a meet; this one goes over into %s, and what it sharpened is lost.", theBlock(b.kind))}
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

// brokenLength holds the length of block b against its bounds.
func (c *comparing) brokenLength(b step, r row) []string {
	if b.weeks == 0 {
		if b.kind != iP && !r.runShort && b.total < r.span[b.kind][0] && b.kind != iR {
			return []string{fmt.Sprintf("The running %s would end after %s; at least %s pay.", screenName(b.kind), plural(b.total), plural(r.span[b.kind][0]))}
		}
		return nil
	}
	lo, hi := r.span[b.kind][0], r.span[b.kind][1]
	if b.kind == iP && b.weeks <= testTaper && c.best.g.testAt(b.at+b.weeks) {
		lo = 1
	}
	name := capital(theBlock(b.kind))
	switch most := c.caps[b.kind]; {
	case most != noCap && b.total > most:
		bound, _ := c.capOn(b.kind)
		return []string{fmt.Sprintf("%s lasts %s, against the bound %s.", name, plural(b.total), bound.text())}
	case b.kind == iP && b.running && b.total <= r.stretch:
		return nil
	case b.kind == iP && b.total > hi:
		return []string{fmt.Sprintf("Peaking lasts %s; your limit is %d (common practice).", plural(b.total), c.stretches[b.stretch].limit)}
	case b.total > hi:
		return []string{fmt.Sprintf("%s lasts %s; the longest I plan is %s (common practice).", name, plural(b.total), plural(hi))}
	case b.total < lo && b.kind == iH:
		return []string{fmt.Sprintf("The muscle block (hypertrophy) lasts %s; under %s new muscle cannot show.", plural(b.total), plural(lo))}
	case b.total < lo:
		return []string{fmt.Sprintf("%s lasts %s; the shortest that pays is %s (common practice).", name, plural(b.total), plural(lo))}
	}
	return nil
}

// brokenPlace holds block b against practice meets and times away.
func (c *comparing) brokenPlace(b step) (out []string) {
	if c.barredPeak(b) {
		out = append(out, "Peaking comes too soon after the time away.")
	}
	if b.kind != iH && b.kind != iR {
		return out
	}
	for _, p := range c.stops {
		if p.kind == planner.TuneUp && p.week >= b.at && p.week < b.at+b.weeks {
			out = append(out, fmt.Sprintf("The practice meet on %s falls into %s.", p.date.Short(), theBlock(b.kind)))
		}
	}
	return out
}

// unpeaked names the main meets before which no peaking ends, and peaking before a
// time away.
func (c *comparing) unpeaked(steps []step) (out []string) {
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
			out = append(out, fmt.Sprintf("Nothing peaks for %s: the day before a main meet is the last of a peaking block.", c.meetName(st)))
		case st.kind == leaving && b.kind == iP && b.weeks > 0:
			out = append(out, "Peaking ends before a time away, with no meet behind it.")
		case st.kind != planner.Main && st.kind != leaving && b.kind != iP && b.kind != iS:
			out = append(out, "A test of strength comes after a strength block.")
		}
	}
	return out
}

// brokenDecision is for what order and lengths alone do not explain.
func (c *comparing) brokenDecision(steps []step) string {
	if len(c.pins) > 0 {
		return "It does not keep what is fixed by hand."
	}
	if c.rolling() {
		for _, r := range c.season.rows(loosening{}) {
			if r.mostH > 0 && weeksOfKind(steps, iH) > r.mostH {
				return fmt.Sprintf("Without a meet at most %s of this cycle are for muscle (common practice).", plural(r.mostH))
			}
		}
	}
	return "It does not keep the rules for the weeks that are left."
}

func weeksOfKind(steps []step, kind int) (n int) {
	for _, b := range steps {
		if b.kind == kind {
			n += b.weeks
		}
	}
	return n
}

// capital makes the first letter large.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}
