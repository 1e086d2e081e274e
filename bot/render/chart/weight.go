package chart

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"blockbell/planner"
)

// WeightView is what the picture of a bodyweight is made from. Limit is the top
// of the class in the lifter's unit, 0 for none.
type WeightView struct {
	Title, Under string
	From, To     planner.Date
	Points       []Point
	Trend        []Level
	Ahead        []Level // where it goes if it goes on like this, from the last of Trend on
	Limit        float64
	LimitName    string
	Meets        []Mark
}

// Weight draws bodyweight over time against the class.
func Weight(v WeightView) ([]byte, error) {
	c := newCard(height)
	top := c.heading(height, v.Title, v.Under)
	low, high := LiftView{Points: v.Points, Trend: slices.Concat(v.Trend, v.Ahead), Least: 4}.reach(v.Limit)
	p := timePlot(v.From, v.To, low, high)
	p.Add(grid{p.Y.Tick.Marker}, band{v.Trend}, band{v.Ahead}, limitLine{v.Limit, v.LimitName}, flags{v.Meets}, trendLine{v.Trend, nil}, trendLine{v.Ahead, dashes})
	if err := addPoints(p, v.Points); err != nil {
		return nil, err
	}
	c.into(p, top, c.weightKey(v))
	return c.png()
}

// dashes are those of a line into the future.
var dashes = []vg.Length{8, 6}

// weightKey explains the shapes below the plot and returns its height.
func (c card) weightKey(v WeightView) vg.Length {
	shapes := []shape{{"weighed", c.dotted}}
	if len(v.Trend) > 1 {
		shapes = append(shapes, shape{"the trend, with its likely range", c.banded})
	}
	if len(v.Ahead) > 1 {
		shapes = append(shapes, shape{"if it goes on like this", func(at vg.Point) {
			c.box(at.X-10, at.Y-7, at.X+10, at.Y+7, cloud)
			c.stroke(at.X-10, at.Y, at.X-3, at.Y, 3, line)
			c.stroke(at.X+3, at.Y, at.X+10, at.Y, 3, line)
		}})
	}
	return c.explain(shapes)
}

// reach is the span of a view with one value more in it, unless that is zero.
func (v LiftView) reach(limit float64) (low, high float64) {
	if limit > 0 {
		v.Points = append([]Point{{Mass: limit}}, v.Points...)
	}
	low, high = v.span()
	return math.Max(low, 0), high
}

// limitLine is the top of a class.
type limitLine struct {
	mass float64
	name string
}

// Plot draws it across the whole time, with its name on it.
func (l limitLine) Plot(c draw.Canvas, p *plot.Plot) {
	if l.mass <= 0 {
		return
	}
	_, y := p.Transforms(&c)
	at := y(l.mass)
	c.StrokeLines(draw.LineStyle{Color: alert, Width: 2, Dashes: []vg.Length{10, 5}}, []vg.Point{{X: c.Min.X, Y: at}, {X: c.Max.X, Y: at}})
	c.FillText(letters(small, alert, text.XLeft, text.YBottom), vg.Point{X: c.Min.X + 8, Y: at + 4}, drawable(l.name))
}
