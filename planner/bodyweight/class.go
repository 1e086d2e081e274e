package bodyweight

import (
	"blockbell/planner"
)

// Limits of a change of bodyweight, as shares.
const (
	// Gentle is the weekly loss that kept strength best: 0.7 % (Garthe et al. 2011,
	// IJSNEM 21:97).
	Gentle = 0.007
	// Fast is a weekly loss at which strength suffered: 1.0 to 1.4 % in the same
	// trial.
	Fast = 0.010
	// Acute is what is lost in the last days at most without a warning, for a
	// weigh-in two hours before; AcuteLong for one a day before (judgement from
	// Schoffstall et al. 2001, Nolan et al. 2020 and the ISSN position of 2025).
	Acute     = 0.02
	AcuteLong = 0.03
)

// Advice is what may be said about a class.
type Advice string

// From nothing to say up to what is refused.
const (
	Fits     Advice = "fits"      // at or below the limit
	Slowly   Advice = "slowly"    // reachable at a gentle rate, or within what comes off by itself
	MoveUp   Advice = "move up"   // enter, or move to, the next class
	AsWeighs Advice = "as weighs" // first meets and lifters under 18 lift in the class they weigh
)

// Room is how a bodyweight stands to a class at a meet.
type Room struct {
	Advice Advice
	Kg     float64 // to the limit; negative above it
	// Weekly is the loss a week that would reach the limit by the meet, as a share
	// of the bodyweight; 0 where none is needed or no week is left.
	Weekly float64
}

// Compare holds a level in kg against the class of a meet. A class without an upper
// limit fits always.
func Compare(kg float64, class planner.Class, m planner.Meet, l planner.Lifter, today planner.Date) Room {
	r := Room{Advice: Fits, Kg: class.Limit.Kg() - kg}
	if class.IsZero() || class.Plus || r.Kg >= 0 {
		return r
	}
	days := today.DaysUntil(m.Date)
	if days >= 7 {
		r.Weekly = -r.Kg / kg / (float64(days) / 7)
	}
	age := planner.Age(l.Born, m.Date)
	acute := Acute
	if m.WeighInHours >= 24 {
		acute = AcuteLong
	}
	switch over := -r.Kg / kg; {
	case !l.HasCompeted || age >= 0 && age < 18:
		r.Advice = AsWeighs
	case days <= 14 && over > acute, days > 14 && r.Weekly > Gentle:
		r.Advice = MoveUp
	default:
		r.Advice = Slowly
	}
	return r
}
