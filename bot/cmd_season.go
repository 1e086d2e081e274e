package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// planArgs is what the buttons under a proposal carry.
type planArgs struct {
	Plan store.PlanID `json:"plan"`
}

// showSeason answers /season: the agreed plan, or the proposal that waits.
func showSeason(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if !c.has {
		return t.showProposal(c)
	}
	p, err := detailOf(c.agreed)
	if err != nil {
		return chat.Reply{}, err
	}
	if p.Plan, err = t.discreet(p.Plan); err != nil {
		return chat.Reply{}, err
	}
	after, _, err := t.told(c)
	if err != nil {
		return chat.Reply{}, err
	}
	other, fits, err := t.openProposal(c)
	if err != nil {
		return chat.Reply{}, err
	}
	waits := other.ID != 0
	switch {
	case fits:
		w, err := t.waitsFor(other)
		if err != nil {
			return chat.Reply{}, err
		}
		after = append(after, "Another plan waits for "+w.whose()+"; until then this one goes on.")
	case waits:
		after = append(after, "Another plan was proposed, and something changed since. Until you say yes to a new one, this one goes on.")
	}
	v := render.SeasonView{
		Title: t.word("Your plan", "The plan of "+t.forWhom()), Plan: p.Plan, Blocks: c.agreed.Season.Blocks, Meets: c.agreed.Season.Meets, Today: c.today, Running: c.running(),
		Events: c.eventsAhead(), After: strings.Join(after, "\n"),
	}
	if err := t.inKilos(c, &v); err != nil {
		return chat.Reply{}, err
	}
	v.Gains = t.fromToday(c, p.Plan)
	v.Off = nil // told says it
	r := private(render.Season(v))
	if waits {
		b, err := t.button("Show the new plan", "season.waiting", lifterArgs{c.lifter.ID}, t.speaker)
		r.Message.Buttons = []chat.Button{b}
		return r, err
	}
	return r, nil
}

// waitingPressed answers 'Show the new plan' under the plan that runs.
func waitingPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[lifterArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.courseOf(a.Lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.showProposal(c)
}

// showProposal shows the plan that waits for a yes, with its buttons again; laid out
// again where something has changed since it was made.
func (t *turn) showProposal(c course) (chat.Reply, error) {
	proposed, ok, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if !ok && c.has {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "/season shows your plan.", "No other plan waits for a yes")
	}
	if !ok {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Build one with /season build.", "There is no plan yet")
	}
	proposed, instead, err := t.openOrNew(c, proposed)
	if err != nil {
		return chat.Reply{}, err
	}
	if instead != nil {
		return *instead, nil
	}
	p, err := detailOf(proposed)
	if err != nil {
		return chat.Reply{}, err
	}
	title := "Proposed plan, not agreed yet"
	before := ""
	if p.Move != nil {
		before = "Another block is proposed. " + p.Move.words()
	}
	return t.proposal(c, proposed, title, before)
}

// buildSeason answers /season build. With options it tries something out and
// keeps nothing.
func buildSeason(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(t.optionNames()) > 0 {
		return t.whatIf(c)
	}
	return t.proposeSeason(c, "Proposed plan", "")
}

// proposeSeason builds a plan, keeps it as a proposal and shows it.
func (t *turn) proposeSeason(c course, title, before string) (chat.Reply, error) {
	if c.lifter.Level == planner.New {
		return t.learnFirst(c, true)
	}
	p, err := t.build(c)
	if err != nil {
		return chat.Reply{}, err
	}
	if c.stays(p) {
		if err := t.refresh(c, p); err != nil {
			return chat.Reply{}, err
		}
		l, _, err := t.measured(c)
		if err != nil {
			return chat.Reply{}, err
		}
		r, err := showSeason(t)
		r.Message.Title = "Your plan stays as it is"
		r.Message.Text = render.StaysWhy(p, l) + "\n" + r.Message.Text
		return r, err
	}
	kept, lost, err := t.proposeAnew(c, p)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.proposal(c, kept, title, lost+before)
}

// stays tells whether a new plan is the agreed one over again.
func (c course) stays(p blocks.Plan) bool {
	return c.has && sameBlocks(c.season(p).Blocks, c.agreed.Season.Blocks)
}

