package bot

import (
	"slices"

	"blockbell/planner"
	"blockbell/planner/load"
)

// weekEdit is something a lifter changed in one training week. What no longer fits
// when the week is made again is passed over.
type weekEdit struct {
	Move  *moveEdit  `json:"move,omitempty"`
	Short *shortEdit `json:"short,omitempty"`
	Swap  *swapEdit  `json:"swap,omitempty"`
	Fit   *fitEdit   `json:"fit,omitempty"`
}

// moveEdit moves a session to another day.
type moveEdit struct {
	From planner.Date `json:"from"`
	To   planner.Date `json:"to"`
}

// shortEdit cuts a session to minutes.
type shortEdit struct {
	Day     planner.Date `json:"day"`
	Minutes int          `json:"minutes"`
}

// swapEdit replaces the work of a movement on one day.
type swapEdit struct {
	Day  planner.Date  `json:"day"`
	Of   load.Movement `json:"of"`
	Work []load.Work   `json:"work"`
}

// fitEdit lays the sessions that are left over the days that are left.
type fitEdit struct {
	Today planner.Date   `json:"today"`
	Done  []planner.Date `json:"done"`
}

// apply returns the plan with the change.
func (e weekEdit) apply(p load.Plan) load.Plan {
	switch {
	case e.Move != nil:
		if moved, _, err := p.Exchange(e.Move.From, e.Move.To); err == nil {
			return moved
		}
	case e.Short != nil:
		return onDay(p, e.Short.Day, func(d load.Day) load.Day {
			if short, _, err := load.Shorten(d, e.Short.Minutes); err == nil {
				return short
			}
			return d
		})
	case e.Swap != nil:
		return onDay(p, e.Swap.Day, e.Swap.swapped)
	case e.Fit != nil:
		return e.Fit.fitted(p)
	}
	return p
}

// within tells whether the change is one of what is done on a day, and not of when.
func (e weekEdit) within(day planner.Date) bool {
	return e.Short != nil && e.Short.Day == day || e.Swap != nil && e.Swap.Day == day
}

// onDay changes one day of a plan.
func onDay(p load.Plan, day planner.Date, change func(load.Day) load.Day) load.Plan {
	p.Days = slices.Clone(p.Days)
	for i, d := range p.Days {
		if d.Date == day {
			p.Days[i] = change(d)
		}
	}
	return p
}

// swapped puts the other work where the first of the old stood.
func (e *swapEdit) swapped(d load.Day) load.Day {
	at := slices.IndexFunc(d.Work, func(w load.Work) bool { return w.Movement() == e.Of })
	if at < 0 {
		return d
	}
	d.Work = slices.DeleteFunc(slices.Clone(d.Work), func(w load.Work) bool { return w.Movement() == e.Of })
	d.Work = slices.Insert(d.Work, at, e.Work...)
	return d
}

// fitted keeps the days that are done and lays the others over what is left.
func (e *fitEdit) fitted(p load.Plan) load.Plan {
	left, _ := p.Left(e.Done, e.Today)
	days := slices.DeleteFunc(slices.Clone(p.Days), func(d load.Day) bool { return !slices.Contains(e.Done, d.Date) })
	p.Days = append(days, left...)
	slices.SortFunc(p.Days, func(a, b load.Day) int { return int(a.Date) - int(b.Date) })
	return p
}
