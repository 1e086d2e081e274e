package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// trendActions names what the buttons under nudges about training do.
func trendActions() map[string]action {
	return map[string]action{
		"stall.lift":   {run: stalledShown, again: true},
		"stall.coach":  {run: stalledTold},
		"nudge.fine":   {run: finePressed, again: true},
		"fit.own":      {run: ownPressed, again: true},
		"tired.easier": {run: easierPressed, again: true},
		"stale.sooner": {run: soonerPressed},
	}
}

// liftPressed is the lift that a button under a nudge is about.
func (t *turn) liftPressed(b store.Button) (planner.Lift, error) {
	own, err := t.settled(b)
	if err != nil {
		return "", err
	}
	for _, s := range own {
		if s.Lift != "" {
			return s.Lift, nil
		}
	}
	return "", planner.Errorf(planner.NotFound, "/lift squat shows a lift.", "I no longer know which lift that was about")
}

// stalledShown answers 'Show the lift'.
func stalledShown(t *turn, b store.Button) (chat.Reply, error) {
	lift, err := t.liftPressed(b)
	if err != nil {
		return chat.Reply{}, err
	}
	t.about, t.options["lift"] = t.speaker, string(lift)
	return showLift(t)
}

// stalledTold answers 'Tell my coach': the coach reads in private, at the next hour,
// what the lifter was told.
func stalledTold(t *turn, b store.Button) (chat.Reply, error) {
	lift, err := t.liftPressed(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if t.speaker.Coach == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Show them /lift "+string(lift)+".", "Nobody is set as your coach")
	}
	coach, err := t.tx.Lifter(t.speaker.Coach)
	if err != nil {
		return chat.Reply{}, err
	}
	all, err := t.tx.Readings(t.speaker.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	what := "Would like to talk about the " + string(lift) + "."
	for _, r := range all {
		if r.Lift == lift {
			what += " " + r.Reason
		}
	}
	if err := t.note(coach, what, undo{}); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: render.Called(coach) + " hears of it in private. Nothing changes before you two have talked."}), nil
}

// finePressed answers 'All right': it was read, and nothing is to be done.
func finePressed(*turn, store.Button) (chat.Reply, error) {
	return private(chat.Message{Text: "Good. Nothing changes, and I do not bring this up again soon."}), nil
}

// ownPressed answers 'I train by my own plan'.
func ownPressed(t *turn, _ store.Button) (chat.Reply, error) {
	return t.retrain(func(tr *store.Training) string {
		tr.Weeks = store.OwnWeeks
		return "Your weeks are your own from now on: I prescribe nothing and compare nothing. Back any time: /week weeks:bot."
	})
}

// easierPressed answers 'Take it easier'.
func easierPressed(t *turn, _ store.Button) (chat.Reply, error) {
	return t.retrain(func(tr *store.Training) string {
		tr.Cautious = true
		return "Easier from now on: no maximal work in your weeks. /today shows it. Back any time: /week version:standard."
	})
}

// retrain changes how the speaker's weeks are made, and says how.
func (t *turn) retrain(change func(*store.Training) string) (chat.Reply, error) {
	tr, err := t.tx.Training(t.speaker.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	text := change(&tr)
	return private(chat.Message{Text: text}), t.tx.SaveTraining(t.speaker.ID, tr)
}

// soonerPressed answers 'Change sooner': the plan in which the next block begins next
// week is shown, and agreed like any other.
func soonerPressed(t *turn, _ store.Button) (chat.Reply, error) {
	t.about = t.speaker
	c, err := t.course(t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	if c.at.Index < 0 || c.at.Next < 0 {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /block to see where you are.", "No block follows the one you are in")
	}
	next, start := c.agreed.Season.Blocks[c.at.Next], c.today.AddDays(1).OnOrAfter(t.club.WeekStart)
	if next.Start <= start {
		return private(chat.Message{Text: "Your " + render.BlockName(next.Kind) + " begins " + next.Start.Short() + " anyway."}), nil
	}
	p := store.Pin{Lifter: t.about.ID, Number: c.at.Next + 1, Kind: next.Kind, Start: start, By: t.speaker.ID, Until: c.pinEnd()}
	return t.keepPin(c, p, "Fixed: "+render.PinText(fixed(p))+". Let go of it with /season unpin.")
}
