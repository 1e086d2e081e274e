package bot

import (
	"fmt"
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// shownApprovals is how many waiting plans are shown at once: two buttons each, and
// one for all of them.
const shownApprovals = 12

// reasons are the answers a coach can give with a no. Short and chosen, so that a
// no is quick and never hurts.
var reasons = []string{"Let us talk first", "Too much too soon", "Another meet comes first", "I would like other lengths"}

// approvalArgs is what the buttons of a coach carry: the plans as they were shown,
// and the reason of a no.
type approvalArgs struct {
	Plans  []store.PlanID `json:"plans"`
	Reason string         `json:"reason,omitempty"`
}

// showApprovals answers /club approve: the plans that wait for the speaker.
func showApprovals(t *turn) (chat.Reply, error) {
	if !t.speaker.Captain {
		if coach, err := t.coachesSomebody(); err != nil || !coach {
			if err == nil {
				err = planner.Errorf(planner.Forbidden, "", "%s is for the captain and for coaches", t.command.Path())
			}
			return chat.Reply{}, err
		}
	}
	return t.approvals()
}

// coachesSomebody tells whether the speaker coaches a lifter.
func (t *turn) coachesSomebody() (bool, error) {
	all, err := t.tx.Members()
	for _, l := range all {
		if l.Coach == t.speaker.ID && l.ID != t.speaker.ID {
			return true, err
		}
	}
	return false, err
}

// approvalsPressed answers 'Look at it' under the message that a plan waits.
func approvalsPressed(t *turn, _ store.Button) (chat.Reply, error) { return t.approvals() }

// approvals lists the plans that wait for the speaker, with the buttons that settle
// them one by one or all as they are.
func (t *turn) approvals() (chat.Reply, error) {
	waiting, moved, err := t.waitingForMe()
	if err != nil {
		return chat.Reply{}, err
	}
	var rows []render.ApprovalRow
	var all approvalArgs
	var buttons []chat.Button
	for _, w := range waiting[:min(len(waiting), shownApprovals)] {
		rows = append(rows, w.row)
		all.Plans = append(all.Plans, w.plan.ID)
		own, err := t.approvalButtons(w)
		if err != nil {
			return chat.Reply{}, err
		}
		buttons = append(buttons, own...)
	}
	if len(rows) > 1 {
		b, err := t.button(fmt.Sprintf("Approve all %d unchanged", len(rows)), "plan.approve", all, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		buttons = append([]chat.Button{b}, buttons...)
	}
	m := render.Approvals(rows, len(waiting)-len(rows), moved)
	m.Buttons = buttons
	return private(m), nil
}

func (t *turn) approvalButtons(w waitingPlan) ([]chat.Button, error) {
	one := approvalArgs{Plans: []store.PlanID{w.plan.ID}}
	yes, err := t.button(clipLabel("Approve "+w.row.Name), "plan.approve", one, t.speaker)
	if err != nil {
		return nil, err
	}
	no, err := t.button(clipLabel("Decline "+w.row.Name), "plan.refuse", one, t.speaker)
	return []chat.Button{yes, no}, err
}

func clipLabel(s string) string {
	if r := []rune(s); len(r) > chat.MaxLabel {
		return string(r[:chat.MaxLabel])
	}
	return s
}

// waitingPlan is one plan that waits for a coach.
type waitingPlan struct {
	lifter planner.Lifter
	plan   store.Plan
	row    render.ApprovalRow
}

// waitingForMe lists the plans that wait for the speaker, longest wait first. A plan
// under which something has changed is laid out again; where it is another one now, it
// waits for its lifter once more, and moved names them.
func (t *turn) waitingForMe() (out []waitingPlan, moved []string, err error) {
	mine, err := t.askedOfMe()
	if err != nil {
		return nil, nil, err
	}
	about := t.about
	defer func() { t.about = about }()
	for _, a := range mine {
		l, err := t.tx.Lifter(a.Lifter)
		if err != nil {
			return nil, nil, err
		}
		t.about = l
		w, ok, err := t.waitingPlan(l, a)
		if err != nil {
			return nil, nil, err
		}
		if ok {
			out = append(out, w)
		} else {
			moved = append(moved, render.Called(l))
		}
	}
	return out, moved, nil
}

// askedOfMe lists the plans that wait for the speaker, as they were asked for: whether
// one still fits is not looked at.
func (t *turn) askedOfMe() (mine []store.Approval, err error) {
	all, err := t.tx.WaitingApprovals()
	if err != nil {
		return nil, err
	}
	here, err := t.tx.Members()
	for _, a := range all {
		i := slices.IndexFunc(here, func(l planner.Lifter) bool { return l.ID == a.Lifter })
		if i >= 0 && a.Wants == store.CoachDecides && t.coaches(here[i]) {
			mine = append(mine, a)
		}
	}
	return mine, err
}

func (t *turn) waitingPlan(l planner.Lifter, a store.Approval) (waitingPlan, bool, error) {
	w := waitingPlan{lifter: l}
	c, err := t.course(l)
	if err != nil {
		return w, false, err
	}
	p, err := t.tx.Plan(a.Plan)
	if err != nil {
		return w, false, err
	}
	kept, instead, err := t.openOrNew(c, p)
	if err != nil || instead != nil {
		return w, false, err
	}
	w.plan = kept
	w.row = render.ApprovalRow{Name: render.Called(l), Handle: l.Handle, Asked: t.dayOf(t.speaker, a.Asked), Today: c.today, Blocks: upcoming(w.plan.Season.Blocks, c.today)}
	if c.has {
		w.row.Old = upcoming(c.agreed.Season.Blocks, c.today)
	}
	if m, ok := c.nextMeet(); ok {
		w.row.Meet = m.Name + " " + render.InDays(c.today.DaysUntil(m.Date))
	}
	return w, true, nil
}
