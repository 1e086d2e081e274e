package bot

import (
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// decided is what the planner is asked for a lifter, with what people told and
// decided about the season: time away, pins, and bounds of the lifter and the club.
func (t *turn) decided(c course) (blocks.Request, error) {
	pins, err := t.tx.Pins(c.lifter.ID, c.today)
	if err != nil {
		return blocks.Request{}, err
	}
	return t.decidedWith(c, pins)
}

// decidedWith is decided with these pins in place of those that are kept.
func (t *turn) decidedWith(c course, pins []store.Pin) (blocks.Request, error) {
	r := c.request(t.rules())
	var err error
	if r.Lifter, err = t.weighed(c.lifter, c.today); err != nil {
		return r, err
	}
	r.Away = awayDays(c.aways, c.today)
	r.Pins = c.livePins(pins)
	bounds, err := t.tx.Bounds(c.lifter.ID)
	for _, b := range bounds {
		source := "the coach"
		switch b.Lifter {
		case 0:
			source = "the club"
		case b.By:
			source = "the lifter"
		}
		r.Bounds = append(r.Bounds, blocks.Bound{Kind: b.Kind, Max: b.Most, Source: source})
	}
	return r, err
}

// awayReach is how far back, in days, a time away still bears on a plan.
const awayReach = 366

// awayDays are the times away that bear on a plan made today. Somebody who is not
// back yet is planned for as if they came back tomorrow: nothing else is known.
func awayDays(all []store.Away, today planner.Date) []blocks.Away {
	var out []blocks.Away
	for _, a := range all {
		to := a.To
		if to.IsZero() {
			to = max(a.From, today)
		}
		if to >= today.AddDays(-awayReach) {
			out = append(out, blocks.Away{From: a.From, To: to})
		}
	}
	return out
}

// livePins turns pins into the planner's: the number of a block counts finished
// blocks, the planner's does not. A pin of a block that is over, or of a day that is
// past, has had its effect.
func (c course) livePins(all []store.Pin) []blocks.Pin {
	done := len(c.finished())
	var out []blocks.Pin
	for _, p := range all {
		if p.Number > 0 && p.Number <= done {
			continue
		}
		pin := blocks.Pin{Ordinal: max(0, p.Number-done), Kind: p.Kind, Start: p.Start, Weeks: p.Weeks}
		if !p.Start.IsZero() && p.Start < c.today && p.Start != c.running() {
			continue
		}
		out = append(out, pin)
	}
	return out
}

// awayNow returns the time away that a day lies in, if any.
func awayNow(all []store.Away, day planner.Date) (store.Away, bool) {
	for _, a := range all {
		if a.From <= day && (a.To.IsZero() || day <= a.To) {
			return a, true
		}
	}
	return store.Away{}, false
}

// told are the times away that a lifter told, as weeks are counted by.
func (c course) told() (all []planner.Away) {
	for _, a := range c.aways {
		all = append(all, planner.Away{From: a.From, To: a.To})
	}
	return all
}
