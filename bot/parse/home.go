package parse

import (
	"strings"
	"time"

	"blockbell/planner"
)

// A set without a lift goes on with the lift of the set before where nobody would
// doubt it: within the rest between two sets, and with a weight so close that it is the
// next one of the same row (common practice).
const (
	sameLiftWithin = 10 * time.Minute
	sameLiftShare  = 0.25
)

// askLift gives sets without a lift that of the set before, or asks once for all of
// them, with the lift of the set before as the first answer.
func (s *session) askLift() {
	if len(s.homeless) == 0 {
		return
	}
	var last planner.Set
	var ago time.Duration
	known := false
	if s.c.Last != nil {
		last, ago, known = s.c.Last()
	}
	q := Question{Line: s.homeless[0].line, Column: s.homeless[0].col, Text: s.liftText()}
	if known && ago <= sameLiftWithin && s.goesOn(last) {
		s.assume(last, q)
		return
	}
	if known {
		q.Answers = append(q.Answers, s.asLift(said(last), last.Lift, last.Variant))
	}
	for _, lift := range planner.CompetitionLifts() {
		if !known || lift != last.Lift || last.Variant != "" {
			q.Answers = append(q.Answers, s.asLift(string(lift), lift, ""))
		}
	}
	s.out.Questions = append(s.out.Questions, q)
}

// liftText asks for the lift, of which sets too where others stand beside them.
func (s *session) liftText() string {
	if len(s.out.Sets)+len(s.out.Questions) == 0 {
		return "Which lift was that?"
	}
	var sets []string
	for _, h := range s.homeless {
		for _, set := range h.sets {
			sets = append(sets, (&placer{session: s}).say(set))
		}
	}
	return "Which lift was that: " + some(sets) + "?"
}

// said is the name of a set's lift with its form.
func said(s planner.Set) string {
	if s.Variant == "" {
		return string(s.Lift)
	}
	return strings.ReplaceAll(string(s.Variant), " ", "-") + " " + string(s.Lift)
}

// goesOn tells whether all sets without a lift can only be the next ones of the last.
func (s *session) goesOn(last planner.Set) bool {
	for _, h := range s.homeless {
		for _, set := range h.sets {
			off := float64(set.Weight-last.Weight) / float64(max(last.Weight, 1))
			if !h.sure || set.Day != last.Day || off > sameLiftShare || off < -sameLiftShare {
				return false
			}
		}
	}
	return len(s.out.Questions) == 0
}

// assume gives the sets the lift of the last one, says so, and offers the other lifts.
func (s *session) assume(last planner.Set, q Question) {
	q.Text = "Kept as " + said(last) + ", like the set before"
	for _, set := range s.asLift("", last.Lift, last.Variant).Sets {
		q.Sets = append(q.Sets, len(s.out.Sets))
		s.out.Sets = append(s.out.Sets, set)
	}
	for _, lift := range planner.CompetitionLifts() {
		if lift != last.Lift {
			q.Answers = append(q.Answers, s.asLift("No, "+string(lift), lift, ""))
		}
	}
	q.Answers = append(q.Answers, Answer{Label: "No, take it out"})
	s.out.Assumed = &q
}

// asLift is the answer that gives all sets without a lift this one.
func (s *session) asLift(label string, lift planner.Lift, variant planner.Variant) Answer {
	a := Answer{Label: label}
	for _, h := range s.homeless {
		for _, set := range h.sets {
			set.Lift, set.Variant = lift, variant
			a.Sets = append(a.Sets, set)
		}
	}
	return a
}
