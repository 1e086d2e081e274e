package chart

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"blockbell/planner"
)

// Mark is a day with a name: a meet.
type Mark struct {
	Day  planner.Date
	Name string
}

// bands paints blocks behind the data, each with its name.
type bands struct{ blocks []planner.Block }

// Plot paints what of the blocks lies inside the axes.
func (b bands) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	style := letters(small, faint, text.XCenter, text.YTop)
	for _, block := range b.blocks {
		from := max(x(float64(block.Start)), c.Min.X)
		to := min(x(float64(block.End.AddDays(1))), c.Max.X)
		if to <= from {
			continue
		}
		c.FillPolygon(fill(block.Kind), []vg.Point{{X: from, Y: c.Min.Y}, {X: to, Y: c.Min.Y}, {X: to, Y: c.Max.Y}, {X: from, Y: c.Max.Y}})
		if name := shorten(style, to-from-4, names[block.Kind]); len([]rune(name)) > 3 {
			c.FillText(style, vg.Point{X: (from + to) / 2, Y: c.Max.Y - 6}, name)
		}
	}
}

// flags stand on the days of meets: a dashed line with a name along it.
type flags struct{ marks []Mark }

// Plot draws what of the marks lies inside the axes.
func (f flags) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	style := letters(small, ink, text.XLeft, text.YBottom)
	style.Rotation = math.Pi / 2 // upwards along the line
	for _, m := range f.marks {
		at := x(float64(m.Day))
		if at < c.Min.X || at > c.Max.X {
			continue
		}
		c.StrokeLines(draw.LineStyle{Color: ink, Width: 1.5, Dashes: []vg.Length{6, 4}}, []vg.Point{{X: at, Y: c.Min.Y}, {X: at, Y: c.Max.Y}})
		name := shorten(style, (c.Max.Y-c.Min.Y)*0.6, drawable(m.Name))
		flat := style
		flat.Rotation = 0
		end := c.Min.Y + 12 + flat.Width(name)
		c.FillPolygon(paper, []vg.Point{{X: at - small - 8, Y: c.Min.Y + 6}, {X: at - 3, Y: c.Min.Y + 6}, {X: at - 3, Y: end + 4}, {X: at - small - 8, Y: end + 4}})
		c.FillText(style, vg.Point{X: at - 7, Y: c.Min.Y + 10}, name)
	}
}
