package render

import (
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/render/chart"
	"blockbell/planner"
	"blockbell/planner/strength"
)

// What the picture of a lift covers: half a year back, and the next meet where it is
// within twelve weeks.
const (
	picturedBack  = 182
	picturedAhead = 84
	// calm is the least range of its scale as a share of the level: a tenth, so that
	// noise does not look like drama.
	calm = 0.10
)

// picture draws the lift.
func (v LiftView) picture() []chat.File {
	r := v.Reading
	view := chart.LiftView{
		Title: fmt.Sprintf("%s: %s", v.title(), v.mass(r.Kg)), Under: v.alt(),
		From: v.from(), To: v.Today, Blocks: v.Blocks, Least: calm * v.scaled(r.Kg),
	}
	for _, m := range v.Meets {
		if m.Date >= view.From && m.Date <= v.Today.AddDays(picturedAhead) {
			view.Meets = append(view.Meets, chart.Mark{Day: m.Date, Name: m.Name})
			view.To = max(view.To, m.Date.AddDays(2))
		}
	}
	for _, p := range r.Points {
		if p.Day >= view.From && p.Kind != strength.AtMost && !p.Claim {
			view.Points = append(view.Points, chart.Point{Day: p.Day, Mass: v.scaled(p.Kg()), AtLeast: p.Kind == strength.AtLeast})
		}
	}
	for _, l := range r.Trend {
		if l.Day >= view.From {
			view.Trend = append(view.Trend, chart.Level{Day: l.Day, Mass: v.scaled(l.Kg), Low: v.scaled(l.Low), High: v.scaled(l.High)})
		}
	}
	return []chat.File{{Name: "lift.png", Draw: func() ([]byte, error) { return chart.Lift(view) }, Alt: clip(view.Title+". "+v.alt(), 1000)}}
}

// from is the first day of the picture: half a year ago, or the first point in it,
// with a fortnight at least.
func (v LiftView) from() planner.Date {
	from := v.Today.AddDays(-picturedBack)
	for _, p := range v.Reading.Points {
		if p.Day >= from {
			return min(p.Day, v.Today.AddDays(-14))
		}
	}
	return v.Today.AddDays(-14)
}

// scaled turns kilograms into the lifter's unit.
func (v LiftView) scaled(kg float64) float64 {
	if v.Lifter.Unit == planner.LB {
		return planner.Kilograms(kg).Lb()
	}
	return kg
}

// alt says in words what the picture shows.
func (v LiftView) alt() string {
	r := v.Reading
	words := map[strength.Verdict]string{strength.Rising: "rising", strength.Holding: "holding", strength.Falling: "falling", strength.TooLittle: "too little data for a trend"}
	return fmt.Sprintf("Likely between %s and %s; %s.", v.mass(r.Kg-r.SD), v.mass(r.Kg+r.SD), words[r.Verdict])
}
