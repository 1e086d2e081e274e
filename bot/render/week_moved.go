package render

import (
	"fmt"

	"blockbell/planner"
	"blockbell/planner/load"
)

// LoadMove is what one logged top set moves.
type LoadMove struct {
	Lift planner.Lift
	Up   bool
	Back bool // a step that was told before is taken back
	// First: the first log of the lift, which counts for more than a max that was told.
	First bool
	Top   load.Work       // as it was asked for
	To    load.Adjustment // what the same work becomes the next time
	// Day is the next session of the week whose load changes, with the work before
	// and after; zero where the week has none.
	Day     planner.Date
	Was, Is load.Work
}

// LoadMoved says in one line what moves, to what, and why.
func (v WeekView) LoadMoved(m LoadMove) string {
	if m.Back && m.Day.IsZero() {
		return fmt.Sprintf("%s: loads stay as planned after all, next week too.", title(string(m.Lift)))
	}
	if m.Back {
		return fmt.Sprintf("%s: loads stay as planned after all. %s is %s %s again.", title(string(m.Lift)), m.Day.Short(), m.Is.Name, v.Weight(m.Is.Weight))
	}
	how, where := "harder", "down"
	if m.Up {
		how, where = "easier", "up"
	}
	if m.First && m.Was.Weight == 0 {
		return fmt.Sprintf("That is the first I know of %s %s, so %s is %s %s.", map[bool]string{true: "your", false: "the"}[v.Who == ""], m.Lift, m.Day.Short(), m.Is.Name, v.Weight(m.Is.Weight))
	}
	if m.First {
		whose, told := "Your", "the max you told"
		if v.Who != "" { // somebody else logged it, and both read this
			whose, told = "The", "the max that was told"
		}
		return fmt.Sprintf("%s first logged %s counts for more than %s, so %s goes %s: %s %s instead of %s.", whose, m.Lift, told, m.Day.Short(), where, m.Is.Name, v.Weight(m.Is.Weight), v.Weight(m.Was.Weight))
	}
	lead := fmt.Sprintf("%s was %s than planned, so ", title(string(m.Lift)), how)
	if !m.Day.IsZero() {
		return lead + fmt.Sprintf("%s goes %s: %s %s instead of %s.", m.Day.Short(), where, m.Is.Name, v.Weight(m.Is.Weight), v.Weight(m.Was.Weight))
	}
	return lead + fmt.Sprintf("next week goes %s: %s x %d would now be %s x %d.", where, v.Weight(m.Top.Weight), m.Top.Reps, v.Weight(m.To.Weight), m.To.Reps)
}

// title begins with a capital letter.
func title(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
