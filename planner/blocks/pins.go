package blocks

import (
	"fmt"

	"blockbell/planner"
)

// Lengths a coach may pin, in weeks: what the planner would not choose itself.
var pinned = [4][2]int{iH: {3, 26}, iS: {3, 26}, iP: {3, 13}, iR: {1, 4}}

// maxPins is how many decisions one plan can keep.
const maxPins = 16

// pin is a Pin read against the calendar.
type pin struct {
	ordinal int
	kind    int // -1 any
	start   int // training week; -1 any; runningStart for the running block
	weeks   int
	text    string
}

const runningStart = -2

// readPins checks the coach's pins and places them in the calendar.
func (s *season) readPins() error {
	if len(s.Pins) > maxPins {
		return planner.Errorf(planner.Invalid, "Remove some pins.", "%d pins: at most %d are possible", len(s.Pins), maxPins)
	}
	s.pins = s.pins[:0]
	for _, p := range s.Pins {
		q, err := s.readPin(p)
		if err != nil {
			return err
		}
		s.pins = append(s.pins, q)
	}
	return nil
}

func (s *season) readPin(p Pin) (pin, error) {
	q := pin{ordinal: p.Ordinal, kind: -1, start: -1, weeks: p.Weeks, text: pinText(p)}
	if p.Kind != "" {
		if q.kind = index(p.Kind); q.kind == iLayoff {
			return q, planner.Errorf(planner.Invalid, "Blocks are hypertrophy, strength, peaking and recovery.", "%q is not a kind of block", p.Kind)
		}
	}
	switch {
	case p == Pin{}:
		return q, planner.Errorf(planner.Invalid, "Say which block, from when, or how long.", "a pin fixes nothing")
	case p.Ordinal < 0 || p.Ordinal > maxWeeks || p.Weeks < 0:
		return q, planner.Errorf(planner.Invalid, "Blocks are numbered from 1; weeks are 1 to 26.", "the pin %s has a negative or too large number", q.text)
	case p.Weeks > 0 && q.kind >= 0 && (p.Weeks < pinned[q.kind][0] && !s.shortAllowed(q.kind) || p.Weeks > pinned[q.kind][1]):
		lo, hi := pinned[q.kind][0], pinned[q.kind][1]
		return q, planner.Errorf(planner.Impossible, fmt.Sprintf("Pin %d to %d weeks.", lo, hi),
			"the pin %s: a %s block lasts %d to %d weeks", q.text, p.Kind, lo, hi)
	}
	if p.Start.IsZero() {
		return q, nil
	}
	return s.placePin(q, p)
}

// shortAllowed tells whether blocks of the kind may be shorter than pins
// otherwise allow: peaking where little time is left, and blocks that run.
func (s *season) shortAllowed(kind int) bool {
	return kind == iP || s.Running != nil && index(s.Running.Kind) == kind
}

// placePin finds the training week a pinned start falls in.
func (s *season) placePin(q pin, p Pin) (pin, error) {
	switch {
	case s.Running != nil && p.Start == s.Running.Start:
		q.start = runningStart
		return q, nil
	case p.Start < s.Today:
		return q, planner.Errorf(planner.Impossible, "Pin a start from "+s.Today.Long()+" on.", "the pin %s lies in the past", q.text)
	case p.Start > s.end():
		return q, planner.Errorf(planner.Impossible, "The last day of this plan is "+s.end().Long()+".", "the pin %s lies after the last meet of the plan", q.text)
	}
	q.start = max(0, s.weeksBefore(p.Start.AddDays(1))-1)
	st, inside := s.stretchAt(p.Start)
	switch {
	case inside && st.hi > st.lo:
		q.start = max(q.start, st.lo)
	case !inside && s.days[p.Start].Date.IsZero(): // away: the block after it
		q.start = s.weeksBefore(p.Start)
	}
	return q, nil
}

func pinText(p Pin) string {
	t := "\""
	if p.Ordinal > 0 {
		t += fmt.Sprintf("block %d ", p.Ordinal)
	}
	if p.Kind != "" {
		t += string(p.Kind) + " "
	}
	if !p.Start.IsZero() {
		t += "from " + p.Start.Long() + " "
	}
	if p.Weeks > 0 {
		t += plural(p.Weeks) + " "
	}
	if t == "\"" {
		return "\"\""
	}
	return t[:len(t)-1] + "\""
}

// fits tells whether a block meets what the pin says about it; at is its first
// training week, or runningStart.
func (p pin) fits(kind, at, weeks int) bool {
	return (p.kind < 0 || p.kind == kind) && (p.start == -1 || p.start == at) && (p.weeks == 0 || p.weeks == weeks)
}
