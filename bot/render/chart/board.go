package chart

import (
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"blockbell/planner"
)

// Member is one lifter's row on the board.
type Member struct {
	Name   string
	Note   string // for example "strength, 12 days left"
	Flag   string // for example "past its end"; empty: nothing to see
	Blocks []planner.Block
	Meets  []Mark
}

// BoardView is what the picture of a club is made from.
type BoardView struct {
	Title, Under string
	From, To     planner.Date
	Today        planner.Date
	Members      []Member
}

// Board draws a row per lifter over a common time. Flags carry a word beside
// their sign.
func Board(v BoardView) ([]byte, error) {
	const each = vg.Length(46)
	const column = vg.Length(250)
	h := max(low, 150+each*vg.Length(len(v.Members)))
	c := newCard(h)
	top := c.heading(h, v.Title, v.Under)
	t := scale{from: v.From, to: v.To, left: margin + column, right: width - margin}
	bottom := margin + 2*small
	c.calendar(t, top, bottom)
	for i, m := range v.Members {
		y := top - 6 - vg.Length(i)*each
		if i%2 == 1 {
			c.box(margin/2, y-each, width-margin, y, stripe)
		}
		c.member(t, m, y, each, column)
	}
	c.today(t, v.Today, top, bottom)
	return c.png()
}

func (c card) member(t scale, m Member, top, tall, column vg.Length) {
	name := letters(small, ink, text.XLeft, text.YTop)
	c.writeWithin(bold(name), margin, top-4, column-10, m.Name)
	note, style := m.Note, letters(14, faint, text.XLeft, text.YTop)
	if m.Flag != "" {
		note, style.Color = "! "+m.Flag, alert
	}
	c.writeWithin(style, margin, top-6-small, column-10, note)
	for _, b := range m.Blocks {
		if b.Start > t.to || b.End < t.from {
			continue
		}
		b.Start, b.End = max(b.Start, t.from), min(b.End, t.to)
		c.thinBar(t, b, top-tall+4, top-4)
	}
	for _, k := range m.Meets {
		if k.Day >= t.from && k.Day <= t.to {
			c.pennant(t, k, top-tall+4, top-4)
		}
	}
}

// thinBar is a block in one line.
func (c card) thinBar(t scale, b planner.Block, low, high vg.Length) {
	x0, x1 := t.at(b.Start), t.at(b.End.AddDays(1))
	c.box(x0, low, x1, high, fill(b.Kind))
	c.frame(x0, low, x1, high, paper)
	style := letters(small, ink, text.XCenter, text.YCenter)
	for _, name := range []string{names[b.Kind], initial(b.Kind)} {
		if style.Width(name) <= x1-x0-6 {
			c.write(style, (x0+x1)/2, (low+high)/2, name)
			return
		}
	}
}

func (c card) pennant(t scale, m Mark, low, high vg.Length) {
	x := t.at(m.Day) + (t.at(m.Day+1)-t.at(m.Day))/2
	c.stroke(x, low, x, high, 2.5, ink)
	c.FillPolygon(ink, []vg.Point{{X: x, Y: high}, {X: x - 11, Y: high - 6}, {X: x, Y: high - 12}})
}
