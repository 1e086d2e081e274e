package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

var blockWords = words([]planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery})

// pinParams are what a pin can fix.
func pinParams() []Param {
	return []Param{
		{Name: "block", About: "number of the block in /season, from 1"},
		{Name: "kind", About: "or the kind of block", Choices: blockWords},
		{Name: "start", About: "a block begins in this week"},
		{Name: "weeks", About: "how many weeks it lasts"},
	}
}

// pinBlock answers /season pin: it fixes something and proposes the plan that keeps
// it; without options it lists what is fixed.
func pinBlock(t *turn) (chat.Reply, error) {
	if len(t.optionNames()) == 0 {
		return t.showPins("")
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	p, err := t.pinFromOptions(c)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.keepPin(c, p, "Fixed: "+render.PinText(fixed(p))+".")
}

// pinFromOptions reads a pin.
func (t *turn) pinFromOptions(c course) (store.Pin, error) {
	p := store.Pin{Lifter: t.about.ID, Kind: planner.BlockKind(t.options["kind"]), By: t.speaker.ID, Until: c.pinEnd()}
	var err error
	if v, ok := t.options["block"]; ok {
		if p.Number, err = wholeNumber("block", v, 1, 60); err != nil {
			return p, err
		}
	}
	if v, ok := t.options["weeks"]; ok {
		if p.Weeks, err = wholeNumber("weeks", v, 1, 26); err != nil {
			return p, err
		}
	}
	if v, ok := t.options["start"]; ok {
		if p.Start, err = parse.Date(v, c.today); err != nil {
			return p, named("start", err)
		}
		if p.Start < c.today && p.Start != c.running() {
			return p, planner.Errorf(planner.Invalid, "Give a day from today on.", "start: %s is past", p.Start.Long())
		}
	}
	if done := len(c.finished()); p.Number > 0 && p.Number <= done {
		return p, planner.Errorf(planner.Invalid, fmt.Sprintf("The first that can be fixed is block:%d.", done+1), "block %d is over", p.Number)
	}
	if p.Weeks == 0 && p.Start.IsZero() && (p.Number == 0 || p.Kind == "") {
		return p, planner.Errorf(planner.Invalid, usage(*t.command), "Say also from when (start:) or how long (weeks:)")
	}
	return p, nil
}

// pinEnd is the day up to which a pin counts: the end of what is planned now, or the
// last meet ahead, at least a year.
func (c course) pinEnd() planner.Date {
	end := c.today.AddDays(farthestAway)
	for _, m := range c.meets {
		if m.Kind == planner.Main && m.Date > c.today {
			return max(m.Date, c.lastDay())
		}
	}
	if c.has {
		return max(c.today, c.lastDay())
	}
	return end
}

// lastDay is the last day of the agreed plan; zero where none is agreed.
func (c course) lastDay() planner.Date {
	if !c.has {
		return 0
	}
	return c.agreed.Season.Blocks[len(c.agreed.Season.Blocks)-1].End
}

// showPins lists what is fixed, with a number for each.
func (t *turn) showPins(before string) (chat.Reply, error) {
	pins, err := t.tx.Pins(t.about.ID, t.today())
	if err != nil {
		return chat.Reply{}, err
	}
	bounds, err := t.tx.Bounds(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.Pins(mapped(pins, fixed), mapped(bounds, capOf))
	m.Text = strings.TrimSpace(before + "\n" + m.Text)
	return private(m), nil
}

// fixed and capOf are pins and bounds as they are shown.
func fixed(p store.Pin) render.Fixed {
	return render.Fixed{Number: p.Number, Kind: p.Kind, Start: p.Start, Weeks: p.Weeks}
}

func capOf(b store.Bound) render.Cap {
	return render.Cap{Kind: b.Kind, Most: b.Most, Club: b.Lifter == 0}
}

func mapped[A, B any](all []A, to func(A) B) []B {
	out := make([]B, len(all))
	for i, a := range all {
		out[i] = to(a)
	}
	return out
}

// unpinBlock answers /season unpin.
func unpinBlock(t *turn) (chat.Reply, error) {
	pins, err := t.tx.Pins(t.about.ID, t.today())
	if err != nil {
		return chat.Reply{}, err
	}
	if len(pins) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "", "Nothing is fixed in this plan")
	}
	drop := pins
	if v := t.options["number"]; !strings.EqualFold(v, "all") {
		n, err := wholeNumber("number", v, 1, len(pins))
		if err != nil {
			return chat.Reply{}, err
		}
		drop = pins[n-1 : n]
	}
	var freed []string
	for _, p := range drop {
		if _, err := t.tx.DropPin(t.about.ID, p.ID); err != nil {
			return chat.Reply{}, err
		}
		freed = append(freed, render.PinText(fixed(p)))
	}
	if err := t.note(t.about, "No longer fixed in your plan: "+render.List(freed)+".", undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("unpinned a block"); err != nil {
		return chat.Reply{}, err
	}
	return t.replan(change{said: "No longer fixed: " + render.List(freed) + ".", title: "Proposed plan", data: map[string]any{"unpinned": len(drop)}})
}

func pinRow(p store.Pin) map[string]any {
	row := map[string]any{"block": nil, "kind": nil, "start": nil, "weeks": nil}
	if p.Number > 0 {
		row["block"] = p.Number
	}
	if p.Kind != "" {
		row["kind"] = p.Kind
	}
	if !p.Start.IsZero() {
		row["start"] = p.Start
	}
	if p.Weeks > 0 {
		row["weeks"] = p.Weeks
	}
	return row
}
