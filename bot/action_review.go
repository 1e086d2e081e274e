package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/planner"
	"blockbell/store"
)

// reviewOf reads which meet a button about a review means.
func (t *turn) reviewOf(b store.Button) (reviewArgs, planner.Meet, error) {
	a, err := args[reviewArgs](b)
	if err != nil {
		return a, planner.Meet{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return a, planner.Meet{}, err
	}
	m, err := t.meetByID(a.Lifter, a.Meet)
	return a, m, err
}

// reviewPressed answers 'Look back' and 'Change': the form.
func reviewPressed(t *turn, b store.Button) (chat.Reply, error) {
	_, m, err := t.reviewOf(b)
	if err != nil {
		return chat.Reply{}, err
	}
	r, _, err := t.tx.Review(m.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.askReview(m, r)
}

// reviewSent answers the filled form as if its lines had been typed after /meet review.
func reviewSent(t *turn, b store.Button) (chat.Reply, error) {
	_, m, err := t.reviewOf(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if t.command, _, err = t.bot.table.find([]string{"meet", "review"}); err != nil {
		return chat.Reply{}, err
	}
	for _, o := range filled(t.event.Options) {
		if o.Name != "lifts" {
			t.options[o.Name] = o.Value
			continue
		}
		counted := liftsOf(m.Event)
		parts := strings.FieldsFunc(o.Value, func(r rune) bool { return strings.ContainsRune(" /;", r) })
		if len(parts) != len(counted) {
			return chat.Reply{}, planner.Errorf(planner.Invalid, "For example 142.5 / 82.5 / 170; 0 is a lift without a good attempt.", "lifts: I need %d numbers in %q", len(counted), parse.Clean(o.Value))
		}
		for i, lift := range counted {
			t.options[string(lift)] = parts[i]
		}
	}
	if len(t.options) == 0 {
		return private(chat.Message{Text: "Nothing was filled in, so nothing was kept."}), nil
	}
	return t.keepReview(m)
}

// reviewMessage stands in the log for the message that a review's lifts came with.
func reviewMessage(m planner.Meet) string { return fmt.Sprintf("meet/%d", m.ID) }

// keepReview keeps what is told of a meet. Its lifts become the result of the meet and
// singles of that day in the log, where the estimates and the next plan find them.
func (t *turn) keepReview(m planner.Meet) (chat.Reply, error) {
	was, had, err := t.tx.Review(m.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	before := reviewBefore{Total: m.ResultTotal, Entered: m.ResultEntered, Bests: map[planner.Lift]planner.Grams{}}
	if had {
		before.Review = &was
	}
	for _, lift := range planner.CompetitionLifts() {
		before.Bests[lift] = t.about.Best(lift)
	}
	r, err := t.reviewWith(m, was)
	if err != nil {
		return chat.Reply{}, err
	}
	if !had {
		if err := t.expectedBefore(m, &r); err != nil {
			return chat.Reply{}, err
		}
	}
	if err := t.tx.SaveReview(m.ID, r, t.now); err != nil {
		return chat.Reply{}, err
	}
	if r.LiftsTold {
		if m, err = t.keepResult(m, r); err != nil {
			return chat.Reply{}, err
		}
	}
	if err := t.audit("looked back on a meet"); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(t.about, "Your coach looked back on "+parse.Clean(m.Name)+" with you: /meet review shows it.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	reply, err := t.showReview(m, r, "Kept")
	if err != nil {
		return chat.Reply{}, err
	}
	back, err := t.button("Take it back", "review.back", reviewArgs{t.about.ID, m.ID, &before}, t.speaker)
	reply.Message.Buttons = append(reply.Message.Buttons, back)
	return reply, err
}

// expectedBefore writes down what the log and the plan let expect the day before.
func (t *turn) expectedBefore(m planner.Meet, r *store.Review) error {
	c, err := t.courseOn(t.about, m.Date.AddDays(-1))
	if err != nil {
		return err
	}
	f, err := t.forecast(c, m)
	r.ExpectedLow, r.ExpectedHigh = f.Low, f.High
	return err
}

// keepResult makes a review's lifts the result of the meet, and logs them.
func (t *turn) keepResult(m planner.Meet, r store.Review) (planner.Meet, error) {
	m.ResultTotal, m.ResultEntered = 0, true
	bombed := false
	var sets []planner.Set
	for _, lift := range liftsOf(m.Event) {
		g := liftMade(r, lift)
		bombed = bombed || g == 0
		m.ResultTotal += g
		if g > 0 {
			sets = append(sets, planner.Set{Day: m.Date, Lift: lift, Weight: g, Reps: 1, Sets: 1, Gear: m.Equipment})
		}
		if better := m.Equipment == planner.Raw || m.Equipment == ""; better && g > t.about.Best(lift) {
			setBest(&t.about, lift, g)
		}
	}
	if bombed {
		m.ResultTotal = 0
	}
	if err := t.tx.SaveMeet(m, t.now); err != nil {
		return m, err
	}
	t.about.HasCompeted = t.about.HasCompeted || m.Kind != planner.Test
	if err := t.tx.SaveLifter(t.about, t.now); err != nil {
		return m, err
	}
	return m, t.logMeet(m, sets)
}

// logMeet puts the lifts of a meet into the log in place of those it had from there.
func (t *turn) logMeet(m planner.Meet, sets []planner.Set) error {
	old, err := t.tx.SetsOfMessage(t.about.ID, reviewMessage(m))
	if err != nil {
		return err
	}
	for _, s := range old {
		if err := t.tx.DropSet(t.about.ID, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return err
		}
	}
	if len(sets) == 0 {
		return nil
	}
	_, err = t.tx.AddSets(t.about.ID, reviewMessage(m), sets, t.now)
	return err
}

// reviewBack takes back what was kept last of a meet.
func reviewBack(t *turn, b store.Button) (chat.Reply, error) {
	a, m, err := t.reviewOf(b)
	if err != nil || a.Before == nil {
		return chat.Reply{}, err
	}
	was := a.Before
	if was.Review == nil {
		err = t.tx.DropReview(m.ID)
	} else {
		err = t.tx.SaveReview(m.ID, *was.Review, t.now)
	}
	if err != nil {
		return chat.Reply{}, err
	}
	if was.Review != nil && was.Review.LiftsTold {
		m, err = t.keepResult(m, *was.Review)
	} else {
		err = t.logMeet(m, nil)
	}
	if err != nil {
		return chat.Reply{}, err
	}
	m.ResultTotal, m.ResultEntered = was.Total, was.Entered
	if err := t.tx.SaveMeet(m, t.now); err != nil {
		return chat.Reply{}, err
	}
	for lift, g := range was.Bests {
		setBest(&t.about, lift, g)
	}
	if err := t.tx.SaveLifter(t.about, t.now); err != nil {
		return chat.Reply{}, err
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Taken back: " + parse.Clean(m.Name) + " stands as it did before.", Data: map[string]any{"taken_back": true}}}, t.audit("took back a look at a meet")
}
