package blocks

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// yardstick turns percents into what a lifter counts in: masses of the total where
// that is known.
type yardstick struct {
	total planner.Grams // 0 unknown
	unit  planner.Unit
}

// measure returns the yardstick of a lifter at a meet: the sum of the maxima in the
// lifts that count there, if all are known.
func measure(l planner.Lifter, event planner.EventKind) yardstick {
	lifts := []planner.Lift{planner.Squat, planner.Bench, planner.Deadlift}
	switch event {
	case planner.BenchOnly:
		lifts = lifts[1:2]
	case planner.PushPull:
		lifts = lifts[1:]
	case planner.DeadliftOnly:
		lifts = lifts[2:]
	}
	y := yardstick{unit: l.Unit}
	for _, lift := range lifts {
		best := l.Best(lift)
		if best == 0 {
			return yardstick{unit: l.Unit}
		}
		y.total += best
	}
	return y
}

// mass is a share of the total in kg; nil where the total is unknown.
func (y yardstick) mass(percent float64) *float64 {
	if y.total == 0 {
		return nil
	}
	kg := percent / 100 * y.total.Kg()
	return &kg
}

// amount is the size of a share of the total in words, to one decimal.
func (y yardstick) amount(percent float64) string {
	x, unit := math.Abs(percent), "%"
	switch {
	case y.total > 0 && y.unit == planner.LB:
		x, unit = x/100*y.total.Lb(), "lb"
	case y.total > 0:
		x, unit = x/100*y.total.Kg(), "kg"
	}
	switch {
	case x < 0.05:
		return "less than 0.1 " + unit
	case x >= 10:
		return fmt.Sprintf("%.0f %s", x, unit)
	}
	return fmt.Sprintf("%.1f %s", x, unit)
}

// noDifference is how many percent a person cannot tell from none.
func (y yardstick) noDifference() float64 {
	if y.total > 0 {
		return max(samePercent, 100*sameMass/float64(y.total))
	}
	return samePercent
}

// plainDifference is the least difference at a meet that is told, in percent.
const plainDifference = 0.05

// verdict tells the difference to the best plan in one sentence.
func (c *comparing) verdict(r Row) string {
	meet := ""
	if r.Goal >= 0 {
		meet = c.nameOf(r.Gains[r.Goal].Date)
	}
	amount := c.by.amount(r.MeetPercent)
	more, less := r.Goal >= 0 && r.MeetPercent >= plainDifference, r.Goal >= 0 && r.MeetPercent <= -plainDifference
	switch {
	case r.Role == Optimum && c.runsOn:
		return "The best on paper, but it changes the block that runs."
	case r.Role == Optimum:
		return "The plan I would choose."
	case r.Role == Held:
		return "The plan I propose: the block that runs goes on as agreed."
	case len(r.Broken) > 0 && r.Same:
		return "I would not choose this: it breaks a rule, and on paper it makes no real difference."
	case len(r.Broken) > 0 && less:
		return fmt.Sprintf("I would not choose this; on paper about %s less at %s than the best plan.", amount, meet)
	case len(r.Broken) > 0 && more:
		return fmt.Sprintf("I would not choose this; on paper about %s more at %s, but only against a rule.", amount, meet)
	case len(r.Broken) > 0:
		return "I would not choose this, because it breaks a rule."
	case r.Same:
		return "No real difference; choose by the calendar."
	case less:
		return fmt.Sprintf("About %s less at %s than the best plan.", amount, meet)
	case more:
		return fmt.Sprintf("About %s more at %s, but it leaves less %s.", amount, meet, elsewhere(c.marks))
	}
	return fmt.Sprintf("In all about %s worse than the best plan.", c.by.amount(r.CostPercent))
}

// elsewhere is what a plan pays with that brings more at its last meet.
func elsewhere(marks []Mark) string {
	if len(marks) > 1 {
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

// capital makes the first letter large.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}
