package chart

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"blockbell/planner"
)

// Point is what one day's best set says: a mass, and for how much it stands.
type Point struct {
	Day  planner.Date
	Mass float64 // in the lifter's unit
	// AtLeast marks a set that shows only a lower bound, drawn as an open
	// triangle; others are filled dots.
	AtLeast bool
}

// Level is the trend on one day with the bounds of its band.
type Level struct {
	Day             planner.Date
	Mass, Low, High float64
}

// LiftView is what the picture of one lift is made from.
type LiftView struct {
	Title, Under string // heading and the line below it
	From, To     planner.Date
	Points       []Point
	Trend        []Level
	Blocks       []planner.Block
	Meets        []Mark
	Least        float64 // least range of the scale, so that noise does not look like drama
}

// Lift draws the estimate of a lift over time: points, trend with band, blocks
// behind, meets as marks.
func Lift(v LiftView) ([]byte, error) {
	c := newCard(height)
	top := c.heading(height, v.Title, v.Under)
	low, high := v.span()
	p := timePlot(v.From, v.To, low, high)
	p.Add(bands{v.Blocks}, grid{p.Y.Tick.Marker}, band{v.Trend}, flags{v.Meets}, trendLine{v.Trend, nil})
	if err := addPoints(p, v.Points); err != nil {
		return nil, err
	}
	bottom := c.key(v)
	c.into(p, top, bottom)
	return c.png()
}

func (v LiftView) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range v.Points {
		low, high = min(low, p.Mass), max(high, p.Mass)
	}
	for _, l := range v.Trend {
		low, high = min(low, l.Low), max(high, l.High)
	}
	if low > high {
		low, high = 0, v.Least
	}
	return room(low, high, v.Least)
}

// key explains the shapes below the plot and returns its height.
func (c card) key(v LiftView) vg.Length {
	shapes := []shape{{"one day's best set", c.dotted}}
	for _, p := range v.Points {
		if p.AtLeast {
			shapes = append(shapes, shape{"at least this much", func(at vg.Point) { c.DrawGlyph(triangle, at) }})
			break
		}
	}
	return c.explain(append(shapes, shape{"estimated max, with its likely range", c.banded}))
}

// shape is something drawn in a plot, with what it means.
type shape struct {
	label string
	drawn func(at vg.Point)
}

// explain draws shapes side by side at the bottom and returns the height taken.
func (c card) explain(shapes []shape) vg.Length {
	x, y := margin+8, margin
	style := letters(small, faint, text.XLeft, text.YCenter)
	for _, s := range shapes {
		s.drawn(vg.Point{X: x, Y: y})
		c.write(style, x+16, y, s.label)
		x += 16 + style.Width(s.label) + 28
	}
	return margin + small
}

// dotted draws a point.
func (c card) dotted(at vg.Point) { c.DrawGlyph(dot, at) }

// banded draws a piece of a trend with its range.
func (c card) banded(at vg.Point) {
	c.box(at.X-10, at.Y-7, at.X+10, at.Y+7, cloud)
	c.stroke(at.X-10, at.Y, at.X+10, at.Y, 3, line)
}

var (
	dot      = draw.GlyphStyle{Color: ink, Radius: 4.5, Shape: draw.CircleGlyph{}}
	triangle = draw.GlyphStyle{Color: ink, Radius: 6, Shape: upward{}}
)

// upward is an open triangle with a line thick enough for a phone.
type upward struct{}

// DrawGlyph draws it.
func (upward) DrawGlyph(c *draw.Canvas, g draw.GlyphStyle, at vg.Point) {
	r := g.Radius
	c.StrokeLines(draw.LineStyle{Color: g.Color, Width: 1.6}, []vg.Point{
		{X: at.X - r, Y: at.Y - r*0.7}, {X: at.X, Y: at.Y + r}, {X: at.X + r, Y: at.Y - r*0.7}, {X: at.X - r, Y: at.Y - r*0.7},
	})
}

func addPoints(p *plot.Plot, points []Point) error {
	for _, bound := range []bool{true, false} {
		var at plotter.XYs
		for _, q := range points {
			if q.AtLeast == bound {
				at = append(at, plotter.XY{X: float64(q.Day) + 0.5, Y: q.Mass})
			}
		}
		if len(at) == 0 {
			continue
		}
		s, err := plotter.NewScatter(at)
		if err != nil {
			return err
		}
		s.GlyphStyle = dot
		if bound {
			s.GlyphStyle = triangle
		}
		p.Add(s)
	}
	return nil
}

// band is the likely range around the trend.
type band struct{ trend []Level }

// Plot fills the range.
func (b band) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	var up, down []vg.Point
	for _, l := range b.trend {
		at := x(float64(l.Day) + 0.5)
		up = append(up, vg.Point{X: at, Y: y(l.High)})
		down = append(down, vg.Point{X: at, Y: y(l.Low)})
	}
	for i := len(down) - 1; i >= 0; i-- {
		up = append(up, down[i])
	}
	if len(b.trend) > 1 {
		c.FillPolygon(cloud, c.ClipPolygonXY(up))
		edge := draw.LineStyle{Color: line, Width: 0.8}
		c.StrokeLines(edge, c.ClipLinesXY(up[:len(down)], up[len(down):])...)
	}
}

// trendLine is the trend itself.
type trendLine struct {
	trend  []Level
	dashes []vg.Length // nil: drawn through
}

// Plot draws the line.
func (t trendLine) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	var at []vg.Point
	for _, l := range t.trend {
		at = append(at, vg.Point{X: x(float64(l.Day) + 0.5), Y: y(l.Mass)})
	}
	c.StrokeLines(draw.LineStyle{Color: line, Width: 3, Dashes: t.dashes}, c.ClipLinesXY(at)...)
}
