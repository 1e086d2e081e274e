package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// asPlain tells whether an error is one that a person may read.
func asPlain(err error, e **planner.Error) bool { return err != nil && errors.As(err, e) }

// seatArgs is what a button about a placeholder carries.
type seatArgs struct {
	Seat    planner.LifterID `json:"seat"`
	Account planner.LifterID `json:"account,omitempty"`
}

// claimSeat answers /me claim: the speaker says to be a lifter who was added
// before they joined. A captain has the last word.
func claimSeat(t *turn) (chat.Reply, error) {
	name, given := t.options["name"]
	if !given {
		return t.offerSeat()
	}
	p, err := t.seatCalled(name)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.claim(p)
}

// claimPressed answers 'That is me'.
func claimPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[seatArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.stillWaits(a.Seat, "", "That is settled already"); err != nil {
		return chat.Reply{}, err
	}
	p, err := t.tx.Lifter(a.Seat)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.claim(p)
}

// offerSeat offers the placeholder who is called like the speaker.
func (t *turn) offerSeat() (chat.Reply, error) {
	b, found, err := t.thatIsMe()
	if err != nil {
		return chat.Reply{}, err
	}
	if !found {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Ask your captain under which name, then: "+t.command.Example,
			"Nobody of your name was added before joining")
	}
	return private(chat.Message{Text: "Somebody of your name was added before you joined. Is that you?", Buttons: []chat.Button{b}}), nil
}

// thatIsMe makes the button by which the speaker claims the placeholder of their own
// name; false where there is none, or where it is claimed.
func (t *turn) thatIsMe() (chat.Button, bool, error) {
	all, err := t.tx.Placeholders()
	if err != nil || store.IsPlaceholder(t.speaker) {
		return chat.Button{}, false, err
	}
	for _, p := range all {
		l, err := t.tx.Lifter(p.Lifter)
		if err != nil {
			return chat.Button{}, false, err
		}
		own := []string{t.speaker.Name, t.speaker.Handle, parse.Clean(t.event.Author.Name)}
		if p.Claims != 0 || !slices.ContainsFunc(own, func(n string) bool { return strings.EqualFold(n, l.Name) }) {
			continue
		}
		b, err := t.button("That is me: "+l.Name, "claim.make", seatArgs{Seat: l.ID}, t.speaker)
		return b, true, err
	}
	return chat.Button{}, false, nil
}

// seatCalled finds a placeholder by name. Names are not guessed: whoever was added
// has not said who may read that.
func (t *turn) seatCalled(name string) (planner.Lifter, error) {
	all, err := t.tx.Placeholders()
	if err != nil {
		return planner.Lifter{}, err
	}
	for _, p := range all {
		l, err := t.tx.Lifter(p.Lifter)
		if err != nil || strings.EqualFold(l.Name, strings.TrimSpace(name)) {
			return l, err
		}
	}
	return planner.Lifter{}, planner.Errorf(planner.NotFound, "Ask your captain under which name you were added.", "Nobody called %q was added before joining", parse.Clean(name))
}

// claim keeps that the speaker says to be a placeholder.
func (t *turn) claim(l planner.Lifter) (chat.Reply, error) {
	all, err := t.tx.Placeholders()
	if err != nil {
		return chat.Reply{}, err
	}
	for _, p := range all {
		switch {
		case p.Lifter == l.ID && p.Claims != 0 && p.Claims != t.speaker.ID:
			return chat.Reply{}, planner.Errorf(planner.Conflict, "Your captain decides; talk to them if it is you.", "Somebody has said so of %s already", l.Name)
		case p.Lifter != l.ID && p.Claims == t.speaker.ID:
			return chat.Reply{}, planner.Errorf(planner.Conflict, "Your captain decides on that first.", "You have said already that you are somebody else")
		}
	}
	if _, err := t.tx.Claim(l.ID, t.speaker.ID); err != nil {
		return chat.Reply{}, err
	}
	if t.speaker.Captain {
		return t.seatList("")
	}
	if err := t.tellCaptains(claimText(l, t.speaker)); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Your captain is asked. Once they say yes, what was kept for " + l.Name + " is yours: profile, meets, plan, sets.",
		Data: map[string]any{"claims": l.Name}}), nil
}

// claimText is what captains are told of a claim.
func claimText(l, who planner.Lifter) string {
	return fmt.Sprintf("%s says to be %s, whom you added before they joined. Say yes or no under Look, or with /club placeholders.", parse.Clean(render.Called(who)), l.Name)
}

// tellCaptains notes something for every captain but the speaker.
func (t *turn) tellCaptains(what string) error {
	all, err := t.tx.Lifters()
	if err != nil {
		return err
	}
	for _, l := range all {
		if !l.Captain {
			continue
		}
		if err := t.note(l, what, undo{}); err != nil {
			return err
		}
	}
	return nil
}
