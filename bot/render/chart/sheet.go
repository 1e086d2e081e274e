package chart

import (
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// SheetView is a table to be read in a hall without a network: who lifts what
// where, or the attempts of an evening.
type SheetView struct {
	Title, Under string
	Head         []string
	Rows         [][]string // as long as Head; shorter rows end in empty cells
	Foot         string     // a caution or a source below the table
}

// Sheet draws a table. Columns share the width by what they hold.
func Sheet(v SheetView) ([]byte, error) {
	const each = vg.Length(36)
	h := max(low, 150+each*vg.Length(len(v.Rows)+1))
	c := newCard(h)
	y := c.heading(h, v.Title, v.Under)
	columns := v.columns()
	c.cells(bold(letters(small, ink, text.XLeft, text.YCenter)), columns, v.Head, y, each)
	y -= each
	c.stroke(margin, y, width-margin, y, 2, ink)
	for _, row := range v.Rows {
		c.cells(letters(medium, ink, text.XLeft, text.YCenter), columns, row, y, each)
		y -= each
		c.stroke(margin, y, width-margin, y, 1, rule)
	}
	c.writeWithin(letters(small, faint, text.XLeft, text.YBottom), margin, margin-6, width-2*margin, v.Foot)
	return c.png()
}

func (c card) cells(style text.Style, columns []vg.Length, row []string, top, tall vg.Length) {
	x := margin
	for i, w := range columns {
		if i < len(row) {
			c.writeWithin(style, x, top-tall/2, w-12, row[i])
		}
		x += w
	}
}

// columns divides the width: each column gets what its longest cell needs, and
// all shrink alike where that is too much.
func (v SheetView) columns() []vg.Length {
	style, head := letters(medium, ink, text.XLeft, text.YCenter), bold(letters(small, ink, text.XLeft, text.YCenter))
	need := make([]vg.Length, len(v.Head))
	var all vg.Length
	for i, name := range v.Head {
		need[i] = head.Width(name)
		for _, row := range v.Rows {
			if i < len(row) {
				need[i] = max(need[i], style.Width(row[i]))
			}
		}
		need[i] += 24
		all += need[i]
	}
	for i := range need {
		need[i] *= (width - 2*margin) / max(all, 1)
	}
	return need
}
