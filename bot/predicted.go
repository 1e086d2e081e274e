package bot

import (
	"errors"
	"math"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/strength"
)

const (
	// mostDays is how many standard deviations an estimate for the day goes to each
	// side: four of five days of a normal distribution lie within 1.28.
	mostDays = 1.28
	// claimedError is the error of a maximum that was told and not seen in the log, as
	// a share of it (common practice).
	claimedError = 0.05
	// totalStep is what an estimate of a total is rounded to: the step of a meet.
	totalStep = 2500
)

// forecast is what a lifter may total on the day of a meet; Low and High are 0 where
// too little is known.
type forecast struct {
	Low, High planner.Grams
	Now       planner.Grams // what the log, or the maxima told, give today, rounded too
	Claimed   bool          // a maximum was only told
	Gain      float64       // percent that the plan expects until then
}

// forecast works out a lifter's total on the day of a meet: the estimated max of each
// lift that counts, what the plan expects until then, and the error of both. It is a
// range, not a promise.
func (t *turn) forecast(c course, m planner.Meet) (forecast, error) {
	var f forecast
	var sum, variance float64
	for _, lift := range liftsOf(m.Event) {
		h, err := t.history(c, lift, "")
		if err != nil {
			return f, err
		}
		r := strength.Read(h)
		kg, sd := r.Kg, r.SD
		if lifted := lastSet(h.Sets, lift); !r.Known || !lifted {
			kg = c.lifter.Best(lift).Kg()
			sd, f.Claimed = claimedError*kg, true
		}
		if kg == 0 {
			return forecast{}, nil
		}
		sum += kg
		variance += sd * sd
	}
	f.Now = steps(sum)
	gain, spread, err := t.gainTo(c, m)
	if err != nil {
		return forecast{}, err
	}
	f.Gain = gain
	at := sum * (1 + gain/100)
	half := mostDays * math.Sqrt(variance+math.Pow(sum*spread/100, 2))
	f.Low, f.High = steps(at-half), steps(at+half)
	return f, nil
}

// lastSet tells whether a lift was ever logged.
func lastSet(sets []planner.Set, lift planner.Lift) bool {
	for _, s := range sets {
		if s.Lift == lift && !s.Pending {
			return true
		}
	}
	return false
}

// steps is a total in kg, rounded to the step of a meet.
func steps(kg float64) planner.Grams {
	return planner.Grams(totalStep * math.Round(kg*1000/totalStep))
}

// gainTo is what the plan expects from today to a meet in percent, and the error of
// that as a standard deviation; zero where there is no plan to it. A test day's gain
// leaves sharpening out, as the planner has it.
func (t *turn) gainTo(c course, m planner.Meet) (gain, spread float64, err error) {
	if m.Date <= c.today {
		return 0, 0, nil
	}
	p, err := t.build(c)
	var known *planner.Error
	if errors.As(err, &known) {
		return 0, 0, nil
	}
	if err != nil {
		return 0, 0, err
	}
	for _, g := range p.MeetGains {
		if g.Date == m.Date {
			gain = g.Percent
		}
	}
	return gain, math.Abs(gain) * relativeSpread(p), nil
}

// relativeSpread is half the range of a plan's gain beside the gain; one half where the
// plan tells none.
func relativeSpread(p blocks.Plan) float64 {
	if p.GainPercent == nil || p.GainLow == nil || p.GainHigh == nil || math.Abs(*p.GainPercent) < 0.1 {
		return 0.5
	}
	return math.Abs(*p.GainHigh-*p.GainLow) / 2 / math.Abs(*p.GainPercent)
}

// liftsOf are the lifts that count in an event.
func liftsOf(e planner.EventKind) []planner.Lift {
	switch e {
	case planner.BenchOnly:
		return []planner.Lift{planner.Bench}
	case planner.DeadliftOnly:
		return []planner.Lift{planner.Deadlift}
	case planner.PushPull:
		return []planner.Lift{planner.Bench, planner.Deadlift}
	}
	return planner.CompetitionLifts()
}

// cameOut is by how many percent the lifter's totals were above the middle of what was
// expected the day before, on average over the meets looked back on; false where there
// is none.
func (t *turn) cameOut(c course, before planner.Date) (percent float64, meets int, err error) {
	for _, m := range c.meets {
		if m.Date >= before || !m.ResultEntered || m.ResultTotal == 0 {
			continue
		}
		r, told, err := t.tx.Review(m.ID)
		if err != nil {
			return 0, 0, err
		}
		if !told || r.ExpectedHigh == 0 {
			continue
		}
		middle := float64(r.ExpectedLow+r.ExpectedHigh) / 2
		percent += 100 * (float64(m.ResultTotal)/middle - 1)
		meets++
	}
	if meets > 0 {
		percent /= float64(meets)
	}
	return percent, meets, nil
}
