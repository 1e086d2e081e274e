package blocks

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// amount is a share of the total in words: a mass where the lifter's total is known,
// else percent; to one decimal, 0.1 at least.
func (s *season) amount(percent float64) string {
	total := s.total()
	x, unit := math.Abs(percent), "%"
	if total > 0 {
		x, unit = math.Abs(percent)/100*total.Kg(), "kg"
		if s.Lifter.Unit == planner.LB {
			x, unit = math.Abs(percent)/100*total.Lb(), "lb"
		}
	}
	if x < 0.05 {
		return "less than 0.1 " + unit
	}
	if x >= 10 {
		return fmt.Sprintf("%.0f %s", x, unit)
	}
	return fmt.Sprintf("%.1f %s", x, unit)
}

// verdict tells the difference to the best plan in one sentence.
func (c *comparing) verdict(r Row) string {
	meet := ""
	if r.Goal >= 0 {
		meet = c.nameOf(r.Gains[r.Goal].Date)
	}
	more, less := r.Goal >= 0 && r.MeetPercent >= plainDifference, r.Goal >= 0 && r.MeetPercent <= -plainDifference
	switch {
	case r.Role == Optimum:
		return "The plan I would choose."
	case len(r.Broken) > 0 && less:
		return fmt.Sprintf("I would not choose this; on paper about %s less at %s than the best plan.", c.amount(r.MeetPercent), meet)
	case len(r.Broken) > 0 && more:
		return fmt.Sprintf("I would not choose this; on paper about %s more at %s, but only against a rule.", c.amount(r.MeetPercent), meet)
	case len(r.Broken) > 0:
		return "I would not choose this, because it breaks a rule."
	case r.Same:
		return "No real difference; choose by the calendar."
	case less:
		return fmt.Sprintf("About %s less at %s than the best plan.", c.amount(r.MeetPercent), meet)
	case more:
		return fmt.Sprintf("About %s more at %s, but it leaves less %s.", c.amount(r.MeetPercent), meet, c.elsewhere())
	}
	return fmt.Sprintf("In all about %s worse than the best plan.", c.amount(r.CostPercent))
}

// plainDifference is the least difference at a meet that is told, in percent.
const plainDifference = 0.05

// elsewhere is what a plan pays with that brings more at its last meet.
func (s *season) elsewhere() string {
	if len(s.marks) > 1 {
		return "for the other meets and for later"
	}
	return "muscle for the next cycle"
}

// nameOf is the meet or test on a day in words.
func (s *season) nameOf(day planner.Date) string {
	switch name := s.days[day].Name; {
	case name != "":
		return name
	case s.rolling() && !s.testClosed():
		return "the test of strength"
	}
	return "the meet on " + day.Short()
}
