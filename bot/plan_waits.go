package bot

import (
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// sameAgain returns the proposal that is open where a plan that was laid out now is the
// same once more: the yes that was said to it, and the buttons under it, go on to count.
// One that somebody said yes to stands as long as nothing it rests on has changed: days
// that go by shift a week here and there, and are no reason to ask anew.
func (t *turn) sameAgain(c course, p blocks.Plan) (old store.Plan, said, same bool, err error) {
	old, open, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil || !open {
		return old, false, false, err
	}
	a, asked, err := t.tx.Approval(old.ID)
	if err != nil {
		return old, false, false, err
	}
	said = asked && a.State == store.ApprovalWaiting
	d, err := detailOf(old)
	if err != nil || d.Move != nil {
		return old, said, false, err
	}
	parts, err := t.changedSince(c, old)
	if err != nil || slices.Contains(parts, partOff) { // then a yes meant other lifts
		return old, said, false, err
	}
	same = c.samePlan(old, store.Plan{Season: c.season(p)})
	switch {
	case len(parts) == 0:
		return old, said, same || said, nil
	case same:
		n, err := t.replaced(c, old, p, parts, "")
		return n.plan, said, n.same, err
	}
	return old, said, false, nil
}

// proposeAnew keeps p as the proposal, unless the open one is the same. lost says that
// a yes was said to the one that it takes the place of.
func (t *turn) proposeAnew(c course, p blocks.Plan) (kept store.Plan, lost string, err error) {
	kept, said, same, err := t.sameAgain(c, p)
	if err != nil || same {
		return kept, "", err
	}
	if said {
		lost = "This plan takes the place of the one that waited for a second yes, so it needs both again.\n"
		if t.forWhom() == "" {
			lost = "This plan takes the place of the one you said yes to, so it needs your yes again.\n"
		}
	}
	kept, err = t.propose(c, p)
	return kept, lost, err
}

// waits is how far a proposal has come that one side has said yes to; zero where nobody
// has.
type waits struct {
	other string // who has to say yes still, where the speaker's side has; else empty
	mine  bool   // it is for the speaker to say the second yes
	coach bool   // the yes that is missing is a coach's
}

// waitsFor tells whose yes a proposal waits for.
func (t *turn) waitsFor(p store.Plan) (w waits, err error) {
	a, asked, err := t.tx.Approval(p.ID)
	if err != nil || !asked || a.State != store.ApprovalWaiting {
		return w, err
	}
	w.coach = a.Wants == store.CoachDecides
	other, _, err := t.missing(p)
	if err != nil || other != a.Wants {
		w.mine = true
		return w, err
	}
	if !w.coach {
		w.other = t.forWhom()
		return w, nil
	}
	coaches, err := nudge.CoachesOf(t.tx, t.about)
	w.other = t.word("your", "their") + " coach, " + names(coaches)
	return w, err
}

// whose names what a proposal waits for.
func (w waits) whose() string {
	switch {
	case w.other != "":
		return w.other
	case w.mine:
		return "your yes"
	}
	return "a yes"
}

// into puts into the view of a proposal that it waits, and for whom.
func (w waits) into(v *render.SeasonView) {
	switch {
	case w.other != "" && w.coach:
		v.Title = "Proposed plan, waits for your coach"
	case w.mine && w.coach:
		v.Title = "Proposed plan, waits for your yes"
	}
	if w.other != "" {
		v.Before = addLine(v.Before, "Your yes is kept. It waits for "+w.other+".")
	}
}

// addLine puts a line behind a text that may be empty.
func addLine(text, line string) string {
	if text == "" {
		return line
	}
	return text + "\n" + line
}

// settling are the buttons under a proposal: a yes and a no, or a way back for who has
// said yes already.
func (t *turn) settling(c course, p store.Plan, w waits) ([]chat.Button, error) {
	if w.other != "" {
		b, err := t.button("Withdraw", "plan.withdraw", planArgs{p.ID}, t.speaker)
		return []chat.Button{b}, err
	}
	yes, err := t.button("Accept plan", "plan.accept", planArgs{p.ID}, t.speaker)
	if err != nil {
		return nil, err
	}
	if w.mine && w.coach { // a coach's no is told with its reason
		no, err := t.button(clipLabel("Decline "+render.Called(t.about)), "plan.refuse", approvalArgs{Plans: []store.PlanID{p.ID}}, t.speaker)
		return []chat.Button{yes, no}, err
	}
	decline := "Not now"
	if c.has {
		decline = "Keep my plan"
	}
	no, err := t.button(decline, "plan.decline", planArgs{p.ID}, t.speaker)
	return []chat.Button{yes, no}, err
}

// withdrawPressed answers 'Withdraw': the plan and the yes that was said to it go.
func withdrawPressed(t *turn, b store.Button) (chat.Reply, error) {
	return t.settlePlan(b, func(p store.Plan) (chat.Reply, error) {
		w, err := t.waitsFor(p)
		if err != nil {
			return chat.Reply{}, err
		}
		text := "Withdrawn."
		if w.other != "" {
			text = "Withdrawn: it no longer waits for " + w.other + "."
		}
		text += " /season build makes a new proposal whenever you like."
		return private(chat.Message{Text: text}), t.tx.DeclinePlan(p.ID, t.now)
	})
}
