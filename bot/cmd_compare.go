package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// comparePlans answers /season compare: the best plan, other shapes, the agreed plan
// and own splits beside each other.
func comparePlans(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	own, err := ownSplits(t.options["blocks"])
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.decided(c)
	if err != nil {
		return chat.Reply{}, err
	}
	best, err := blocks.Build(r)
	if err != nil {
		return chat.Reply{}, err
	}
	if best, err = t.discreet(best); err != nil {
		return chat.Reply{}, err
	}
	s := c.season(best)
	v := render.SeasonView{Plan: best, Blocks: s.Blocks, Meets: s.Meets, Today: c.today, Events: c.eventsAhead()}
	if err := t.inKilos(c, &v); err != nil {
		return chat.Reply{}, err
	}
	setMaxima(&r.Lifter, v.Lifter)
	r.Agreed = c.ahead()
	compared, err := blocks.Compare(r, own)
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.Compared(render.CompareView{Season: v, Compared: compared})
	m.Buttons, err = t.splitButtons(c, compared)
	return private(m), err
}

// ownSplits reads the splits a coach typed, with semicolons between.
func ownSplits(typed string) ([]blocks.Split, error) {
	var own []blocks.Split
	for _, part := range strings.Split(typed, ";") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		s, err := blocks.ParseSplit(part)
		if err != nil {
			return nil, err
		}
		own = append(own, s)
	}
	return own, nil
}

// splitArgs is what the button under a compared plan carries: its blocks.
type splitArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Blocks []planner.Block  `json:"blocks"`
	Split  string           `json:"split"`
	Basis  basis            `json:"basis"` // what it was compared under, but for what is fixed: it takes its place
}

// splitButtons offers every plan but the best and the agreed one to be proposed.
func (t *turn) splitButtons(c course, compared blocks.Comparison) ([]chat.Button, error) {
	under, err := t.basis(c, c.today)
	if err != nil {
		return nil, err
	}
	under = under.without(partFixed)
	var buttons []chat.Button
	seen := map[string]bool{compared.Rows[0].Split.String(): true}
	for _, row := range compared.Rows {
		if row.Role == blocks.Agreed || seen[row.Split.String()] || len(row.Blocks) == 0 {
			continue
		}
		seen[row.Split.String()] = true
		a := splitArgs{c.lifter.ID, row.Blocks, row.Split.String(), under}
		b, err := t.button(clipLabel("Propose "+a.Split), "season.split", a, t.speaker)
		if err != nil {
			return nil, err
		}
		buttons = append(buttons, b)
	}
	return buttons, nil
}

// splitPressed fixes the blocks of a compared plan and proposes the plan that has
// them.
func splitPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[splitArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.courseOf(a.Lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	now, err := t.basis(c, a.Basis.Day)
	if err != nil {
		return chat.Reply{}, err
	}
	if parts := a.Basis.changed(now.without(partFixed)); len(parts) > 0 {
		return t.insteadOf(parts, comparePlans)
	}
	old, err := t.tx.Pins(a.Lifter, c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	for _, o := range old {
		if _, err := t.tx.DropPin(a.Lifter, o.ID); err != nil {
			return chat.Reply{}, err
		}
	}
	for _, p := range boundaryPins(a.Blocks, c.today) {
		p.Lifter, p.Until, p.By = a.Lifter, c.pinEnd(), t.speaker.ID
		if _, err := t.tx.AddPin(p, t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	if err := t.note(t.about, "Fixed in your plan: "+a.Split+".", undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("fixed a split"); err != nil {
		return chat.Reply{}, err
	}
	return t.proposePinned(c, fmt.Sprintf("Fixed: %s. /season unpin all lets go of it.", a.Split), map[string]any{"split": a.Split})
}

// insteadOf answers a button under an answer that no longer holds with the same answer
// as it is now.
func (t *turn) insteadOf(parts []string, again func(*turn) (chat.Reply, error)) (chat.Reply, error) {
	t.options = nil
	r, err := again(t)
	r.Message.Text = "Something changed since: " + render.List(parts) + ". This is how it looks now.\n" + r.Message.Text
	return r, err
}

// boundaryPins fix how long each block is and, for those still to come, when it
// begins: the length too, since only a pinned length may pass what is usual.
func boundaryPins(bs []planner.Block, today planner.Date) []store.Pin {
	var pins []store.Pin
	for _, b := range bs {
		pin := store.Pin{Kind: b.Kind, Weeks: b.Weeks}
		if b.Start > today {
			pin.Start = b.Start
		}
		if b.Weeks > 0 {
			pins = append(pins, pin)
		}
	}
	return pins
}

// proposePinned proposes the plan that keeps what was fixed just now.
func (t *turn) proposePinned(c course, said string, data map[string]any) (chat.Reply, error) {
	const title = "Proposed plan, with what is fixed"
	if !c.has {
		return t.proposeSeason(c, title, said)
	}
	return t.replan(change{said: said, title: title, data: data})
}
