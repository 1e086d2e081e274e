package nudge

import (
	"fmt"
	"time"

	"blockbell/bot/render"
	"blockbell/planner"
)

// Done is something that somebody did for the member.
type Done struct {
	ID   int64
	What string // a sentence
	By   string // what they are called; empty: somebody who has left
	At   time.Time
}

// Asked is a plan that waits for the member's yes as a coach.
type Asked struct {
	Plan   int64
	Lifter string // what the lifter is called
	At     time.Time
}

// nextHour is the civil day of the first post after a moment: that very day before
// the hour, else the day after.
func (s *search) nextHour(at time.Time) planner.Date {
	p := s.member.place(s.spec, planner.DateOf(at.In(s.member.Zone)))
	day := planner.DateOf(at.In(s.facts.zone(s.member, p)))
	if !s.facts.hour(s.member, p, day).After(at) {
		day = day.AddDays(1)
	}
	return day
}

// findDone: somebody did something for the member, who is told at the next hour.
func findDone(s *search) {
	for _, d := range s.member.Done {
		if day := s.nextHour(d.At); s.near(day) {
			s.add(Nudge{Day: day, Done: d}, fmt.Sprintf("n%d", d.ID), day, "done")
		}
	}
}

// askedDays are the days, from the first hour on, on which a coach is told that a
// plan waits: a proposal is good for a week, so once more before that is over.
var askedDays = []int{0, 3}

// findAsked: a lifter's plan waits for the member's yes.
func findAsked(s *search) {
	for _, a := range s.member.Asked {
		first := s.nextHour(a.At)
		for _, days := range askedDays {
			if day := first.AddDays(days); s.near(day) {
				s.add(Nudge{Day: day, Asked: a}, fmt.Sprintf("p%d", a.Plan), first, fmt.Sprintf("+%dd", days))
			}
		}
	}
}

// toldDone says what was done, and by whom.
func (n *Nudge) toldDone() []string {
	by := "somebody who has left"
	if n.Done.By != "" {
		by = called(n.Done.By)
	}
	return []string{n.Done.What + " (By " + by + ".)"}
}

// toldAsked says whose plans wait.
func toldAsked(names []string) []string {
	what := "A new plan for " + names[0] + " waits for your yes."
	if len(names) > 1 {
		what = "New plans for " + render.Some(names, mostNamed) + " wait for your yes."
	}
	return []string{what, "/club approve shows all that wait. Nothing changes before that."}
}
