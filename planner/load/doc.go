// Package load turns a block into sessions: what a lifter lifts this week.
//
// Week takes a Request (lifter, calendar, estimates, gym) and returns the Plan
// of the training week that holds Request.Today. It is pure: the same request
// gives the same plan, and every date is an argument.
//
// # How a week comes about
//
//  1. The calendar says which week of which block it is, and whether it is a
//     deload, lies near a meet or after a layoff (stage.go, deload.go).
//  2. Each lift gets its hard sets from the table in numbers.go, rising through
//     the block and falling through peaking (volume.go).
//  3. The sets are laid over the training days (layout.go), with heavy squats and
//     heavy deadlifts apart; in the last two weeks before a meet by the days that
//     are left (taper.go).
//  4. Each slot gets repetitions and a reserve (dose.go). The percent follows from
//     the two by the relation of package strength and from nothing else; the load
//     follows from the estimate and from what the plates can make (plates.go).
//  5. Accessories fill each muscle up to its range (accessory.go), and what does
//     not fit into a session is left out and said (trim.go).
//
// Numbers without a source beside them are common practice.
//
// # Around a session
//
// WarmUp and Plates prepare it, Shorten and Swaps change it, Plan.Left and
// Plan.Exchange move it, Day.Prescribed logs it as planned, and Adjust says what a
// logged set means for the next time.
//
// # What was done
//
// Volume, Jumps, Fit, Upkeep, Adherence and Overload judge logged sets against the
// same numbers.
package load
