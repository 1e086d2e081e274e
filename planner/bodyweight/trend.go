package bodyweight

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"blockbell/planner"
)

// What a trend is drawn through, and when (common practice).
const (
	window = 42 // days looked at
	fewest = 3  // weighings for a trend
	spread = 14 // days between the first and the last of them
	// daily is how much a bodyweight moves from day to day without meaning
	// anything, as a share (common practice: half to one percent).
	daily = 0.005
	// halfLife is the days after which a weighing counts half in the plain mean of few.
	halfLife = 14
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
	Weekly, WeeklySD float64 // kg a week, as of today
	Last             Weighing
	First            planner.Date // of the weighings that count
	mean             float64      // kg, of which the courses tell percents
	courses          []course
}

// Read finds the trend of the weighings of the six weeks up to today, given oldest
// first. Later ones are passed over.
func Read(all []Weighing, today planner.Date) Trend {
	var used []Weighing
	var y, w []float64
	for _, p := range all {
		if p.Day > today || p.Day.DaysUntil(today) > window {
			continue
		}
		used = append(used, p)
		y = append(y, p.Mass.Kg())
		w = append(w, math.Exp2(-float64(p.Day.DaysUntil(today))/halfLife))
	}
	if len(used) == 0 {
		return Trend{}
	}
	t := Trend{Known: true, First: used[0].Day, Last: used[len(used)-1], mean: stat.Mean(y, w)}
	t.Kg, t.SD = t.mean, daily*t.mean
	if len(used) < fewest || t.First.DaysUntil(t.Last.Day) < spread {
		return t
	}
	t.Moves, t.courses = true, coursesOf(used, t.First, t.mean)
	t.Kg, t.SD = t.level(today)
	now := t.weeks(today)
	change, sd := t.mixed(func(c *course) (float64, float64) { return c.change(now) })
	t.Weekly, t.WeeklySD = t.mean*change/100, t.mean*sd/100
	return t
}

// weeks is the time since the first weighing that counts.
func (t Trend) weeks(d planner.Date) float64 { return float64(t.First.DaysUntil(d)) / 7 }

// mixed is the mean of what all courses say, each by its share, with the standard
// deviation of their mixture.
func (t Trend) mixed(of func(*course) (mean, variance float64)) (mean, sd float64) {
	squares := 0.0
	for i := range t.courses {
		m, v := of(&t.courses[i])
		mean += t.courses[i].share * m
		squares += t.courses[i].share * (v + m*m)
	}
	return mean, math.Sqrt(max(0, squares-mean*mean))
}

// level is the level on a day, and its standard deviation, both in kg.
func (t Trend) level(d planner.Date) (kg, sd float64) {
	at := t.weeks(d)
	m, sd := t.mixed(func(c *course) (float64, float64) { return c.level(at) })
	return t.mean * (1 + m/100), t.mean * sd / 100
}

// On is the bodyweight to expect on the scales on a later day if it goes on as it has
// of late, with its standard deviation, both in kg: what the level, its change and the
// bends of the last weeks leave open, and the scatter of single days. It is meant for
// the next twelve weeks.
func (t Trend) On(d planner.Date) (kg, sd float64) {
	if !t.Moves {
		return t.Kg, math.Hypot(t.SD, daily*t.Kg)
	}
	at := t.weeks(d)
	m, sd := t.mixed(func(c *course) (float64, float64) {
		m, v := c.level(at)
		return m, v + c.scatter*c.scatter
	})
	return t.mean * (1 + m/100), t.mean * sd / 100
}

// At is the level on a day with its standard deviation, both in kg, for a picture: from
// the first weighing of the last six weeks on, and not before.
func (t Trend) At(d planner.Date) (kg, sd float64) {
	if !t.Moves || d < t.First {
		return t.Kg, t.SD
	}
	return t.level(d)
}
