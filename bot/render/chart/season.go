package chart

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"blockbell/planner"
)

// Row is one line of blocks over time.
type Row struct {
	Name   string // written above it
	Blocks []planner.Block
	Meets  []Mark
	Away   []planner.Away // drawn over the blocks
}

// SeasonView is what the picture of plans is made from: one row for a plan, two
// to hold an agreed plan against a proposal, more to compare.
type SeasonView struct {
	Title, Under string
	Rows         []Row
	Today        planner.Date // marked where it lies inside; zero: not
}

// Season draws plans as bars over a common time.
func Season(v SeasonView) ([]byte, error) {
	const rowHeight = vg.Length(118)
	h := max(low, 176+rowHeight*vg.Length(len(v.Rows)))
	c := newCard(h)
	top := c.heading(h, v.Title, v.Under)
	t := v.scale()
	bottom := margin + 3*small
	c.calendar(t, top, bottom)
	for i, r := range v.Rows {
		c.row(t, r, v.Today, top-8-vg.Length(i)*rowHeight, rowHeight)
	}
	c.today(t, v.Today, top, bottom)
	c.keys(t, v)
	return c.png()
}

// keys explain the ticks and the slanted lines on the bars, where there are any.
func (c card) keys(t scale, v SeasonView) {
	taper, away := false, false
	for _, r := range v.Rows {
		for _, a := range r.Away {
			_, _, inside := t.span(a, v.Today)
			away = away || inside
		}
		for _, b := range r.Blocks {
			taper = taper || b.TaperStart > b.Start
		}
	}
	style, x := letters(small, faint, text.XLeft, text.YCenter), width-margin-170
	if taper {
		c.hatch(x, margin-6, x+30, margin+14)
		c.write(style, x+38, margin+4, "taper (easing off)")
		x -= 120
	}
	if away {
		c.slanted(x, x+30, margin-6, margin+14)
		c.write(style, x+38, margin+4, "away")
	}
}

// scale turns days into places on the card.
type scale struct {
	from, to    planner.Date
	left, right vg.Length
}

func (s scale) at(d planner.Date) vg.Length {
	span := float64(s.from.DaysUntil(s.to) + 1)
	return s.left + (s.right-s.left)*vg.Length(float64(s.from.DaysUntil(d))/span)
}

// shows tells whether a day lies inside.
func (s scale) shows(d planner.Date) bool { return !d.IsZero() && d >= s.from && d <= s.to }

func (v SeasonView) scale() scale {
	s := scale{left: margin, right: width - margin}
	widen := func(d planner.Date) {
		if s.from.IsZero() || d < s.from {
			s.from = d
		}
		s.to = max(s.to, d)
	}
	for _, r := range v.Rows {
		for _, b := range r.Blocks {
			widen(b.Start)
			widen(b.End)
		}
		for _, m := range r.Meets {
			widen(m.Day)
		}
	}
	return s
}

// calendar draws the months across all rows.
func (c card) calendar(t scale, top, bottom vg.Length) {
	style := letters(small, faint, text.XLeft, text.YTop)
	for _, m := range (months{t.from, t.to}).Ticks(0, 0) {
		x := t.at(planner.Date(math.Round(m.Value)))
		c.stroke(x, bottom, x, top, 1, rule)
		if x+style.Width(m.Label) < width-4 {
			c.write(style, x+3, bottom-3, m.Label)
		}
	}
}

// today marks the day of the picture, where it lies inside the time shown.
func (c card) today(t scale, d planner.Date, top, bottom vg.Length) {
	if !t.shows(d) {
		return
	}
	x := t.at(d)
	c.stroke(x, bottom-small, x, top, 2, alert)
	style := letters(small, alert, text.XLeft, text.YTop)
	c.write(style, min(x+5, width-margin-style.Width("today")), bottom-small-4, "today")
}

