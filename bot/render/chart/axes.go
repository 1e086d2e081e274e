package chart

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"blockbell/planner"
)

// timePlot is an empty plot over days and masses, in the card's dress.
func timePlot(from, to planner.Date, low, high float64) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.X.Min, p.X.Max = float64(from), float64(to.AddDays(1))
	p.Y.Min, p.Y.Max = low, high
	p.X.Tick.Marker = months{from, to}
	p.Y.Tick.Marker = masses{low, high}
	p.X.Tick.Label = letters(small, ink, text.XCenter, text.YTop)
	p.Y.Tick.Label = letters(small, ink, text.XRight, text.YCenter)
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Color, a.Tick.Color = faint, faint
		a.Padding = 0
	}
	return p
}

// masses are ticks at round numbers, four to seven of them.
type masses struct{ low, high float64 }

// Ticks marks multiples of 1, 2, 2.5 or 5 times a power of ten.
func (m masses) Ticks(_, _ float64) []plot.Tick {
	step := roundStep((m.high - m.low) / 5)
	var ticks []plot.Tick
	for v := math.Ceil(m.low/step) * step; v <= m.high+step/1e6; v += step {
		ticks = append(ticks, plot.Tick{Value: v, Label: strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)})
	}
	return ticks
}

// roundStep returns the round number nearest above a step.
func roundStep(step float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(step)))
	for _, n := range []float64{1, 2, 2.5, 5} {
		if n*power >= step {
			return n * power
		}
	}
	return 10 * power
}

// room widens a range of values so that nothing touches the edge, and so that a
// flat line is not blown up into a drama: at least least wide.
func room(low, high, least float64) (float64, float64) {
	if gap := least - (high - low); gap > 0 {
		low, high = low-gap/2, high+gap/2
	}
	pad := (high - low) * 0.12
	return low - pad, high + pad*1.8 // the names of the blocks stand on top
}

// lines of the grid lie above the bands and below the data.
type grid struct{ ticks plot.Ticker }

// Plot draws one thin line at each mass with a tick.
func (g grid) Plot(c draw.Canvas, p *plot.Plot) {
	_, y := p.Transforms(&c)
	for _, t := range g.ticks.Ticks(p.Y.Min, p.Y.Max) {
		at := y(t.Value)
		c.StrokeLines(draw.LineStyle{Color: rule, Width: 1}, []vg.Point{{X: c.Min.X, Y: at}, {X: c.Max.X, Y: at}})
	}
}

// into draws a plot on the part of the card below top.
func (c card) into(p *plot.Plot, top, bottom vg.Length) {
	p.Draw(draw.Crop(c.Canvas, margin, -margin, bottom, top-c.Max.Y))
}
