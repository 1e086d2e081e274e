package strength

import "blockbell/planner"

// Usual is the weekly change of the maximum that a level may count on where no
// plan says otherwise, as a natural logarithm: 0.8, 0.2, 0.05 and 0.02 % for
// novice, intermediate, advanced and elite. Judgement, shaped after the usual
// long-run gains (Latella et al. 2020, JSCR 34:2412-2418; ACSM 2009, MSSE
// 41:687-708).
func Usual(level planner.Level) float64 { return habitsOf(level).usual }
