package bot

import (
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// seatParams are what /club placeholders takes.
func seatParams() []Param {
	return []Param{
		{Name: "name", About: "one of them", Positional: true},
		{Name: "is", About: "the member that this one turned out to be"},
		{Name: "erase", About: "yes: erase this one", Choices: yesNo},
	}
}

// showSeats answers /club placeholders: who was added and has not joined, who says
// to be one of them, and the yes or no to that.
func showSeats(t *turn) (chat.Reply, error) {
	name, given := t.options["name"]
	is, merge := t.options["is"]
	erase := t.options["erase"] == "yes"
	if !given {
		if merge || erase {
			return chat.Reply{}, planner.Errorf(planner.Invalid, t.command.Example, "Say of whom: name:")
		}
		return t.seatList("")
	}
	l, err := t.seatCalled(name)
	if err != nil {
		return chat.Reply{}, err
	}
	switch {
	case merge:
		return t.offerMerge(l, is)
	case erase:
		b, err := t.button("Erase "+l.Name, "seat.erase", seatArgs{Seat: l.ID}, t.speaker)
		return private(chat.Message{Title: "Erase " + l.Name + "?", Text: "Profile, meets, plan and sets that were kept for " + l.Name + " go for good.", Buttons: []chat.Button{b}}), err
	}
	return t.seatList(l.Name)
}

// offerMerge asks whether a placeholder and a member are one person.
func (t *turn) offerMerge(l planner.Lifter, name string) (chat.Reply, error) {
	who, err := t.lifterNamed(name)
	if err != nil {
		return chat.Reply{}, err
	}
	if store.IsPlaceholder(who) {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Name a member who writes to me.", "%s has not joined either", render.Called(who))
	}
	if err := t.mayTakeOver(who); err != nil {
		return chat.Reply{}, err
	}
	b, err := t.button("Yes, "+parse.Clean(render.Called(who))+" is "+l.Name, "claim.yes", seatArgs{l.ID, who.ID}, t.speaker)
	return private(chat.Message{Title: "One person?", Text: mergeText(l, who), Buttons: []chat.Button{b}}), err
}

// mayTakeOver refuses to hand over to somebody who has left: what is theirs is erased a
// while after that, and what was kept for the placeholder with it.
func (t *turn) mayTakeOver(who planner.Lifter) error {
	_, left, err := t.tx.Left(who.ID)
	if err == nil && left {
		err = planner.Errorf(planner.Conflict, "Say no, or wait: whoever writes to me again is back, and then you can say yes.",
			"%s has left the club: what you handed over would be erased with the rest of theirs", parse.Clean(render.Called(who)))
	}
	return err
}

// mergeText says what a yes does.
func mergeText(l, who planner.Lifter) string {
	return "What was kept for " + l.Name + " goes to " + parse.Clean(render.Called(who)) + ": profile, meets, plan, sets. What they told me themselves stays. It can be taken back for a week."
}

// mostClaims is how many claims are shown with buttons: two for each.
const mostClaims = 10

// seatList lists the placeholders, or one of them.
func (t *turn) seatList(only string) (chat.Reply, error) {
	all, err := t.tx.Placeholders()
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Added, not joined yet"}
	rows := []map[string]any{}
	var lines []string
	for _, p := range all {
		l, err := t.tx.Lifter(p.Lifter)
		if err != nil {
			return chat.Reply{}, err
		}
		if only != "" && l.Name != only {
			continue
		}
		line, row := l.Name, map[string]any{"name": l.Name, "claimed_by": nil}
		if p.Claims != 0 {
			who, err := t.tx.Lifter(p.Claims)
			if err != nil {
				return chat.Reply{}, err
			}
			line += ": " + parse.Clean(render.Called(who)) + " says to be them"
			if _, left, err := t.tx.Left(who.ID); err != nil {
				return chat.Reply{}, err
			} else if left {
				line += ", and has left the club"
			}
			row["claimed_by"] = who.Handle
			if err := t.claimButtons(&m, l, who); err != nil {
				return chat.Reply{}, err
			}
		}
		lines, rows = append(lines, line), append(rows, row)
	}
	m.Text = shortened(lines)
	if len(lines) == 0 {
		m.Text = "Nobody: everybody on your lists has joined."
	} else {
		m.Text += "\nYou and their coach plan and log for them by name. A yes gives what is kept to the member, and can be taken back for a week."
	}
	m.Data = map[string]any{"placeholders": rows}
	return private(m), nil
}

// addClaims adds for a captain the yes and the no to every claim that waits.
func (t *turn) addClaims(m *chat.Message) error {
	if !t.speaker.Captain {
		return nil
	}
	all, err := t.tx.Placeholders()
	if err != nil {
		return err
	}
	for _, p := range all {
		if p.Claims == 0 {
			continue
		}
		l, err := t.tx.Lifter(p.Lifter)
		if err != nil {
			return err
		}
		who, err := t.tx.Lifter(p.Claims)
		if err != nil {
			return err
		}
		if err := t.claimButtons(m, l, who); err != nil {
			return err
		}
	}
	return nil
}

// claimButtons adds the yes and the no to a claim.
func (t *turn) claimButtons(m *chat.Message, l, who planner.Lifter) error {
	if len(m.Buttons) >= 2*mostClaims {
		return nil
	}
	called := parse.Clean(render.Called(who))
	yes, err := t.button("Yes, "+called+" is "+l.Name, "claim.yes", seatArgs{l.ID, who.ID}, t.speaker)
	if err != nil {
		return err
	}
	no, err := t.button("No, "+called+" is not "+l.Name, "claim.no", seatArgs{l.ID, who.ID}, t.speaker)
	m.Buttons = append(m.Buttons, yes, no)
	return err
}

// claimAgreed answers a captain's yes: the member takes over what was kept.
func claimAgreed(t *turn, b store.Button) (chat.Reply, error) {
	l, who, err := t.claimPair(b)
	if err == nil {
		err = t.mayTakeOver(who)
	}
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.TakeOver(l.ID, who.ID, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.nameBack(l, who); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, who.ID, "gave over what was kept before they joined", t.now); err != nil {
		return chat.Reply{}, err
	}
	what := "What was kept for you before you joined is yours now: see /me, /meet and /season. Not you? 'Look' takes it back."
	if err := t.note(who, what, undo{"claim.back", struct{}{}}); err != nil {
		return chat.Reply{}, err
	}
	back, err := t.button("Take it back", "claim.back", seatArgs{Account: who.ID}, t.speaker)
	text := "Done: what was kept for " + l.Name + " is " + parse.Clean(render.Called(who)) + "'s now. They are told in private."
	if who.ID == t.speaker.ID {
		text = "Done: what was kept for " + l.Name + " is yours now."
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: text, Buttons: []chat.Button{back}, Data: map[string]any{"taken_over": who.Handle}}}, err
}