// proposal shows a proposed plan with the buttons that settle it.
func (t *turn) proposal(c course, kept store.Plan, title, before string) (chat.Reply, error) {
	d, err := detailOf(kept)
	if err != nil {
		return chat.Reply{}, err
	}
	p, err := t.discreet(d.Plan)
	if err != nil {
		return chat.Reply{}, err
	}
	view := render.SeasonView{Title: title, Before: before, Plan: p, Blocks: kept.Season.Blocks, Meets: kept.Season.Meets, Today: c.today, Events: c.eventsAhead()}
	w, err := t.waitsFor(kept)
	if err != nil {
		return chat.Reply{}, err
	}
	w.into(&view)
	if err := t.inKilos(c, &view); err != nil {
		return chat.Reply{}, err
	}
	if c.has {
		view.Old, view.OldMeets = c.agreed.Season.Blocks, c.agreed.Season.Meets
	}
	if who := t.forWhom(); who != "" {
		view.Title = whose(view.Title, who)
	}
	view.After = "Why these dates: /season why. Other plans beside it: /season compare."
	if _, ahead := c.nextMeet(); ahead && !c.lifter.HasCompeted {
		view.After = t.word("Not your", "Not their") + " first meet? /me set competed:yes leaves more room for peaking.\n" + view.After
	}
	m := render.Season(view)
	m.Buttons, err = t.settling(c, kept, w)
	return private(m), err
}

// whose is a title about a plan, for somebody who acts for its lifter.
func whose(title, who string) string {
	if rest, ok := strings.CutPrefix(title, "Your "); ok {
		return who + "'s " + rest
	}
	return title + ", for " + who
}

// whatIf plans for the lifter as the options would make them.
func (t *turn) whatIf(c course) (chat.Reply, error) {
	changed, err := t.profileWith(c.lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	c.lifter = changed
	if changed.Level == planner.New {
		return t.learnFirst(c, false)
	}
	r, err := t.decided(c)
	if err != nil {
		return chat.Reply{}, err
	}
	p, err := blocks.Build(r) // without regard to what is agreed: it is only a try
	if err != nil {
		return chat.Reply{}, err
	}
	if p, err = t.discreet(p); err != nil {
		return chat.Reply{}, err
	}
	s := c.season(p)
	v := render.SeasonView{Title: "What if", Before: "Only a try: nothing is kept.", Plan: p, Blocks: s.Blocks, Meets: s.Meets, Today: c.today, Events: c.eventsAhead()}
	err = t.inKilos(c, &v)
	return private(render.Season(v)), err
}

// acceptSeason answers /season accept.
func acceptSeason(t *turn) (chat.Reply, error) {
	p, ok, err := t.tx.ProposedPlan(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if !ok {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Build one with /season build.", "There is no proposed plan to accept")
	}
	return t.accept(p)
}

// acceptPressed answers the button 'Accept plan'.
func acceptPressed(t *turn, b store.Button) (chat.Reply, error) {
	return t.settlePlan(b, t.accept)
}

// declinePressed answers 'Not now' and 'Keep my plan'.
func declinePressed(t *turn, b store.Button) (chat.Reply, error) {
	return t.settlePlan(b, func(p store.Plan) (chat.Reply, error) {
		if err := t.tx.DeclinePlan(p.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
		text := "Fine, nothing changes. /season build makes a new proposal whenever you like."
		return private(chat.Message{Text: text}), nil
	})
}

// settlePlan runs f on the plan a button carries, as long as it is still open.
func (t *turn) settlePlan(b store.Button, f func(store.Plan) (chat.Reply, error)) (chat.Reply, error) {
	a, err := args[planArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	p, err := t.tx.Plan(a.Plan)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(p.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if p.State == store.PlanReplaced {
		if r, shown, err := t.newerProposal(); err != nil || shown {
			return r, err
		}
	}
	if p.State != store.PlanProposed {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /season, or build a new plan with /season build.", "That proposal was settled before: it is %s", p.State)
	}
	return f(p)
}

// newerProposal answers a button under a proposal that another one has replaced.
func (t *turn) newerProposal() (chat.Reply, bool, error) {
	_, waits, err := t.tx.ProposedPlan(t.about.ID)
	if err != nil || !waits {
		return chat.Reply{}, false, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, false, err
	}
	r, err := t.showProposal(c)
	r.Message.Text = "Something changed since that plan was proposed: here is the new one.\n" + r.Message.Text
	return r, true, err
}

// forWhom is the name of the lifter whom somebody else speaks for; empty when the
// speaker speaks for themselves.
func (t *turn) forWhom() string {
	if t.about.ID == t.speaker.ID {
		return ""
	}
	return render.Called(t.about)
}

// buildPressed answers the button 'Build my plan'.
func buildPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[lifterArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.courseOf(a.Lifter)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.proposeSeason(c, "Proposed plan", "")
}

// lifterArgs is what a button about a lifter carries.
type lifterArgs struct {
	Lifter planner.LifterID `json:"lifter"`
}
