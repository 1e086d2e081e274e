package bot

import (
	"errors"
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// renewal is what became of a proposal under which something has changed.
type renewal struct {
	plan store.Plan // takes the old one's place, where same
	same bool       // the same days for the same meets: there is nothing new to look at
	more bool       // a new plan waits for a yes
	said chat.Reply // what to answer, unless same
}

// changedText says what has changed since a proposal was made.
func changedText(parts []string) string {
	return "Something changed since that plan was proposed: " + render.List(parts) + "."
}

// renew withdraws a proposal under which something has changed, and lays the plan out
// again. before is said in front of the new one; parts are what has changed.
func (t *turn) renew(c course, old store.Plan, parts []string, before string) (renewal, error) {
	if a, away := awayNow(c.aways, c.today); away && a.To.IsZero() {
		return renewal{said: withText(before, t.waitsForReturn())}, nil
	}
	if c.lifter.Level == planner.New {
		if err := t.tx.DropProposal(c.lifter.ID, t.now); err != nil {
			return renewal{}, err
		}
		r, err := t.learnFirst(c, true)
		r.Message.Text = before + "\n" + r.Message.Text
		return renewal{said: r}, err
	}
	d, err := detailOf(old)
	if err != nil {
		return renewal{}, err
	}
	if d.Move != nil {
		return t.renewMove(c, old, d.Move, before)
	}
	p, err := t.build(c)
	var impossible *planner.Error
	if errors.As(err, &impossible) {
		said := withText(before, "I could not lay out a new one: "+render.Sentence(impossible.Sentence)+hint(impossible))
		return renewal{said: said}, t.tx.DropProposal(c.lifter.ID, t.now)
	}
	if err != nil {
		return renewal{}, err
	}
	if c.stays(p) {
		if err := t.tx.DropProposal(c.lifter.ID, t.now); err != nil {
			return renewal{}, err
		}
		l, _, err := t.measured(c)
		if err != nil {
			return renewal{}, err
		}
		return renewal{said: withText(before, render.Stays(p, l))}, t.refresh(c, p)
	}
	return t.replaced(c, old, p, parts, before)
}

// replaced puts a new plan in the place of an old proposal. A yes that was said to the
// old one counts for the new one only where the two are the same.
func (t *turn) replaced(c course, old store.Plan, p blocks.Plan, parts []string, before string) (renewal, error) {
	a, asked, err := t.tx.Approval(old.ID)
	if err != nil {
		return renewal{}, err
	}
	kept, err := t.propose(c, p)
	if err != nil {
		return renewal{}, err
	}
	out := renewal{plan: kept, same: c.samePlan(old, kept) && !slices.Contains(parts, partOff), more: true}
	if out.same && asked && a.State == store.ApprovalWaiting {
		return out, t.tx.AskApproval(kept, a.Wants, t.now)
	}
	if out.same {
		return out, nil
	}
	if err := t.note(t.about, "The plan proposed to you was withdrawn, since these changed: "+render.List(parts)+". A new one waits for a yes: /season.", undo{}); err != nil {
		return out, err
	}
	out.said, err = t.proposal(c, kept, "Proposed plan", before)
	return out, err
}

// renewMove lays out a captain's move again for the day it is meant for. Where it comes
// to other blocks, or its day is past, it is for the captain to propose it again.
func (t *turn) renewMove(c course, old store.Plan, m *move, before string) (renewal, error) {
	if m.Start >= c.today {
		a, asked, err := t.tx.Approval(old.ID)
		if err != nil {
			return renewal{}, err
		}
		p, err := t.buildMoved(c, m)
		var impossible *planner.Error
		if err != nil && !errors.As(err, &impossible) {
			return renewal{}, err
		}
		if err == nil && c.samePlan(old, store.Plan{Season: c.season(p)}) {
			kept, err := t.proposeFor(c, p, m)
			if err == nil && asked && a.State == store.ApprovalWaiting {
				err = t.tx.AskApproval(kept, a.Wants, t.now)
			}
			return renewal{plan: kept, same: true, more: true}, err
		}
	}
	said := withText(before, "The move to another block no longer fits and is withdrawn; a captain can propose it again with /club move. "+t.word("Your plan", "The plan")+" goes on as agreed.")
	return renewal{said: said}, t.tx.DropProposal(c.lifter.ID, t.now)
}

// samePlan tells whether two proposals prescribe the same from today on, for the same
// meets.
func (c course) samePlan(a, b store.Plan) bool {
	ahead := func(p store.Plan) []planner.Block {
		bs := slices.Clone(upcoming(p.Season.Blocks, c.today))
		if len(bs) > 0 {
			bs[0].Start = max(bs[0].Start, c.today) // days that went by before a yes are nobody's training
		}
		return bs
	}
	meets := func(p store.Plan) []planner.SeasonMeet {
		return slices.DeleteFunc(slices.Clone(p.Season.Meets), func(m planner.SeasonMeet) bool { return m.Date <= c.today })
	}
	return sameBlocks(ahead(a), ahead(b)) && slices.EqualFunc(meets(a), meets(b), func(x, y planner.SeasonMeet) bool {
		return x.ID == y.ID && x.Date == y.Date && x.Kind == y.Kind
	})
}

// waitsForReturn says that no plan is made for somebody who is away and has not told
// until when.
func (t *turn) waitsForReturn() string {
	return t.word("Your plan waits until you are back", "The plan waits until "+t.forWhom()+" is back") + ": /season back."
}

func withText(before, then string) chat.Reply {
	return private(chat.Message{Text: before + "\n" + then})
}

// openOrNew returns the proposal that waits, laid out again where something has changed
// since it was made. Where that needs another look, the reply is what to answer.
func (t *turn) openOrNew(c course, p store.Plan) (store.Plan, *chat.Reply, error) {
	parts, err := t.changedSince(c, p)
	if err != nil || len(parts) == 0 {
		return p, nil, err
	}
	n, err := t.renew(c, p, parts, changedText(parts)+" This is how it looks now.")
	if err != nil || n.same {
		return n.plan, nil, err
	}
	return p, &n.said, nil
}
