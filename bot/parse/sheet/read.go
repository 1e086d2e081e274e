package sheet

import (
	"errors"
	"slices"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// Options are what the rows are read against.
type Options struct {
	Today    planner.Date // no set is later
	Unit     planner.Unit // the lifter's, where the file names none
	Standard parse.Standard
	Known    map[planner.Lift]bool // lifts beside the usual ones that the log has already
}

// Line is a set with the line of the file that it stands in.
type Line struct {
	Line int
	Set  planner.Set
}

// Problem is one thing that is wrong in a row. The row is not read.
type Problem struct {
	Line   int
	Column string // as the file calls it
	Text   string
}

// Unknown is a lift that is not known, with the number of its rows that are right
// otherwise.
type Unknown struct {
	Name string
	Rows int
}

// Result is what a file says.
type Result struct {
	Sets     []Line
	Problems []Problem
	Unknown  []Unknown // most rows first; taken where Draft.Unknown says so
	// Assumed: the file names no unit, and the lifter's was taken.
	Assumed bool
}

// Read makes sets out of the rows of a file. Draft.Order must be chosen.
func (d *Draft) Read(o Options) Result {
	r := &reader{d: d, o: o, unit: d.Unit, lifts: map[[2]string]named{}, days: map[string]dayRead{}, weights: map[string]massRead{}}
	if r.unit == "" {
		r.unit = o.Unit
	}
	res := Result{Assumed: d.Unit == "" && !slices.ContainsFunc(d.Columns, func(c Column) bool { return c.Field == Unit })}
	unknown := map[planner.Lift]int{}
	for _, row := range d.Rows {
		s, known, err := r.set(row)
		switch {
		case err != nil:
			res.Problems = append(res.Problems, d.problem(row, err))
		case known:
			res.Sets = append(res.Sets, Line{row.Line, s})
		case !nameable.MatchString(string(s.Lift)):
			res.Problems = append(res.Problems, Problem{row.Line, d.name(Lift), "\"" + string(s.Lift) + "\" cannot be the name of a lift"})
		default:
			unknown[s.Lift]++
			if d.Unknown {
				res.Sets = append(res.Sets, Line{row.Line, s})
			}
		}
	}
	for lift, n := range unknown {
		res.Unknown = append(res.Unknown, Unknown{string(lift), n})
	}
	slices.SortFunc(res.Unknown, func(a, b Unknown) int {
		if a.Rows != b.Rows {
			return b.Rows - a.Rows
		}
		if a.Name < b.Name {
			return -1
		}
		return 1
	})
	return res
}

func (d *Draft) problem(row Row, err error) Problem {
	p := Problem{Line: row.Line, Text: sentence(err)}
	var b *badCell
	if errors.As(err, &b) {
		p.Column = d.name(b.field)
	}
	return p
}
