package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// approvePressed answers 'Approve …': each plan on the button that still waits is
// agreed, just as it was shown.
func approvePressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[approvalArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	var done, gone []string
	absent := 0
	for _, id := range a.Plans {
		name, ok, err := t.approveOne(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if ok {
			done = append(done, name)
			if store.IsPlaceholder(t.about) {
				absent++
			}
		} else {
			gone = append(gone, name)
		}
	}
	r := private(render.Approved(done, gone, absent))
	waiting, err := t.askedOfMe()
	if err != nil || len(waiting) == 0 {
		return r, err
	}
	next, err := t.button("Look at the next", "plan.approvals", struct{}{}, t.speaker)
	r.Message.Buttons = []chat.Button{next}
	return r, err
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
	p, instead, err := t.openOrNew(c, p)
	if err != nil || instead != nil {
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
	for _, id := range a.Plans {
		p, err := t.tx.Plan(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if err := t.turnTo(p.Lifter); err != nil {
			return chat.Reply{}, err
		}
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
	text := "Declined for " + render.List(said) + ", who is told: " + a.Reason + "."
	if store.IsPlaceholder(t.about) {
		text = "Declined for " + render.List(said) + ": " + a.Reason + "."
	}
	return private(chat.Message{Text: text, Data: map[string]any{"declined": said, "reason": a.Reason}}), nil
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
