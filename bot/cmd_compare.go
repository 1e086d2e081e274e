package bot

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
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
	own, bad, err := ownSplits(t.options["blocks"])
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
	compared, err := blocks.CompareEach(r, own)
	if err != nil {
		return chat.Reply{}, err
	}
	if n := len(compared.Refused); n > 0 && n == len(own) {
		return chat.Reply{}, compared.Refused[0].Err
	}
	for _, x := range compared.Refused {
		bad = append(bad, badSplit(x.Split.String(), x.Err))
	}
	compared.Notes = append(compared.Notes, bad...)
	buttons, closed, err := t.splitButtons(c, compared)
	if err != nil {
		return chat.Reply{}, err
	}
	compared.Notes = append(compared.Notes, closed...)
	m := render.Compared(render.CompareView{Season: v, Compared: compared})
	m.Buttons = buttons
	return private(m), nil
}

// ownSplits reads the splits a coach typed, with semicolons between. Those that cannot be
// read are named in bad, and are an error only where no other was typed.
func ownSplits(typed string) (own []blocks.Split, bad []string, err error) {
	var first error
	for _, part := range strings.Split(typed, ";") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		s, err := blocks.ParseSplit(part)
		if err != nil {
			first = cmp.Or(first, err)
			bad = append(bad, badSplit(strings.TrimSpace(part), err))
			continue
		}
		own = append(own, s)
	}
	if len(own) == 0 {
		return nil, nil, first
	}
	return own, bad, nil
}

// badSplit says why a split that was typed is not compared.
func badSplit(split string, err error) string {
	var known *planner.Error
	if !errors.As(err, &known) {
		return fmt.Sprintf("Not compared: %s.", parse.Quiet(split))
	}
	return strings.TrimSpace(fmt.Sprintf("Not compared: %s. %s %s", parse.Quiet(split), render.Sentence(known.Sentence), known.Hint))
}

// splitArgs is what the button under a compared plan carries: its blocks.
type splitArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Blocks []planner.Block  `json:"blocks"`
	Split  string           `json:"split"`
	Basis  basis            `json:"basis"` // what it was compared under, but for what is fixed: it takes its place
}

// splitButtons offers every plan but the best and the agreed one to be proposed, and says
// in closed of which no plan can be made, and why.
func (t *turn) splitButtons(c course, compared blocks.Comparison) (buttons []chat.Button, closed []string, err error) {
	under, err := t.basis(c, c.today)
	if err != nil {
		return nil, nil, err
	}
	under = under.without(partFixed)
	proposed := max(0, slices.IndexFunc(compared.Rows, func(r blocks.Row) bool { return r.Role == blocks.Held }))
	seen := map[string]bool{compared.Rows[proposed].Split.String(): true}
	for _, row := range compared.Rows {
		if row.Role == blocks.Agreed || seen[row.Split.String()] || len(row.Blocks) == 0 {
			continue
		}
		seen[row.Split.String()] = true
		if len(row.Breaches) > 0 {
			why, err := t.unbuildable(c, row.Blocks)
			if err != nil {
				return nil, nil, err
			}
			if why != "" {
				closed = append(closed, row.Split.String()+" can be compared but not proposed. "+why)
				continue
			}
		}
		a := splitArgs{c.lifter.ID, row.Blocks, row.Split.String(), under}
		b, err := t.button(clipLabel("Propose "+a.Split), "season.split", a, t.speaker)
		if err != nil {
			return nil, nil, err
		}
		buttons = append(buttons, b)
	}
	return buttons, closed, nil
}

// unbuildable says why no plan has these blocks; empty where one has them, fixed by hand.
func (t *turn) unbuildable(c course, bs []planner.Block) (string, error) {
	r, err := t.decidedWith(c, boundaryPins(bs, c.today))
	if err != nil {
		return "", err
	}
	p, err := blocks.Build(r)
	var known *planner.Error
	switch {
	case errors.As(err, &known):
		return render.Sentence(known.Sentence), nil
	case err != nil:
		return "", err
	case !sameBlocks(p.Blocks, bs):
		return "With its lengths fixed it would come out as " + blocks.SplitOf(p.Blocks).String() + ".", nil
	}
	return "", nil
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
