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

// Sheet draws a table. Columns share the width by what they hold, and the letters are
// as large as lets every cell be read whole: a sheet is read on a phone, from afar.
func Sheet(v SheetView) ([]byte, error) {
	size := v.size()
	each := vg.Length(1.7 * size)
	h := max(low, 150+each*vg.Length(len(v.Rows)+1))
	c := newCard(h)
	y := c.heading(h, v.Title, v.Under)
	columns := v.columns(size)
	c.cells(bold(letters(size-3, ink, text.XLeft, text.YCenter)), columns, v.Head, y, each)
	y -= each
	c.stroke(margin, y, width-margin, y, 2, ink)
	for i, row := range v.Rows {
		c.cells(letters(size, ink, text.XLeft, text.YCenter), columns, row, y, each)
		y -= each
		if next := i + 1; next == len(v.Rows) || len(v.Rows[next]) > 0 && v.Rows[next][0] != "" {
			c.stroke(margin, y, width-margin, y, 1, rule) // under the last row of a group
		}
	}
	c.writeWithin(letters(small, faint, text.XLeft, text.YBottom), margin, margin-6, width-2*margin, v.Foot)
	return c.png()
}

func (c card) cells(style text.Style, columns []vg.Length, row []string, top, tall vg.Length) {
	x := margin
	for i, w := range columns {
		if i < len(row) {
			c.writeWithin(style, x, top-tall/2, w-cellGap, row[i])
		}
		x += w
	}
}

// Sizes of letters in a table, and the least room between two cells.
const (
	largest, smallest = 28.0, 16.0
	cellGap           = vg.Length(12)
)

// size is the largest that fits every cell into the width; the smallest where none
// does, and the longest cells are cut.
func (v SheetView) size() float64 {
	for size := largest; size > smallest; size-- {
		var all vg.Length
		for _, w := range v.needs(size) {
			all += w
		}
		if all <= width-2*margin {
			return size
		}
	}
	return smallest
}

// needs is what the longest cell of each column takes at a size of letters.
func (v SheetView) needs(size float64) []vg.Length {
	style, head := letters(size, ink, text.XLeft, text.YCenter), bold(letters(size-3, ink, text.XLeft, text.YCenter))
	need := make([]vg.Length, len(v.Head))
	for i, name := range v.Head {
		need[i] = head.Width(name)
		for _, row := range v.Rows {
			if i < len(row) {
				need[i] = max(need[i], style.Width(row[i]))
			}
		}
		need[i] += 2 * cellGap
	}
	return need
}

// columns divides the width: each column gets what its longest cell needs, and
// all shrink or grow alike.
func (v SheetView) columns(size float64) []vg.Length {
	need := v.needs(size)
	var all vg.Length
	for _, w := range need {
		all += w
	}
	for i := range need {
		need[i] *= (width - 2*margin) / max(all, 1)
	}
	return need
}