// nameBack calls a member by the name that the placeholder had, where they were given
// a number behind it at joining only because the placeholder had it.
func (t *turn) nameBack(l, who planner.Lifter) error {
	number, numbered := strings.CutPrefix(who.Name, l.Name+" ")
	if _, err := strconv.Atoi(number); !numbered || err != nil {
		return nil
	}
	now, err := t.tx.Lifter(who.ID)
	if err != nil {
		return err
	}
	now.Name = l.Name
	return t.tx.SaveLifter(now, t.now)
}

// claimPair reads the two that a button says are one, as long as both are there.
func (t *turn) claimPair(b store.Button) (l, who planner.Lifter, err error) {
	a, err := args[seatArgs](b)
	if err == nil {
		err = t.captainOnly("That")
	}
	if err != nil {
		return l, who, err
	}
	p, waits, err := t.tx.Placeholder(a.Seat)
	if err == nil && (!waits || p.Claims != 0 && p.Claims != a.Account) {
		err = planner.Errorf(planner.Conflict, "Look at /club placeholders.", "That is settled already, or somebody else has claimed it since")
	}
	if err != nil {
		return l, who, err
	}
	if l, err = t.tx.Lifter(a.Seat); err == nil {
		who, err = t.tx.Lifter(a.Account)
	}
	if err == nil {
		err = t.tx.ForgetNotes(claimText(l, who)) // decided: the other captains need not be asked any more
	}
	return l, who, err
}

// claimRefused answers a captain's no.
func claimRefused(t *turn, b store.Button) (chat.Reply, error) {
	l, who, err := t.claimPair(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if _, err := t.tx.Claim(l.ID, 0); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, who.ID, "said no to a claim", t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(who, "Your captain says that you are not the "+l.Name+" they added. Talk to them if you are.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Noted: " + parse.Clean(render.Called(who)) + " is not " + l.Name + ". They are told in private.", Data: map[string]any{"claim": "no"}}}, nil
}

// claimUndone takes a takeover back for a captain.
func claimUndone(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[seatArgs](b)
	if err == nil {
		err = t.captainOnly("That")
	}
	if err != nil {
		return chat.Reply{}, err
	}
	who, err := t.tx.Lifter(a.Account)
	if err != nil {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /club placeholders.", "Nobody is there any more to take it back from")
	}
	text, err := t.takeBack(who)
	if err != nil {
		return chat.Reply{}, err
	}
	err = t.note(who, "What came to you from before you joined was taken back: it was not yours.", undo{})
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: text, Data: map[string]any{"taken_back": true}}}, err
}

// takeClaimBack takes a takeover back for the lifter it came to.
func takeClaimBack(t *turn, _ store.Note) (string, error) {
	text, err := t.takeBack(t.speaker)
	if err != nil {
		return "", err
	}
	return text, t.tellCaptains(parse.Clean(render.Called(t.speaker)) + " took back what was kept before they joined: it was not theirs. /club placeholders shows it again.")
}

func (t *turn) takeBack(who planner.Lifter) (string, error) {
	id, err := t.tx.TakeBack(who.ID, t.now)
	if err != nil {
		return "", err
	}
	l, err := t.tx.Lifter(id)
	if err != nil {
		return "", err
	}
	if err := t.tx.Audit(t.speaker.ID, who.ID, "took back what was kept before they joined", t.now); err != nil {
		return "", err
	}
	return strings.TrimSpace("Taken back: " + l.Name + " is back on the list as before, with what came from there. What was logged or planned since stays where it is."), nil
}

// stillWaits is nil while somebody is a placeholder, else a conflict in the words given.
func (t *turn) stillWaits(seat planner.LifterID, hint, gone string) error {
	_, waits, err := t.tx.Placeholder(seat)
	if err == nil && !waits {
		return planner.Errorf(planner.Conflict, hint, "%s", gone)
	}
	return err
}

// eraseSeat erases a placeholder.
func eraseSeat(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[seatArgs](b)
	if err == nil {
		err = t.captainOnly("That")
	}
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.stillWaits(a.Seat, "Look at /club placeholders.", "They have joined, or are erased already"); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.EraseLifter(a.Seat); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "erased a lifter who had not joined", t.now); err != nil {
		return chat.Reply{}, err
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Erased, with everything that was kept for them.", Data: map[string]any{"erased": true}}}, nil
}
