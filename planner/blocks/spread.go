package blocks

import (
	"math"
	"slices"

	"blockbell/planner"
)

// Interval is what draws of uncertain numbers lead to: the median, and the ends
// between which 8 of 10 draws lie.
type Interval struct {
	Low    float64 `json:"low"`
	Median float64 `json:"median"`
	High   float64 `json:"high"`
}

// meetStep is the step of a result on a meet's bar.
const meetStep = 2500

// Mass returns the ends of an interval of percents as masses of a total, each
// rounded to 2.5 kg; half a step rounds away from zero.
func (i Interval) Mass(total planner.Grams) (low, high planner.Grams) {
	step := func(percent float64) planner.Grams {
		return planner.Grams(meetStep * math.Round(float64(total)*percent/100/meetStep))
	}
	return step(i.Low), step(i.High)
}

// Gain is what a plan should bring from today to a meet, in percent and unrounded:
// 100 (exp((s + e) at the meet - (s + e) today) - 1). Sharpening and strength add up
// to the whole for the model as it stands; their intervals do not add up. At a test
// day it is that of strength alone.
type Gain struct {
	Date       planner.Date `json:"date"` // of the meet
	Percent    float64      `json:"percent"`
	Sharpening float64      `json:"sharpening_percent"` // from rest and practised singles
	Strength   float64      `json:"strength_percent"`   // new strength
	Whole      Interval     `json:"whole"`
	Sharper    Interval     `json:"sharper"`
	Stronger   Interval     `json:"stronger"`
	// Regained is how much of Percent only makes up for what past times away took, and
	// Beyond the rest of the whole, draw by draw.
	Regained float64  `json:"regained_percent"`
	Beyond   Interval `json:"beyond"`
}

// playing is a plan made ready to be played through under many models: its weeks in
// order, and how many of them lie before each mark.
type playing struct {
	weeks  []weekOf
	before []int
	paid   float64 // which no draw changes
}

// weekOf is which week, from 0, of a block of which kind.
type weekOf struct{ kind, week int }

func (s *season) playing(blocks []planner.Block) playing {
	var p playing
	days := s.model.schedule(blocks)
	for _, d := range days {
		p.weeks = append(p.weeks, weekOf{index(d.kind), d.week})
	}
	for _, m := range s.marks {
		n := len(days)
		for i, w := range days {
			if w.start >= m.Date {
				n = i
				break
			}
		}
		p.before = append(p.before, n)
	}
	p.paid = s.model.Objective(blocks, s.marks).paid()
	return p
}

// paid is what a plan pays for unusual lengths and the like, whatever the lifter is.
func (sc Score) paid() float64 { return sc.Value + sc.Muscle - sc.Total }

// play returns the state at each mark and, last, at the end.
func (p playing) play(m *draw) []State {
	at := make([]State, 0, len(p.before)+1)
	x := m.Start.State
	for i, w := range p.weeks {
		for len(at) < len(p.before) && p.before[len(at)] <= i {
			at = append(at, x)
		}
		x = m.week(x, w.kind, w.week)
	}
	for len(at) <= len(p.before) {
		at = append(at, x)
	}
	return at
}

// outcome is one plan under one model.
type outcome struct {
	objective float64
	gains     [][4]float64 // whole, sharpening, strength and what is regained at each mark
}

func (s *season) outcome(p playing, m *draw) outcome {
	at := p.play(m)
	o := outcome{objective: m.Lambda*at[len(s.marks)].M - p.paid, gains: make([][4]float64, len(s.marks))}
	for i, mk := range s.marks {
		o.objective += mk.Strength*at[i].S + mk.Expression*at[i].E
		x := m.told(mk.Kind, at[i])
		whole, sharp, strength := m.gain(x)
		o.gains[i] = [4]float64{whole, sharp, strength, m.regained(x)}
	}
	return o
}

// models returns n models drawn around the season's own, each with the state on the
// day of the plan that the lifter's past leads to under it.
func (s *season) models(n int, ranges []Range) []draw {
	past := s.remember()
	out := make([]draw, n)
	for i, z := range draws(n) {
		m, dull := s.model.drawn(ranges, z)
		d := m.tabled()
		x, lost := d.relive(State{E: m.unknownE() * dull}, past, d.week)
		d.Start.Lost = lost
		d.Start.State = x.fromToday()
		out[i] = d
	}
	return out
}

// sampled is one plan under every drawn model.
type sampled []outcome

func (s *season) sample(p playing, models []draw) sampled {
	out := make(sampled, len(models))
	for i := range models {
		out[i] = s.outcome(p, &models[i])
	}
	return out
}

// gain sums up the draws at mark i beside the outcome of the model itself.
func (o sampled) gain(own outcome, mk Mark, i int) Gain {
	of := func(part func([4]float64) float64) Interval {
		list := make([]float64, len(o))
		for j := range o {
			list[j] = part(o[j].gains[i])
		}
		return intervalOf(list)
	}
	part := func(k int) Interval { return of(func(g [4]float64) float64 { return g[k] }) }
	beyond := of(func(g [4]float64) float64 { return g[0] - g[3] })
	g := own.gains[i]
	return Gain{Date: mk.Date, Percent: g[0], Sharpening: g[1], Strength: g[2], Whole: part(0), Sharper: part(1), Stronger: part(2), Regained: g[3], Beyond: beyond}
}

// gainEnds returns what 8 of 10 draws of the gain at mark goal lie between, and the same
// of what lies beyond making up for times away.
func (s *season) gainEnds(blocks []planner.Block, goal int) (whole, beyond Interval) {
	p, models := s.playing(blocks), s.models(sampleSize, Ranges())
	all, more := make([]float64, len(models)), make([]float64, len(models))
	for i := range models {
		m := &models[i]
		x := m.told(s.marks[goal].Kind, p.play(m)[goal])
		all[i], _, _ = m.gain(x)
		more[i] = all[i] - m.regained(x)
	}
	return intervalOf(all), intervalOf(more)
}

// beats returns the share of draws in which o has the higher objective than other;
// equal ones count half.
func (o sampled) beats(other sampled) float64 {
	sum := 0.0
	for i := range o {
		switch d := o[i].objective - other[i].objective; {
		case d > tie:
			sum++
		case d >= -tie:
			sum += 0.5
		}
	}
	return sum / float64(len(o))
}

// intervalOf sorts a list and takes its 10th, 50th and 90th percent points, between
// neighbours linearly.
func intervalOf(list []float64) Interval {
	slices.Sort(list)
	at := func(q float64) float64 {
		x := q * float64(len(list)-1)
		i := min(int(x), len(list)-2)
		return list[i] + (x-float64(i))*(list[i+1]-list[i])
	}
	return Interval{at(0.1), at(0.5), at(0.9)}
}
