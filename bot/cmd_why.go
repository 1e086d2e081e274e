package bot

import (
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// shownBoundaries is how many boundaries get buttons: two each.
const shownBoundaries = 5

// explainPlan answers /season why: one plain sentence for each block and boundary of
// the plan that waits or runs, with buttons that move a boundary by a week.
func explainPlan(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.decided(c)
	if err != nil {
		return chat.Reply{}, err
	}
	p, title, err := t.planToExplain(c)
	if err != nil {
		return chat.Reply{}, err
	}
	if p, err = t.discreet(p); err != nil {
		return chat.Reply{}, err
	}
	v := render.SeasonView{Title: title, Plan: p, Blocks: p.Blocks, Meets: p.Meets, Today: c.today, Events: c.eventsAhead()}
	if err := t.inKilos(c, &v); err != nil {
		return chat.Reply{}, err
	}
	v.Gains = t.fromToday(c, p)
	setMaxima(&r.Lifter, v.Lifter)
	if hidden, err := t.bodyHidden(); err != nil {
		return chat.Reply{}, err
	} else if hidden { // the room in the class tells a bodyweight
		r.Lifter.Bodyweight = 0
	}
	m := render.Explained(v, blocks.Explain(p, r))
	m.Buttons, err = t.boundaryButtons(c, p)
	return private(m), err
}

// planToExplain is the proposal that waits, else the agreed plan as the planner sees
// it today, or as it saw it when it was made where it would choose another by now.
func (t *turn) planToExplain(c course) (blocks.Plan, string, error) {
	proposed, ok, err := t.openProposal(c)
	if err != nil {
		return blocks.Plan{}, "", err
	}
	if !ok && proposed.ID != 0 && !c.has {
		// What was proposed no longer holds: the plan that would be proposed now does.
		p, err := t.build(c)
		return p, "Why your plan would be as it is now", err
	}
	if ok {
		d, err := detailOf(proposed)
		return d.Plan, "Why the proposed plan is as it is", err
	}
	if !c.has {
		return blocks.Plan{}, "", planner.Errorf(planner.NotFound, "Build one with /season build.", "There is no plan yet")
	}
	const title = "Why your plan is as it is"
	if p, err := t.build(c); err == nil && c.stays(p) {
		return p, title, nil
	}
	d, err := detailOf(c.agreed)
	return d.Plan, title, err
}

// boundaryArgs is what the buttons beside a boundary carry: where it should go.
type boundaryArgs struct {
	Lifter planner.LifterID  `json:"lifter"`
	Kind   planner.BlockKind `json:"kind"`
	From   planner.Date      `json:"from"`
	To     planner.Date      `json:"to"`
}

// boundaryButtons offers to move each boundary still to come by a week, where the
// rules leave room for it.
func (t *turn) boundaryButtons(c course, p blocks.Plan) ([]chat.Button, error) {
	pins, err := t.tx.Pins(c.lifter.ID, c.today)
	if err != nil {
		return nil, err
	}
	var buttons []chat.Button
	for _, b := range p.Boundaries {
		i := planner.At(p.Blocks, b.Date)
		if b.Date <= c.today || i < 0 || len(buttons) >= 2*shownBoundaries {
			continue
		}
		for _, m := range []struct {
			open  *float64
			days  int
			label string
		}{{b.Earlier, -7, "One week earlier"}, {b.Later, 7, "One week later"}} {
			if m.open == nil && !pinnedHere(pins, p.Blocks[i]) {
				continue
			}
			label := fmt.Sprintf("%s: %s from %s", m.label, render.BlockShort(p.Blocks[i].Kind), b.Date.Short())
			button, err := t.button(clipLabel(label), "season.move", boundaryArgs{c.lifter.ID, p.Blocks[i].Kind, b.Date, b.Date.AddDays(m.days)}, t.speaker)
			if err != nil {
				return nil, err
			}
			buttons = append(buttons, button)
		}
	}
	return buttons, nil
}

// pinnedHere tells whether a pin fixes where the block begins: it can be moved again.
func pinnedHere(pins []store.Pin, b planner.Block) bool {
	for _, p := range pins {
		if p.Kind == b.Kind && p.Start == b.Start {
			return true
		}
	}
	return false
}

// movePressed moves a boundary: it is fixed where it should be, and the plan that
// keeps it is proposed. A boundary moved again takes its earlier place back.
func movePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[boundaryArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.courseOf(a.Lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	if p, _, err := t.planToExplain(c); err != nil {
		return chat.Reply{}, err
	} else if i := planner.At(p.Blocks, a.From); i < 0 || p.Blocks[i].Kind != a.Kind || p.Blocks[i].Start != a.From {
		return t.insteadOf([]string{"no " + render.BlockShort(a.Kind) + " begins on " + a.From.Short() + " any more"}, explainPlan)
	}
	pins, err := t.tx.Pins(a.Lifter, c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	for _, p := range pins {
		if p.Kind == a.Kind && p.Start == a.From {
			if _, err := t.tx.DropPin(a.Lifter, p.ID); err != nil {
				return chat.Reply{}, err
			}
		}
	}
	p := store.Pin{Lifter: a.Lifter, Kind: a.Kind, Start: a.To, Until: c.pinEnd(), By: t.speaker.ID}
	return t.keepPin(c, p, "Fixed: "+render.PinText(fixed(p))+". /season unpin lets go of it.")
}
