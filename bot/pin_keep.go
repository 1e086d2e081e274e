package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// keepPin keeps a pin in place of what it contradicts by its own words, and sees
// what follows for the plan. A pin that leaves no plan is not kept.
func (t *turn) keepPin(c course, p store.Pin, said string) (chat.Reply, error) {
	old, err := t.tx.Pins(p.Lifter, c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	for _, o := range old {
		if sameSubject(o, p) {
			if _, err := t.tx.DropPin(p.Lifter, o.ID); err != nil {
				return chat.Reply{}, err
			}
		}
	}
	if p.ID, err = t.tx.AddPin(p, t.now); err != nil {
		return chat.Reply{}, err
	}
	if _, err := t.build(c); err != nil {
		return chat.Reply{}, err // the turn is rolled back, and the pin with it
	}
	if err := t.note(t.about, "Fixed in your plan: "+render.PinText(fixed(p))+".", undo{"pin.drop", pinArgs{p.ID}}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("pinned a block"); err != nil {
		return chat.Reply{}, err
	}
	return t.proposePinned(c, said, map[string]any{"pin": pinRow(p)})
}

// freeDays lets go of the days that were fixed in a lifter's plan when a main meet
// leaves its own: they were counted back from it. Lengths stay fixed.
func (t *turn) freeDays(m planner.Meet) (string, error) {
	if m.Kind != planner.Main {
		return "", nil
	}
	pins, err := t.tx.Pins(t.about.ID, t.today())
	if err != nil {
		return "", err
	}
	var freed []string
	for _, p := range pins {
		if p.Start.IsZero() {
			continue
		}
		if _, err := t.tx.DropPin(t.about.ID, p.ID); err != nil {
			return "", err
		}
		freed = append(freed, render.PinText(fixed(p)))
	}
	if len(freed) == 0 {
		return "", nil
	}
	return "No longer fixed, as the meet it was counted back from has moved: " + render.List(freed) + ".", nil
}

// sameSubject tells whether two pins speak of the same thing, so that the later one
// replaces the earlier: length or start of the same block.
func sameSubject(a, b store.Pin) bool {
	return a.Number == b.Number && a.Kind == b.Kind && (a.Weeks > 0) == (b.Weeks > 0) && a.Start.IsZero() == b.Start.IsZero()
}

// pinArgs is what taking back a pin needs.
type pinArgs struct {
	Pin store.PinID `json:"pin"`
}

// takePinBack forgets what somebody fixed in the lifter's plan.
func takePinBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[pinArgs](n)
	if err != nil {
		return "", err
	}
	_, err = t.tx.DropPin(n.Lifter, a.Pin)
	return "Taken back: that is no longer fixed. /season build fits your plan to it.", err
}
