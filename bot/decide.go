package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// decider tells who has the last word on a lifter's plans: what the lifter's group
// or the club has set, else the coach for lifters who said that they are new or
// novices and for members under 18, else the lifter. Where nobody else runs the club
// the lifter decides.
func (t *turn) decider(l planner.Lifter) (store.Decider, error) {
	coaches, err := nudge.CoachesOf(t.tx, l)
	if err != nil || len(coaches) == 0 {
		return store.LifterDecides, err
	}
	if store.IsPlaceholder(l) {
		return store.CoachDecides, nil // nobody else is there to ask
	}
	set, err := t.tx.Deciders()
	if err != nil {
		return "", err
	}
	if who, ok := set[l.Group]; ok {
		return who, nil
	}
	if who, ok := set[""]; ok {
		return who, nil
	}
	age := planner.Age(l.Born, t.dayOf(l, t.now))
	if l.Level == planner.New || l.Level == planner.Novice || age >= 0 && age < 18 {
		return store.CoachDecides, nil
	}
	return store.LifterDecides, nil
}

// coaches tells whether the speaker may decide for a lifter.
func (t *turn) coaches(l planner.Lifter) bool {
	return l.ID != t.speaker.ID && (t.speaker.Captain || l.Coach == t.speaker.ID)
}

// accept says yes to a proposal: it is agreed, or waits for the other side where
// that has a say. Where something has changed since it was shown, the new one is shown
// instead.
func (t *turn) accept(p store.Plan) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	p, instead, err := t.openOrNew(c, p)
	if err != nil {
		return chat.Reply{}, err
	}
	if instead != nil {
		return *instead, nil
	}
	other, asked, err := t.missing(p)
	if err != nil {
		return chat.Reply{}, err
	}
	if other != "" {
		return t.waitFor(p, other)
	}
	return t.agree(c, p, asked)
}

// missing tells whose yes a proposal needs beside the speaker's; empty where the
// speaker's settles it. asked tells whether one side has said theirs already.
func (t *turn) missing(p store.Plan) (other store.Decider, asked bool, err error) {
	who, err := t.decider(t.about)
	if err != nil {
		return "", false, err
	}
	a, asked, err := t.tx.Approval(p.ID)
	if err != nil {
		return "", false, err
	}
	asked = asked && a.State == store.ApprovalWaiting
	coach := t.coaches(t.about)
	switch {
	case coach && who == store.BothDecide && !(asked && a.Wants == store.CoachDecides):
		return store.LifterDecides, asked, nil
	case !coach && who != store.LifterDecides && !(asked && a.Wants == store.LifterDecides):
		return store.CoachDecides, asked, nil
	}
	return "", asked, nil
}

// waitFor keeps one side's yes until the other side has said theirs.
func (t *turn) waitFor(p store.Plan, other store.Decider) (chat.Reply, error) {
	if err := t.tx.AskApproval(p, other, t.now); err != nil {
		return chat.Reply{}, err
	}
	waits := map[string]any{"waits_for": other}
	if other == store.LifterDecides {
		if err := t.note(t.about, "Your coach says yes to a plan for you; it waits for your yes: /season.", undo{}); err != nil {
			return chat.Reply{}, err
		}
		return private(chat.Message{Text: "Kept. The plan waits for " + t.forWhom() + ", who is told.", Data: waits}), t.audit("said yes to a plan")
	}
	coaches, err := nudge.CoachesOf(t.tx, t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	text := "Your yes is kept. The plan waits for your coach, " + names(coaches) + "; I tell you when there is an answer."
	if old, has, err := t.tx.AgreedPlan(t.about.ID); err == nil && has && len(old.Season.Blocks) > 0 {
		text += " Until then your plan goes on as agreed."
	}
	return private(chat.Message{Title: "Waits for your coach", Text: text, Data: waits}), nil
}

// agree makes a proposal the agreed plan.
func (t *turn) agree(c course, p store.Plan, asked bool) (chat.Reply, error) {
	agreed, err := t.tx.AgreePlan(p.ID, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if asked {
		if _, err := t.tx.SettleApproval(p.ID, store.ApprovalApproved, "", t.speaker.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	d, err := detailOf(p)
	if err != nil {
		return chat.Reply{}, err
	}
	if d.Move != nil {
		if err := t.keepMove(d.Move); err != nil {
			return chat.Reply{}, err
		}
	}
	if t.forWhom() != "" {
		if err := t.tellAgreed(c, agreed, asked, d.Move); err != nil {
			return chat.Reply{}, err
		}
	}
	return private(render.Agreed(agreed.Season, t.today(), t.forWhom())), t.audit("accepted a plan")
}

// tellAgreed tells a lifter what somebody else agreed to. Where the lifter had not
// asked for it, it can be taken back.
func (t *turn) tellAgreed(c course, agreed store.Plan, asked bool, m *move) error {
	blocks := render.Until(upcoming(agreed.Season.Blocks, c.today))
	if asked {
		return t.note(t.about, "Your coach says yes to your plan: "+blocks+".", undo{})
	}
	if m != nil {
		return t.note(t.about, "Your coach moves you to another block. "+m.words()+" The plan: "+blocks+".", undo{"move.back", movedBack{agreed.ID, c.agreed.ID}})
	}
	return t.note(t.about, "A plan was agreed for you: "+blocks+".", undo{does: "plan.back", args: planBack{Plan: agreed.ID, Before: c.agreed.ID}})
}

// namedAtOnce is how many lifters one sentence names.
const namedAtOnce = 12

// names lists what lifters are called; of a crowd the first, and how many more.
func names(all []planner.Lifter) string {
	var out []string
	for _, l := range all {
		out = append(out, render.Called(l))
	}
	return render.Some(out, namedAtOnce)
}
