package parse

import (
	"strconv"
	"strings"

	"blockbell/planner"
)

// Print writes a set as a line that Log reads back to the same set, for example
// "paused squat 140kg x 5 x 3 @8". The day and a pending state are not written;
// the unit is kg where none is given.
func Print(set planner.Set, unit planner.Unit) string {
	if unit == "" {
		unit = planner.KG
	}
	var b strings.Builder
	if set.Variant != "" {
		b.WriteString(string(set.Variant) + " ")
	}
	b.WriteString(string(set.Lift) + " ")
	own := ownLifts[set.Lift]
	switch {
	case own && set.Weight == 0:
		b.WriteString("bw")
	case own:
		b.WriteString("bw+" + set.Weight.Number(unit) + string(unit))
	default:
		b.WriteString(set.Weight.Number(unit) + string(unit))
	}
	reps := set.Reps
	if set.Missed {
		reps++ // the one that was tried last
	}
	b.WriteString(" x " + strconv.Itoa(reps))
	if set.Sets > 1 {
		b.WriteString(" x " + strconv.Itoa(set.Sets))
	}
	if set.Missed && set.Sets > 1 {
		b.WriteString(" all")
	}
	if set.Missed {
		b.WriteString(" missed")
	}
	switch set.Gear {
	case planner.Wraps:
		b.WriteString(" wraps")
	case planner.SinglePly, planner.MultiPly:
		b.WriteString(" suit")
	}
	if set.Reserve != nil {
		b.WriteString(" @" + strconv.FormatFloat(mostEffort-*set.Reserve, 'f', -1, 64))
	}
	return b.String()
}

// ownLifts are the lifts whose load is the lifter's own body.
var ownLifts = func() map[planner.Lift]bool {
	m := map[planner.Lift]bool{}
	for _, row := range englishLifts {
		if row.own {
			m[row.lift] = true
		}
	}
	return m
}()

// OwnWeight tells whether the lifter's own body is the load of a lift, so that a
// set of it needs no weight.
func OwnWeight(lift planner.Lift) bool { return ownLifts[lift] }
