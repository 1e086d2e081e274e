package sheet

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
)

// reader makes sets out of rows. Files say the same few words thousands of times,
// so what a cell means is looked up once.
type reader struct {
	d       *Draft
	o       Options
	unit    planner.Unit
	lifts   map[[2]string]named
	days    map[string]dayRead
	weights map[string]massRead
}

type dayRead struct {
	day planner.Date
	err error
}

type massRead struct {
	mass planner.Grams
	err  error
}

// badCell says in which column of a row something is wrong.
type badCell struct {
	field Field
	err   error
}

func (b *badCell) Error() string { return string(b.field) + ": " + b.err.Error() }
func (b *badCell) Unwrap() error { return b.err }

func bad(f Field, err error) error {
	if err == nil {
		return nil
	}
	return &badCell{f, err}
}

func badly(f Field, format string, args ...any) error {
	return bad(f, planner.Errorf(planner.Invalid, "", format, args...))
}

// set reads a row; known is false where its lift is none that is known.
func (r *reader) set(row Row) (s planner.Set, known bool, err error) {
	cell := func(f Field) string { return r.d.cell(row, f) }
	lift := r.lift(cell(Lift), cell(Variant))
	switch lift.lift {
	case "":
		return s, true, badly(Lift, "the lift is missing")
	case tooMany:
		return s, true, badly(Lift, "the file names more than %d lifts, and this is one of the others", MaxLifts)
	}
	s = planner.Set{Lift: lift.lift, Variant: lift.variant, Sets: 1}
	if s.Day, err = r.day(cell(Day)); err != nil {
		return s, true, bad(Day, err)
	}
	if s.Weight, err = r.weight(cell(Weight), cell(Unit), parse.OwnWeight(s.Lift)); err != nil {
		return s, true, err
	}
	if s.Reps, err = whole(Reps, cell(Reps), 0, planner.MaxReps, -1); err != nil {
		return s, true, err
	}
	if s.Sets, err = whole(Sets, cell(Sets), 1, planner.MaxSets, 1); err != nil {
		return s, true, err
	}
	if s.Reserve, err = reserve(cell(RPE), cell(RIR)); err != nil {
		return s, true, err
	}
	if s.Missed, err = yes(Missed, cell(Missed)); err != nil {
		return s, true, err
	}
	s.Missed = s.Missed || s.Reps == 0 // none was made
	s.Gear, err = gear(cell(Gear))
	return s, lift.known, err
}

// tooMany stands for a lift behind the first MaxLifts of a file; no name is like it.
const tooMany planner.Lift = "\x00"

func (r *reader) lift(name, variant string) named {
	key := [2]string{name, variant}
	n, ok := r.lifts[key]
	if !ok && len(r.lifts) >= MaxLifts {
		return named{lift: tooMany}
	}
	if !ok {
		n = liftNamed(name, variant, r.o.Standard)
		n.known = n.known || r.o.Known[n.lift]
		r.lifts[key] = n
	}
	return n
}

func (r *reader) day(cell string) (planner.Date, error) {
	d, ok := r.days[cell]
	if !ok {
		d.day, d.err = dayOf(cell, r.d.Order, r.o.Today)
		r.days[cell] = d
	}
	return d.day, d.err
}

// weight reads the load of a row: what the cell says, else the unit's column, else
// the file's unit. Lifts done with one's own weight need none.
func (r *reader) weight(cell, unit string, own bool) (planner.Grams, error) {
	in := r.unit
	if unit != "" {
		if in = parse.UnitOf(strings.Trim(unit, ". ")); in == "" {
			return 0, badly(Unit, "%q is not a unit of weight", parse.Clean(unit))
		}
	}
	key := cell + " " + string(in)
	m, ok := r.weights[key]
	if !ok {
		m.mass, m.err = loadOf(cell, in)
		r.weights[key] = m
	}
	if m.mass == 0 && m.err == nil && !own {
		return 0, badly(Weight, "the weight is missing")
	}
	return m.mass, bad(Weight, m.err)
}

// loadOf reads a weight; 0 where there is none on the bar.
func loadOf(cell string, unit planner.Unit) (planner.Grams, error) {
	switch strings.ToLower(cell) {
	case "", "bw", "bodyweight", "-":
		return 0, nil
	}
	if f, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64); err == nil && f == 0 {
		return 0, nil
	}
	return parse.Weight(cell, unit)
}

// whole reads a count, which spreadsheets may write as 5.0; missing is what an
// empty cell means, -1 that it must not be empty.
func whole(f Field, cell string, low, high, missing int) (int, error) {
	if cell == "" && missing >= 0 {
		return missing, nil
	}
	if cell == "" {
		return 0, badly(f, "the number of %s is missing", f)
	}
	v, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64)
	if err != nil || v != math.Trunc(v) {
		return 0, badly(f, "%q is not a whole number", parse.Clean(cell))
	}
	if v < float64(low) || v > float64(high) {
		return 0, badly(f, "%s lies between %d and %d, not at %s", f, low, high, parse.Clean(cell))
	}
	return int(v), nil
}

// reserve reads the repetitions left; an effort is ten minus them (Zourdos et al.
// 2016). An empty cell, a dash and an effort of 0 say nothing.
func reserve(rpe, rir string) (*float64, error) {
	if left, told, err := decimal(RIR, rir, 0, 9); err != nil || told {
		return &left, err
	}
	effort, told, err := decimal(RPE, strings.TrimPrefix(rpe, "@"), 1, 10)
	if err != nil || !told {
		return nil, err
	}
	left := 10 - effort
	return &left, nil
}

func decimal(f Field, cell string, low, high float64) (v float64, told bool, err error) {
	if cell == "" || cell == "-" || f == RPE && strings.Trim(cell, "0.,") == "" {
		return 0, false, nil
	}
	v, err = strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64)
	if err != nil || !(v >= low && v <= high) {
		return 0, false, badly(f, "%q is not a number from %g to %g", parse.Clean(cell), low, high)
	}
	return v, true, nil
}

func yes(f Field, cell string) (bool, error) {
	switch strings.ToLower(cell) {
	case "", "-":
		return false, nil
	case "x", "missed", "failed":
		return true, nil
	}
	is, err := parse.Bool(cell)
	return is, bad(f, err)
}

func gear(cell string) (planner.Equipment, error) {
	switch e := planner.Equipment(strings.ToLower(cell)); e {
	case "", planner.Raw, planner.Wraps, planner.SinglePly, planner.MultiPly:
		return e, nil
	}
	return "", badly(Gear, "%q is none of raw, wraps, single-ply, multi-ply", parse.Clean(cell))
}

// sentence is what is wrong with a cell, for people.
func sentence(err error) string {
	var e *planner.Error
	if errors.As(err, &e) {
		return e.Sentence
	}
	return err.Error()
}
