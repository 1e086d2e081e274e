package blocks

import (
	"fmt"

	"blockbell/planner"
)

// Limit is the longest peaking block, taper included, that a lifter should plan,
// and how that number came about. All of it is common practice: no trial was
// found that compares lengths of peaking in powerlifters.
type Limit struct {
	Weeks   int      `json:"weeks"`
	Reasons []string `json:"reasons"` // one plain clause each
}

// Bounds of every limit. Three months is the longest that common practice knows.
const (
	shortestLimit = 3
	longestLimit  = 13
	oldAge        = 60
)

// PeakingLimit returns the limit of a lifter for the next raw meet. Base: novice
// 4, intermediate 6, advanced 8, elite 10 weeks; first meet ever: 3 and nothing
// added. Then -1 for men up to 66 kg and women up to 57; +1 for men from 105 and
// women from 84; -1 from 60 years; -1 for women of other weights where the club
// keeps that habit. The result is held between 3 and 13. All common practice.
func PeakingLimit(l planner.Lifter, on planner.Date, r Rules) Limit {
	return PeakingLimitIn(l, on, r, planner.Raw)
}

// PeakingLimitIn is PeakingLimit for a meet in the given equipment: +2 in
// single-ply and multi-ply (common practice).
func PeakingLimitIn(l planner.Lifter, on planner.Date, r Rules, gear planner.Equipment) Limit {
	if !l.HasCompeted {
		return Limit{Weeks: 3, Reasons: []string{"a first meet: 3 weeks, common practice"}}
	}
	level := l.PlannedLevel()
	base := map[planner.Level]int{planner.New: 4, planner.Novice: 4, planner.Intermediate: 6, planner.Advanced: 8, planner.Elite: 10}[level]
	lim := Limit{Weeks: base, Reasons: []string{fmt.Sprintf("%s lifters: %d weeks, common practice", level, base)}}
	lim.add(lightRow(l), -1, "a light lifter")
	lim.add(heavyRow(l), 1, "a heavy lifter")
	lim.add(womenRow(l, r), -1, "the club plans shorter peaking for women")
	lim.add(planner.Age(l.Born, on) >= oldAge, -1, "60 years or older")
	lim.add(gear == planner.SinglePly || gear == planner.MultiPly, 2, "lifting in a suit or shirt")
	switch {
	case lim.Weeks < shortestLimit:
		lim.Weeks = shortestLimit
		lim.Reasons = append(lim.Reasons, "never under 3 weeks, common practice")
	case lim.Weeks > longestLimit:
		lim.Weeks = longestLimit
		lim.Reasons = append(lim.Reasons, "never above 13 weeks, common practice")
	}
	return lim
}

func (lim *Limit) add(applies bool, weeks int, why string) {
	if !applies {
		return
	}
	lim.Weeks += weeks
	unit := "week"
	if weeks > 1 {
		unit = "weeks"
	}
	lim.Reasons = append(lim.Reasons, fmt.Sprintf("%s: %+d %s, common practice", why, weeks, unit))
}

// mass is what the mass rows go by: the class where one is set, else bodyweight;
// 0 where neither is known. A class without upper limit counts as above it.
func mass(l planner.Lifter) planner.Grams {
	switch {
	case l.Class.IsZero():
		return l.Bodyweight
	case l.Class.Plus:
		return l.Class.Limit + 1
	}
	return l.Class.Limit
}

func lightRow(l planner.Lifter) bool {
	m := mass(l)
	return m > 0 && (l.Category == planner.Men && m <= 66*planner.Kilogram ||
		l.Category == planner.Women && m <= 57*planner.Kilogram)
}

func heavyRow(l planner.Lifter) bool {
	m := mass(l)
	return l.Category == planner.Men && m >= 105*planner.Kilogram ||
		l.Category == planner.Women && m >= 84*planner.Kilogram
}

// womenRow is the club's habit; it is never added to a mass row.
func womenRow(l planner.Lifter, r Rules) bool {
	return r.WomenShorter && l.Category == planner.Women && !lightRow(l) && !heavyRow(l)
}
