package load

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// Table is a club's own week for one kind of block, in place of the bot's. As text
// it reads
//
//	# lines that begin with a number sign are remarks
//	block strength
//	weeks 1-3
//	day 1
//	squat: 1 x 5, 3 left, top
//	squat: 3 x 5 at 75 %
//	close-grip bench: 4 x 6, 2.5 left
//	row: 4 x 10
//
// A block line begins it. A weeks line (one week, a range, or a number and "on")
// says for which weeks the days below it are; weeks that none names are the
// bot's. Days count training days of the lifter. A line of work names a movement,
// sets x repetitions, and for the three lifts and their variants either a percent
// of the max or repetitions left; a role may follow. Case and blanks do not matter.
type Table struct {
	Block planner.BlockKind
	Weeks []TableWeek
}

// TableWeek is the days for the weeks From to To of a block; To 0: to its end.
type TableWeek struct {
	From, To int
	Days     [][]TableLine
}

// TableLine is one line of work. Of Percent and Reserve one is set, for the three
// lifts and their variants only; Reserve is -1 where it is not.
type TableLine struct {
	Movement Movement
	Sets     int
	Reps     int
	Percent  float64
	Reserve  float64
	Role     Role
}

// String writes the table in its text form; ParseTable reads it back the same.
func (t Table) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "block %s\n", t.Block)
	for _, w := range t.Weeks {
		switch {
		case w.To == 0:
			fmt.Fprintf(&b, "weeks %d on\n", w.From)
		case w.To == w.From:
			fmt.Fprintf(&b, "weeks %d\n", w.From)
		default:
			fmt.Fprintf(&b, "weeks %d-%d\n", w.From, w.To)
		}
		for i, day := range w.Days {
			fmt.Fprintf(&b, "day %d\n", i+1)
			for _, l := range day {
				b.WriteString(l.String() + "\n")
			}
		}
	}
	return b.String()
}

// String writes one line of work.
func (l TableLine) String() string {
	s := fmt.Sprintf("%s: %d x %d", l.Movement.Name(), l.Sets, l.Reps)
	switch {
	case l.Percent > 0:
		s += " at " + number(l.Percent) + " %"
	case l.Reserve >= 0:
		s += ", " + number(l.Reserve) + " left"
	}
	if l.Role != "" {
		s += ", " + string(l.Role)
	}
	return s
}

func number(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// week returns the days for a week of a block, nil where the table has none.
func (t *Table) week(st stage) [][]TableLine {
	if t.Block != st.kind {
		return nil
	}
	for _, w := range t.Weeks {
		if st.week >= w.From && (w.To == 0 || st.week <= w.To) {
			return w.Days
		}
	}
	return nil
}

func (t *Table) has(st stage) bool { return len(t.week(st)) > 0 }

// fromTable lays the club's week over the lifter's training days. Ceilings of age,
// first meet, version and return hold, and so do shares of a return.
func (j *job) fromTable() []Day {
	week := j.Table.week(j.stage)
	var days []Day
	for _, t := range j.dates(j.start, j.end) {
		if t.at >= len(week) {
			continue
		}
		day := Day{Date: t.date}
		for _, l := range week[t.at] {
			day.Work = append(day.Work, j.tableWork(l))
		}
		days = append(days, day)
	}
	if extra := len(week) - len(j.days); extra > 0 {
		j.leftOut = append(j.leftOut, fmt.Sprintf("The club's week has %d days, you train on %d: the last %s left out.", len(week), len(j.days), are(extra)))
	}
	if !j.meet.IsZero() {
		days = slices.DeleteFunc(days, func(d Day) bool { return j.out(d.Date) < lastSessionMin })
	}
	return days
}

func are(n int) string {
	if n == 1 {
		return "one is"
	}
	return fmt.Sprintf("%d are", n)
}

// tableWork is the work of a line of the club's week.
func (j *job) tableWork(l TableLine) Work {
	share, _ := j.liftBack(l.Movement.Lift)
	n := max(1, int(math.Round(share*float64(l.Sets))))
	if !l.Movement.Lift.Competition() {
		w := j.accessory(l.Movement.Lift, n)
		w.Reps, w.Why = l.Reps, "From the club's own week. "+w.Why
		return w
	}
	if j.finding(j.stage, l.Movement.Lift) {
		return j.findWork(l.Movement.Lift, n)
	}
	d := dose{l.Reps, max(0, l.Reserve)}
	if l.Percent > 0 {
		d.reserve = strength.Reps(j.eq(), l.Percent) - float64(l.Reps)
	}
	asked := j.percent(d)
	d.reserve = max(1, d.reserve) // nothing above effort 9
	top, _ := j.ceiling(l.Movement.Lift)
	d = j.under(d, top)
	role := l.Role
	if role == "" {
		role = WorkSets
	}
	w := j.work(l.Movement, role, n, d)
	w.Why = "From the club's own week."
	if asked > w.Percent+0.05 {
		w.Why += fmt.Sprintf(" It asks for %.0f %%, which is more than you are given now.", asked)
	}
	return w
}
