package bot

import (
	"errors"
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// shownApprovals is how many waiting plans are shown at once: two buttons each, and
// one for all of them.
const shownApprovals = 10

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
	all, err := t.tx.Lifters()
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
	waiting, err := t.waitingForMe()
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
	m := render.Approvals(rows, len(waiting)-len(rows))
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

// waitingForMe lists the plans that wait for the speaker, longest wait first, as far
// as they can still be agreed.
func (t *turn) waitingForMe() ([]waitingPlan, error) {
	all, err := t.tx.WaitingApprovals()
	if err != nil {
		return nil, err
	}
	var out []waitingPlan
	for _, a := range all {
		l, err := t.tx.Lifter(a.Lifter)
		if err != nil {
			return nil, err
		}
		if a.Wants != store.CoachDecides || !t.coaches(l) {
			continue
		}
		w, ok, err := t.waitingPlan(l, a)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, w)
		}
	}
	return out, nil
}

func (t *turn) waitingPlan(l planner.Lifter, a store.Approval) (waitingPlan, bool, error) {
	w := waitingPlan{lifter: l}
	c, err := t.course(l)
	if err != nil {
		return w, false, err
	}
	if w.plan, err = t.tx.Plan(a.Plan); err != nil {
		return w, false, err
	}
	old, err := c.outdated(w.plan, t.now)
	if err != nil || old {
		return w, false, err
	}
	w.row = render.ApprovalRow{Name: render.Called(l), Handle: l.Handle, Asked: t.dayOf(t.speaker, a.Asked), Today: c.today, Blocks: upcoming(w.plan.Season.Blocks, c.today)}
	if c.has {
		w.row.Old = upcoming(c.agreed.Season.Blocks, c.today)
	}
	if m, ok := c.nextMeet(); ok {
		w.row.Meet = m.Name + " " + render.InDays(c.today.DaysUntil(m.Date))
	}
	return w, true, nil
}

// approvePressed answers 'Approve …': each plan on the button that still waits is
// agreed, just as it was shown.
func approvePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[approvalArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	var done, gone []string
	for _, id := range a.Plans {
		name, ok, err := t.approveOne(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if ok {
			done = append(done, name)
		} else {
			gone = append(gone, name)
		}
	}
	return private(render.Approved(done, gone)), nil
}

// approveOne agrees one waiting plan and tells false where it no longer waits or
// fits.
func (t *turn) approveOne(id store.PlanID) (name string, ok bool, err error) {
	p, err := t.tx.Plan(id)
	if err != nil {
		return "", false, err
	}
	if t.about, err = t.tx.Lifter(p.Lifter); err != nil {
		return "", false, err
	}
	name = render.Called(t.about)
	a, asked, err := t.tx.Approval(id)
	if err != nil || !asked || a.State != store.ApprovalWaiting || p.State != store.PlanProposed || !t.coaches(t.about) {
		return name, false, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return name, false, err
	}
	var outdated *planner.Error
	if err := t.acceptable(c, p); errors.As(err, &outdated) {
		return name, false, nil
	} else if err != nil {
		return name, false, err
	}
	_, err = t.agree(c, p, true)
	return name, err == nil, err
}

// refusePressed answers 'Decline …': it asks for the reason, one tap.
func refusePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[approvalArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Decline", Text: "What shall I say? The lifter reads just this."}
	for _, r := range reasons {
		b, err := t.button(r, "plan.reason", approvalArgs{a.Plans, r}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
	}
	return private(m), nil
}

// reasonPressed declines with the reason that was chosen.
func reasonPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[approvalArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	var said []string
	for _, id := range a.Plans {
		p, err := t.tx.Plan(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if t.about, err = t.tx.Lifter(p.Lifter); err != nil {
			return chat.Reply{}, err
		}
		if err := t.refuse(p, a.Reason); err != nil {
			return chat.Reply{}, err
		}
		said = append(said, render.Called(t.about))
	}
	return private(chat.Message{Text: "Declined for " + render.List(said) + ", who is told: " + a.Reason + ".", Data: map[string]any{"declined": said, "reason": a.Reason}}), nil
}

// refuse turns a waiting plan down.
func (t *turn) refuse(p store.Plan, reason string) error {
	first, err := t.tx.SettleApproval(p.ID, store.ApprovalDeclined, reason, t.speaker.ID, t.now)
	if err != nil {
		return err
	}
	if !first || !t.coaches(t.about) {
		return planner.Errorf(planner.Conflict, "Look at /club approve.", "That plan no longer waits")
	}
	if err := t.tx.DeclinePlan(p.ID, t.now); err != nil {
		return err
	}
	what := "Your coach does not agree to the new plan for you yet: " + reason + "."
	if _, runs, err := t.tx.AgreedPlan(p.Lifter); err != nil {
		return err
	} else if runs {
		what += " What was agreed before goes on."
	}
	if err := t.note(t.about, what, undo{}); err != nil {
		return err
	}
	return t.audit("declined a plan: " + reason)
}
