package bodyweight

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"blockbell/planner"
)

// What a line is drawn through, and when (common practice).
const (
	window   = 42 // days looked at
	halfLife = 14 // days after which a weighing counts half
	fewest   = 3  // weighings for a line
	spread   = 14 // days between the first and the last of them
	// daily is how much a bodyweight moves from day to day without meaning
	// anything, as a share (common practice: half to one percent).
	daily = 0.005
)

// Weighing is what a lifter weighed on a day.
type Weighing struct {
	Day  planner.Date
	Mass planner.Grams
}

// Trend is what weighings say about today.
type Trend struct {
	Known bool    // there is a weighing in the last six weeks
	Kg    float64 // level today
	SD    float64 // its standard deviation in kg
	// Moves tells that there were enough weighings, far enough apart, for a weekly
	// change; without them the two below are 0.
	Moves            bool
	Weekly, WeeklySD float64 // kg a week
	Last             Weighing
	origin           planner.Date
	alpha, beta      float64 // kg at origin, kg a day
}

// Read draws the line through the weighings of the six weeks up to today, given
// oldest first. Later ones are passed over.
func Read(all []Weighing, today planner.Date) Trend {
	var x, y, w []float64
	var last Weighing
	var first planner.Date
	for _, p := range all {
		if p.Day > today || p.Day.DaysUntil(today) > window {
			continue
		}
		if len(x) == 0 {
			first = p.Day
		}
		last = p
		x = append(x, float64(today.DaysUntil(p.Day)))
		y = append(y, p.Mass.Kg())
		w = append(w, math.Exp2(-float64(p.Day.DaysUntil(today))/halfLife))
	}
	if len(x) == 0 {
		return Trend{}
	}
	t := Trend{Known: true, Last: last, origin: today}
	if len(x) < fewest || first.DaysUntil(last.Day) < spread {
		t.Kg = stat.Mean(y, w)
		t.alpha, t.SD = t.Kg, daily*t.Kg
		return t
	}
	t.alpha, t.beta = stat.LinearRegression(x, y, w, false)
	t.Kg, t.Weekly, t.Moves = t.alpha, 7*t.beta, true
	t.errors(x, y, w)
	return t
}

// errors works out how far level and change can be trusted: the usual errors of a
// weighted line, with the scatter of the weighings and never less than daily.
func (t *Trend) errors(x, y, w []float64) {
	var sum, sumX, sumXX, left float64
	for i := range x {
		sum += w[i]
		sumX += w[i] * x[i]
		sumXX += w[i] * x[i] * x[i]
		r := y[i] - t.alpha - t.beta*x[i]
		left += w[i] * r * r
	}
	n := float64(len(x))
	scatter := math.Max(left/sum*n/(n-2), math.Pow(daily*t.Kg, 2))
	det := sum*sumXX - sumX*sumX
	// With weights that say how much a weighing counts, not how exact it is, the
	// plain error of the line would be too small; the sum of squares corrects it.
	var ww float64
	for i := range w {
		ww += w[i] * w[i]
	}
	shrink := ww / sum
	t.SD = math.Sqrt(scatter * shrink * sumXX / det)
	t.WeeklySD = 7 * math.Sqrt(scatter*shrink*sum/det)
}

// On is the bodyweight to expect on a later day if nothing changes, with its
// standard deviation, both in kg. It is meant for the next twelve weeks.
func (t Trend) On(d planner.Date) (kg, sd float64) {
	weeks := float64(t.origin.DaysUntil(d)) / 7
	return t.Kg + t.Weekly*weeks, math.Hypot(math.Hypot(t.SD, daily*t.Kg), t.WeeklySD*weeks)
}

// At is the line on an earlier day, in kg, for a picture.
func (t Trend) At(d planner.Date) float64 { return t.alpha + t.beta*float64(t.origin.DaysUntil(d)) }
