package bot

import (
	"errors"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// change is something that bears on a lifter's plan: what to say of it, and the
// title of a proposal that it leads to.
type change struct {
	said  string
	title string
	data  map[string]any // for programs, beside the proposal's
	upTo  string         // what a first plan would lead to; empty: the next meet
}

// replan answers a change. It makes at most one proposal, and none where the agreed
// plan stays good enough, where the same was turned down before, or while the
// lifter is away without a last day. Whatever happens, the agreed plan goes on until
// somebody decides.
func (t *turn) replan(ch change) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if !c.has {
		return t.toldBeforePlan(c, ch)
	}
	if a, away := awayNow(c.aways, c.today); away && a.To.IsZero() {
		return ch.reply(t.waitsForReturn()), nil
	}
	p, err := t.build(c)
	var impossible *planner.Error
	if errors.As(err, &impossible) {
		return ch.reply("The plan goes on as agreed. I could not lay out a new one: " + render.Sentence(impossible.Sentence) + hint(impossible)), nil
	}
	if err != nil {
		return chat.Reply{}, err
	}
	return t.settleReplan(c, p, ch)
}

// settleReplan keeps the agreed plan or proposes the new one.
func (t *turn) settleReplan(c course, p blocks.Plan, ch change) (chat.Reply, error) {
	if sameBlocks(c.season(p).Blocks, c.agreed.Season.Blocks) {
		waited, err := t.dropChanged(c)
		if err != nil {
			return chat.Reply{}, err
		}
		if err := t.refresh(c, p); err != nil {
			return chat.Reply{}, err
		}
		l, _, err := t.measured(c)
		return ch.reply(waited + render.Stays(p, l)), err
	}
	again, err := t.declinedBefore(c, p)
	if err != nil {
		return chat.Reply{}, err
	}
	if again {
		waited, err := t.dropChanged(c)
		return ch.reply(waited + "The plan that would follow from it was turned down before, so I leave yours as it is. /season build shows it again."), err
	}
	kept, lost, err := t.proposeAnew(c, p)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.proposal(c, kept, ch.title, lost+ch.said+"\nThe plan goes on as agreed until you accept this one.")
	if err != nil {
		return chat.Reply{}, err
	}
	return ch.into(r), nil
}

// refresh keeps the agreed blocks for the calendar as it is now, as a version of
// its own: nothing that anybody does changes with it.
func (t *turn) refresh(c course, p blocks.Plan) error {
	stale, err := c.stale(c.agreed)
	if err != nil || !stale {
		return err
	}
	kept, err := t.propose(c, p)
	if err != nil {
		return err
	}
	_, err = t.tx.AgreePlan(kept.ID, t.now)
	return err
}

// declinedBefore tells whether the lifter's latest decision was to turn down just
// these blocks, for just these meets.
func (t *turn) declinedBefore(c course, p blocks.Plan) (bool, error) {
	all, err := t.tx.Plans(c.lifter.ID)
	if err != nil || len(all) == 0 {
		return false, err
	}
	last := all[len(all)-1]
	if last.State != store.PlanDeclined {
		return false, nil
	}
	stale, err := c.stale(last)
	return !stale && sameBlocks(upcoming(last.Season.Blocks, c.today), upcoming(c.season(p).Blocks, c.today)), err
}

// upcoming are the blocks that are not over.
func upcoming(bs []planner.Block, today planner.Date) []planner.Block {
	for i, b := range bs {
		if b.End >= today {
			return bs[i:]
		}
	}
	return nil
}

// dropChanged withdraws a proposal that waited, where something has changed since it was
// made, and says so.
func (t *turn) dropChanged(c course) (string, error) {
	p, waits, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil || !waits {
		return "", err
	}
	parts, err := t.changedSince(c, p)
	if err != nil || len(parts) == 0 {
		return "", err
	}
	return "The other plan that waited for a yes no longer fits and is withdrawn. ", t.tx.DropProposal(c.lifter.ID, t.now)
}

// proposedAgain answers a change while a first plan waits for a yes.
func (t *turn) proposedAgain(c course, p store.Plan, ch change) (chat.Reply, error) {
	const waits = "The plan that I proposed stays as it is and waits for a yes: /season."
	parts, err := t.changedSince(c, p)
	if err != nil || len(parts) == 0 {
		return ch.reply(waits), err
	}
	n, err := t.renew(c, p, parts, ch.said)
	if err != nil || n.same {
		return ch.reply(waits), err
	}
	if n.more {
		return ch.into(n.said), nil
	}
	n.said.Message.Data = ch.data
	return n.said, nil
}

// toldBeforePlan answers a change while no plan is agreed: one that waits for a yes is
// laid out again.
func (t *turn) toldBeforePlan(c course, ch change) (chat.Reply, error) {
	p, waits, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if waits {
		return t.proposedAgain(c, p, ch)
	}
	r := ch.reply("")
	if _, ahead := c.nextMeet(); !ahead {
		return r, nil
	}
	b, err := t.button("Build my plan", "season.build", lifterArgs{t.about.ID}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	upTo := ch.upTo
	if upTo == "" {
		upTo = "the next meet"
	}
	r.Message.Text += "\nShall I lay out " + t.word("your", "the") + " blocks up to " + upTo + "?"
	r.Message.Buttons = []chat.Button{b}
	return r, nil
}

// reply says the change and, behind it, what follows for the plan.
func (ch change) reply(then string) chat.Reply {
	m := chat.Message{Text: ch.said, Data: ch.data}
	if then != "" {
		m.Text += "\n" + then
	}
	return private(m)
}

// into adds what the change has for programs to a proposal.
func (ch change) into(r chat.Reply) chat.Reply {
	if d, ok := r.Message.Data.(render.SeasonData); ok {
		d.Meet, _ = ch.data["meet"].(map[string]any)
		d.Change = ch.data
		r.Message.Data = d
	}
	return r
}

// word is what is said to lifters about themselves, or to somebody who acts for
// another.
func (t *turn) word(self, other string) string {
	if t.forWhom() == "" {
		return self
	}
	return other
}

func hint(e *planner.Error) string {
	if e.Hint == "" {
		return ""
	}
	return "\n" + e.Hint
}

// profileBearsOnPlan sees, after a lifter's level or class changed, whether another
// plan would fit clearly better, and offers to show it. Most changes do not.
func (t *turn) profileBearsOnPlan(m *chat.Message, before planner.Lifter) error {
	if before.Level == t.about.Level && before.Class == t.about.Class {
		return nil
	}
	c, err := t.course(t.about)
	if err != nil || !c.has || t.about.Level == planner.New {
		return err
	}
	p, err := t.build(c)
	var known *planner.Error
	if errors.As(err, &known) {
		return nil // what is in the way is said where somebody asks for a plan
	}
	if err != nil || sameBlocks(c.season(p).Blocks, c.agreed.Season.Blocks) {
		return err
	}
	if again, err := t.declinedBefore(c, p); err != nil || again {
		return err
	}
	b, err := t.button("Show the new plan", "season.build", lifterArgs{t.about.ID}, t.speaker)
	if err != nil {
		return err
	}
	m.Text = strings.TrimSpace(m.Text + "\nWith that, another plan would fit better. The agreed one goes on until you accept it.")
	m.Buttons = append(m.Buttons, b)
	return nil
}
