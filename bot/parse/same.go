package parse

import (
	"regexp"
	"strings"

	"blockbell/planner"
)

var (
	// sameForm is "squat same as last time", "same squats as last time" or the like.
	sameForm = regexp.MustCompile(`^(?:([a-z][a-z '&-]*?)[ ,:-]+)?(?:did )?(?:the )?same(?: sets| weights?| thing| session| workout| ([a-z][a-z '&-]*?))? (?:as|like) (?:the )?(?:last (?:time|session|workout)|time before|before)[.! ]*$`)
	// againForm is "x4", with an effort or without.
	againForm = regexp.MustCompile(`^x ?(\d{1,3})(?: ?(?:@ ?|rpe ?)(\d{1,2}(?:[.,]5)?))?[.! ]*$`)
	// scaleForm is a bodyweight without the word for it.
	scaleForm = regexp.MustCompile(`^(?:i am |i'm |im |at )?\d{2,3}(?:[.,]\d{1,2})? ?(?:kgs?|kilos?|lbs?|pounds) (?:this morning|on the scales?|fasted|before breakfast)[.! ]*$`)
)

// before are words in front of "same" that name no lift.
var before = setOf("the", "did", "i did", "did the", "i did the", "today", "today the", "today did the")

// shorthand reads a line that leaves out what is known, and asks about it: "same as last
// time", "x4" for itself, a number from the scales. alone: the message has no other line.
func (s *session) shorthand(text string, number int, alone bool) bool {
	if s.planning || s.whose || len(text) > 80 {
		return false
	}
	t := strings.Join(strings.Fields(string(normal([]rune(text)))), " ")
	var q Question
	switch {
	case sameForm.MatchString(t):
		m := sameForm.FindStringSubmatch(t)
		lift := s.lift
		front := m[1]
		if before[front] {
			front = ""
		}
		if name := strings.TrimSpace(front + " " + m[2]); name != "" {
			var ok bool
			if lift.lift, lift.variant, ok = LiftOf(name, s.c.Standard); !ok {
				return false
			}
			s.lift, s.hasLift = lift, true
		}
		q = s.sameAgain(lift, s.hasLift)
	case alone && againForm.MatchString(t):
		m := againForm.FindStringSubmatch(t)
		q = s.another(m[1], m[2])
	case !s.hasLift && scaleForm.MatchString(t):
		q.Text = "Is that your bodyweight? Then write it with bw in front, for example: bw 82.4" // in front of everybody it is not repeated
	default:
		return false
	}
	q.Line, q.Column = number, 1
	s.out.Questions = append(s.out.Questions, q)
	return true
}

// sameAgain offers the sets of the last day of a lift; how hard they were is not known
// of today's.
func (s *session) sameAgain(lift spoken, named bool) Question {
	if !named {
		return Question{Text: "Which lift was the same as last time? Write it with the lift, for example: squat same as last time"}
	}
	name := said(planner.Set{Lift: lift.lift, Variant: s.c.Standard.Variant(lift.variant)})
	var last []planner.Set
	if s.c.Before != nil {
		last = s.c.Before(lift.lift, s.c.Standard.Variant(lift.variant), s.day)
	}
	yes := Answer{Label: "Yes, the same"}
	var sets []string
	for _, set := range last {
		if set.Missed || set.Pending {
			continue
		}
		on := set
		on.Day, on.Seq, on.Reserve = s.day, 0, nil
		yes.Sets = append(yes.Sets, on)
		sets = append(sets, (&placer{session: s}).say(on))
	}
	if len(sets) == 0 {
		return Question{Text: "I find no earlier " + name + " of the last weeks. Write the sets, for example: " + string(lift.lift) + " 3x5 100kg"}
	}
	return Question{Text: "As on " + last[0].Day.Short() + ", " + name + ": " + strings.Join(sets, "; ") + "?", Answers: []Answer{yes, {Label: "No"}}}
}

// another asks about repetitions alone: a further set like the last of the session.
func (s *session) another(reps, effort string) Question {
	n := number(reps) // three digits by the form
	var last planner.Set
	known := false
	if s.c.Last != nil {
		last, _, known = s.c.Last()
	}
	v := decimal(effort)
	if !known || n < 1 || n > planner.MaxReps || effort != "" && (v < leastEffort || v > mostEffort) {
		return Question{Text: "Which lift and weight was that? Write for example: squat 100x5"}
	}
	set := planner.Set{Day: s.day, Lift: last.Lift, Variant: last.Variant, Weight: last.Weight, Gear: last.Gear, Reps: n, Sets: 1}
	if effort != "" {
		left := mostEffort - v
		set.Reserve = &left
	}
	return Question{Text: "Another set of " + said(set) + ", " + (&placer{session: s}).say(set) + "? To put the last one right instead, write: no, x" + reps,
		Answers: []Answer{{Label: "Yes, another set", Sets: []planner.Set{set}}, {Label: "No"}}}
}

// likeAbove asks about repetitions alone on a line, "x4": the weight of the line above.
func (p *placer) likeAbove(w *work) bool {
	n := len(p.out.Sets)
	if n == 0 || !p.r.isSign(0, times) || len(p.r.items) != 1 || w.hasSets || p.out.Sets[n-1].Lift != p.lift.lift || p.out.Sets[n-1].Weight == 0 {
		return false
	}
	w.load, w.hasLoad = amount{value: p.out.Sets[n-1].Weight.Kg(), unit: planner.KG, col: w.col}, true
	p.propose(w)
	return true
}
