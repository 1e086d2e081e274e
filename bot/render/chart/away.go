package chart

import (
	"cmp"
	"image/color"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"blockbell/planner"
)

// Colours of a time away: neutral, as it is nobody's block.
var (
	absence = color.NRGBA{R: 0xe4, G: 0xe3, B: 0xde, A: 0xff}
	slope   = color.NRGBA{R: 0xa9, G: 0xa8, B: 0xa3, A: 0xff}
)

// slopeStep is the distance of the slanted lines of a time away.
const slopeStep = vg.Length(9)

// leave draws a time away over a row: slanted lines on a neutral ground, so that it is
// not told by colour, with its name where there is room.
func (c card) leave(t scale, a planner.Away, today planner.Date, low, high vg.Length) {
	x0, x1, inside := t.span(a, today)
	if !inside {
		return
	}
	c.slanted(x0, x1, low, high)
	c.frame(x0, low, x1, high, paper)
	style := letters(small, ink, text.XCenter, text.YCenter)
	if wide := style.Width("away"); wide+10 <= x1-x0 {
		mid, y := (x0+x1)/2, (low+high)/2
		c.box(mid-wide/2-4, y-small*0.75, mid+wide/2+4, y+small*0.75, absence)
		c.write(style, mid, y, "away")
	}
}

// span is where a time away lies; false where that is outside the time shown. One that
// has no last day yet ends with today.
func (s scale) span(a planner.Away, today planner.Date) (x0, x1 vg.Length, inside bool) {
	to := a.To
	if to.IsZero() {
		to = max(a.From, today)
	}
	if to < s.from || a.From > s.to {
		return 0, 0, false
	}
	return s.at(max(a.From, s.from)), s.at(min(to, s.to).AddDays(1)), true
}

// slanted fills a place with slanted lines on a neutral ground.
func (c card) slanted(x0, x1, low, high vg.Length) {
	c.box(x0, low, x1, high, absence)
	tall := high - low
	for x := x0 - tall; x < x1; x += slopeStep {
		// From (x, low) up to (x + tall, high), cut at both sides.
		from, upTo := max(x, x0), min(x+tall, x1)
		if upTo > from {
			c.stroke(from, low+from-x, upTo, low+upTo-x, 1, slope)
		}
	}
}

// free is the widest part of a block's bar that no time away covers and no flag of a
// meet crosses: there its name can be read.
func (s scale) free(r Row, b planner.Block, today planner.Date) (x0, x1 vg.Length) {
	left, right := s.at(b.Start), s.at(b.End.AddDays(1))
	type cut struct{ from, to vg.Length }
	cuts := []cut{{right, right}}
	for _, a := range r.Away {
		if from, to, inside := s.span(a, today); inside {
			cuts = append(cuts, cut{from, to})
		}
	}
	for _, m := range r.Meets {
		cuts = append(cuts, cut{s.at(m.Day), s.at(m.Day.AddDays(1))})
	}
	slices.SortFunc(cuts, func(a, b cut) int { return cmp.Compare(a.from, b.from) })
	at := left
	for _, c := range cuts {
		if upTo := min(c.from, right); upTo-at > x1-x0 {
			x0, x1 = at, upTo
		}
		at = max(at, min(c.to, right))
	}
	return x0, x1
}
