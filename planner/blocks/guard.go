package blocks

import "slices"

// Guard is a rule of the method that the planner keeps and a coach's split may break.
type Guard string

// The guards.
const (
	GuardOrder    Guard = "order"            // muscle, strength, peaking, one block of a kind at a time
	GuardMixed    Guard = "mixed aims"       // far-apart aims one straight behind another
	GuardShort    Guard = "too short"        // nothing under three weeks, muscle at least four
	GuardLong     Guard = "too long"         // longer than a block of its kind pays
	GuardLimit    Guard = "peaking limit"    // peaking past the lifter's limit
	GuardPeak     Guard = "peak at the meet" // every main meet ends a peak, and every peak ends at a meet
	GuardRecovery Guard = "recovery"         // after a main meet, and only there
	GuardSpan     Guard = "spans a meet"     // no block goes on through a main meet
	GuardPractice Guard = "practice meet"    // lies inside strength or peaking
	GuardAway     Guard = "after time away"  // no peaking too soon after it
	GuardBound    Guard = "bound"            // a coach's or the club's cap
	GuardFixed    Guard = "fixed by hand"    // the coach's pins
	GuardWeeks    Guard = "weeks left"       // what the weeks that are left are for
)

// Breach is one rule that a split breaks.
type Breach struct {
	Guard    Guard  `json:"guard"`
	Block    int    `json:"block"` // which block of the row's split, from 0; -1 the whole
	Sentence string `json:"sentence"`
}

// whole marks a breach that no single block makes.
const whole = -1

// breaches says why the planner would not choose these steps: rules of order and
// length, the coach's pins and bounds. It is empty where some legal order has them.
func (c *comparing) breaches(p placing) (out []Breach) {
	if c.allowed(p.steps) {
		return nil
	}
	for _, name := range p.cut {
		out = append(out, Breach{GuardSpan, whole, "No block goes on through a main meet: " + name + " lies inside one."})
	}
	rows, block := c.season.rows(c.free.o), c.places(p.steps)
	for i, b := range p.steps {
		for _, x := range []*Breach{c.orderBreach(p.steps, i, rows[b.stretch]), c.lengthBreach(b, rows[b.stretch]), c.placeBreach(b)} {
			if x != nil {
				x.Block = block[i]
				out = append(out, *x)
			}
		}
	}
	out = append(out, c.endBreaches(p.steps)...)
	if len(out) == 0 {
		out = append(out, c.decisionBreach(p.steps))
	}
	return out
}

// places tells which block of the row's split each step is; one that is not listed is
// told at the block behind it.
func (c *comparing) places(steps []step) []int {
	at, n := make([]int, len(steps)), 0
	for i, b := range steps {
		at[i] = n
		if b.weeks > 0 || b.running && c.done > 0 && c.listedAtOnce() {
			n++
		}
	}
	return at
}

// sentences are those of breaches, each once.
func sentences(breaches []Breach) []string {
	var out []string
	for _, b := range breaches {
		out = append(out, b.Sentence)
	}
	return distinct(out)
}

// distinct leaves out what was said before.
func distinct(lines []string) []string {
	out := []string{}
	for _, l := range lines {
		if !slices.Contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

// allowed tells whether steps are a plan of the order prescribed or of any legal
// one, with no more rules set aside than the best plan needed.
func (c *comparing) allowed(steps []step) bool {
	return c.best.g.allows(steps) || c.free.allows(steps)
}

// rested puts a recovery of no training week into the gaps whose odd days in front
// are it, where that makes the steps legal: a coach writes no weeks for it.
func (c *comparing) rested(steps []step) []step {
	if c.allowed(steps) {
		return steps
	}
	var out []step
	for i, b := range steps {
		if i > 0 && b.stretch > steps[i-1].stretch && c.isGap(b.stretch) && b.kind != iR {
			out = append(out, step{kind: iR, at: b.at, next: b.at, stretch: b.stretch})
		}
		out = append(out, b)
	}
	if c.allowed(out) {
		return out
	}
	return steps
}