// row draws one plan below its name: the blocks, the times away, then its meets.
func (c card) row(t scale, r Row, today planner.Date, top, tall vg.Length) {
	y := top
	if r.Name != "" {
		c.writeWithin(letters(small, ink, text.XLeft, text.YTop), margin, y, width-2*margin, r.Name)
		y -= small + 8
	}
	low := y - (tall - small - 40)
	for _, b := range r.Blocks {
		c.bar(t, b, low, y)
	}
	for _, a := range r.Away {
		c.leave(t, a, today, low, y)
	}
	for _, b := range r.Blocks {
		x0, x1 := t.free(r, b, today)
		c.label(b, x0, x1, low, y)
	}
	taken, line := t.left-1, vg.Length(-1)
	if t.shows(today) {
		line = t.at(today)
	}
	for _, m := range r.Meets {
		taken = c.meet(t, m, low, y, taken, line)
	}
}

// bar draws a block.
func (c card) bar(t scale, b planner.Block, low, high vg.Length) {
	x0, x1 := t.at(b.Start), t.at(b.End.AddDays(1))
	c.box(x0, low, x1, high, fill(b.Kind))
	c.frame(x0, low, x1, high, paper)
	if b.TaperStart > b.Start {
		c.hatch(t.at(b.TaperStart), low, x1, high)
	}
}

// label writes the name and weeks of a block, as far as they fit.
func (c card) label(b planner.Block, x0, x1, low, high vg.Length) {
	name, weeks := letters(small, ink, text.XCenter, text.YCenter), fmt.Sprintf("%d wk", b.Weeks)
	mid, inside := (x0+x1)/2, x1-x0-6
	if short := names[b.Kind]; name.Width(short) <= inside {
		c.write(name, mid, (low+high)/2+small*0.6, short)
		c.write(name, mid, (low+high)/2-small*0.7, weeks)
	} else if letter := fmt.Sprint(initial(b.Kind), b.Weeks); b.Weeks > 0 && name.Width(letter) <= inside {
		c.write(name, mid, (low+high)/2, letter)
	}
}

// initial is the first letter of a block, for places too narrow for its name.
func initial(k planner.BlockKind) string { return strings.ToUpper(names[k][:1]) }

// frame leaves a gap between neighbours.
func (c card) frame(x0, y0, x1, y1 vg.Length, paint color.Color) {
	c.stroke(x0, y0, x0, y1, 2, paint)
	c.stroke(x1, y0, x1, y1, 2, paint)
}

// hatch marks the taper with upright lines, so that it is not told by colour.
func (c card) hatch(x0, y0, x1, y1 vg.Length) {
	for x := x0 + 3; x < x1-1; x += 6 {
		c.stroke(x, y0, x, y0+9, 1.2, faint)
		c.stroke(x, y1-9, x, y1, 1.2, faint)
	}
}

// meet draws a flag on its day, and its name below the row where the last name
// left room for it and the line of today does not cross it; it returns where the name
// ends. line is where that stands; below 0: nowhere.
func (c card) meet(t scale, m Mark, low, high, taken, line vg.Length) vg.Length {
	x := t.at(m.Day) + (t.at(m.Day+1)-t.at(m.Day))/2
	c.stroke(x, low-6, x, high+4, 2.5, ink)
	c.FillPolygon(ink, []vg.Point{{X: x, Y: high + 4}, {X: x - 12, Y: high - 2}, {X: x, Y: high - 8}})
	style := letters(small, ink, text.XRight, text.YTop)
	whole := drawable(m.Name)
	end := clearOf(x, style.Width(whole), line, t.right)
	name := shorten(style, end-taken-10, whole)
	if name == "" || name != whole && len([]rune(name)) < 4 { // too little left to know it by
		return taken
	}
	c.write(style, end, low-8, name)
	return max(x, end)
}

// clearOf is where a name of some width ends that would end at x, so that an upright line
// does not cross it: behind the line where there is room up to right, else before it.
func clearOf(x, wide, line, right vg.Length) vg.Length {
	const gap = 6
	switch {
	case line < 0 || line <= x-wide-gap || line >= x+gap:
		return x
	case line+gap+wide <= right:
		return max(x, line+gap+wide)
	}
	return line - gap
}
