package strength

import (
	"math"

	"blockbell/planner"
)

// Thresholds of the sequential tests, in standard deviations. They were set by
// simulation so that at most 5 % of lifters who go on as their plan expects hear of
// a plateau in any of 12 weeks (stall_test.go prints the rates).
const (
	plateauAt = 2.45 // and more for who rises fast
	fallAt    = 3.0
	riseAt    = 2.0
	// worthwhile is the least change that is worth telling, 1.2 % (half the usual
	// variation from meet to meet, Hopkins 2005).
	worthwhile = 0.012
	// sightable is how strongly a full halt must show on average, in standard
	// deviations, before a day is looked at: weaker tests only add false alarms.
	sightable = 2.0
	// stillRises is the evidence of progress since a day, in standard deviations, with
	// which a lifter who lags behind the plan is slow and not halted.
	stillRises = 1.645
	// ownPace is how much the pace of a lifter differs from what the plan expects, as
	// a share (judgement): a slow lifter is not a halted one.
	ownPace = 0.12
	// Looked at are halts between shortest and longest weeks ago with at least
	// fewest rated days since.
	shortest, longest, fewest = 4, 32, 5
	// slowest is the expected weekly change below which no test within a block can
	// work: only block ends are compared. A regression on weekly estimates of 2.5 %
	// error needs 36 weeks for 80 % power at 0.1 % a week.
	slowest = 0.001
	// paceWeeks is over how many weeks the expected change is averaged for that:
	// long enough to hold muscle and strength blocks alike.
	paceWeeks = 26
)

// threshold is the evidence that a plateau needs, by the expected weekly change: from
// 2.45 standard deviations at 0.2 % a week to 2.9 at 0.8 %. The faster somebody is
// expected to rise, the sooner a halt shows, and the more different halts are in
// question within the same weeks. A log of up to 18 weeks holds few of them, so it
// needs no more than 2.45; from 30 weeks on the whole is asked (set by simulation, like
// the rest).
func (x Test) threshold() float64 {
	quick := min(max((x.Expected-0.2)/0.6, 0), 1)
	long := min(max((x.Weeks-18)/12, 0), 1)
	return plateauAt + 0.45*quick*long
}

// Test holds the figures behind a verdict. Statistics are in standard deviations.
type Test struct {
	Days     int     // rated days that the test used
	Weeks    float64 // from the first of them to today
	Expected float64 // percent a week expected on average over the last half year, or the log where shorter
	// Plateau is the evidence for a halt and against progress as expected,
	// strongest for a halt on Since; Missing is how much of the progress expected since then did not come,
	// in percent, and Share the part of it that was missed: 1 for a full halt.
	Plateau, Missing, Share float64
	Since                   planner.Date
	Lag                     float64 // evidence that progress is less than expected, halted or not
	Fall                    float64 // evidence that the lift falls
	FallSince               planner.Date
	Falls                   float64 // percent a week since FallSince
	Rise                    float64 // evidence that the lift rises
	Ends                    *Ends   // block end against block end; nil where there are no two
	// Next is the pair that can be compared next, where only block ends can tell: its
	// Change is 0. Nil where the agreed blocks hold none.
	Next *Ends
}

// judge runs the tests.
func judge(h *History, t *track) Test {
	plain := trialOf(h, t)
	out := Test{Days: len(plain.day)}
	if len(plain.day) < fewest+1 {
		return out
	}
	out.Weeks = weeks(plain.day[0], h.Today)
	out.Expected = 100 * h.expectedOver(max(h.Today.AddDays(-7*paceWeeks), plain.day[0]), h.Today)
	sum := h.expectedPath(plain.day[0])
	halts := h.halts(plain)
	out.fall(h, plain, sum, halts)
	aside := trialOf(h, t)
	aside.blocksAside(h)
	if out.Expected >= 100*slowest {
		out.plateau(aside, sum, halts)
	} else {
		out.Next = h.nextEnds(t, sum)
	}
	out.rise(aside, halts)
	out.Ends = endsOf(h, t, sum)
	return out
}

// halts lists the days on which a halt may have begun: weekly, from longest to
// shortest weeks ago, not before the first rated day.
func (h *History) halts(d *trial) []planner.Date {
	var days []planner.Date
	for w := longest; w >= shortest; w-- {
		day := h.Today.AddDays(-7 * w)
		since := 0
		for _, x := range d.day {
			if x > day {
				since++
			}
		}
		if since >= fewest && day >= d.day[0].AddDays(-6) {
			days = append(days, max(day, d.day[0]))
		}
	}
	return days
}

// plateau looks for the halt that explains best why the log lags behind the path.
func (out *Test) plateau(d *trial, sum rail, halts []planner.Date) {
	data := make([]float64, len(d.day))
	for i, day := range d.day {
		data[i] = d.y[i] - sum.all[sum.first.DaysUntil(day)]
	}
	white := d.innovations(data)
	pace := make([]float64, len(d.day))
	for i, day := range d.day {
		pace[i] = sum.all[sum.first.DaysUntil(day)]
	}
	d.aside(pace, ownPace)
	for _, halt := range halts {
		at := sum.all[sum.first.DaysUntil(halt)]
		due := sum.all[len(sum.all)-1] - at
		ramp := make([]float64, len(d.day))
		for i, day := range d.day {
			if day > halt {
				ramp[i] = at - sum.all[sum.first.DaysUntil(day)]
			}
		}
		size, sd := d.regression(white, d.innovations(ramp))
		z := size / sd
		out.Lag = max(out.Lag, z)
		if z > out.Plateau && 1/sd >= sightable && (1-size)/sd < stillRises {
			out.Plateau, out.Since, out.Share, out.Missing = z, halt, size, 100*size*due
		}
	}
}

// fall looks for a fall below what is excused: the falls that the plan itself
// expects, and the dip of muscle blocks. How much of the dip came is not known, so
// a fall must show both with all of it and with none.
func (out *Test) fall(h *History, d *trial, sum rail, halts []planner.Date) {
	excuse := habitsOf(h.level()).excuse
	none, all := make([]float64, len(d.day)), make([]float64, len(d.day))
	for i, day := range d.day {
		none[i] = d.y[i] - sum.down[sum.first.DaysUntil(day)]
		all[i] = none[i]
		if h.block(day) == planner.Hypertrophy {
			all[i] += excuse
		}
	}
	none, all = d.innovations(none), d.innovations(all)
	for _, halt := range halts {
		ramp := d.ramp(halt)
		size, sd := d.regression(none, ramp)
		other, _ := d.regression(all, ramp)
		size = max(size, other)
		if z := -size / sd; z > out.Fall && -size*weeks(halt, h.Today) > worthwhile {
			out.Fall, out.FallSince, out.Falls = z, halt, -100*size
		}
	}
}

// rise looks for a rise.
func (out *Test) rise(d *trial, halts []planner.Date) {
	white := d.innovations(d.y)
	for _, halt := range halts {
		size, sd := d.regression(white, d.ramp(halt))
		if !math.IsInf(sd, 1) {
			out.Rise = max(out.Rise, size/sd)
		}
	}
}

// ramp is the feature that rises by 1 a week from a day on, whitened.
func (d *trial) ramp(from planner.Date) []float64 {
	x := make([]float64, len(d.day))
	for i, day := range d.day {
		x[i] = weeks(from, day)
	}
	return d.innovations(x)
}

// TrendDays is the fewest rated days from which a trend is spoken of.
const TrendDays = fewest + 1
