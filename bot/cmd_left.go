package bot

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// leftKeeps is how long the data of somebody who left is kept, for their return or a
// copy of it.
const leftKeeps = 30 * 24 * time.Hour

// leftClub answers /club left: a member has left, or is back.
func leftClub(t *turn) (chat.Reply, error) {
	if t.options["lifter"] == "" || t.about.ID == t.speaker.ID {
		return chat.Reply{}, planner.Errorf(planner.Invalid, usage(*t.command), "Say who has left: lifter:, somebody else than you")
	}
	who := render.Called(t.about)
	if store.IsPlaceholder(t.about) {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "/club placeholders name:\""+who+"\" erase:yes erases them.", "%s has not joined, so they cannot leave", who)
	}
	if t.options["back"] == "yes" {
		was, err := t.tx.Returned(t.about.ID, t.now)
		if err != nil {
			return chat.Reply{}, err
		}
		if !was {
			return chat.Reply{}, planner.Errorf(planner.Conflict, "", "%s has not left", who)
		}
		return private(chat.Message{Text: who + " is back, with everything as it was.", Data: map[string]any{"left": false}}), t.audit("noted as back")
	}
	at, left, err := t.tx.Left(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if !left {
		at = t.now
		if err := t.tx.MarkLeft(t.about.ID, t.speaker.ID, t.now); err != nil {
			return chat.Reply{}, err
		}
		if err := t.audit("noted as having left"); err != nil {
			return chat.Reply{}, err
		}
	}
	ends := t.goesOn(at)
	text := who + " has left: I tell nothing to or about them. Their data is kept until " + ends.Long() + " and then erased. " +
		"A word from them to me, or back:yes, undoes this; /mydata export with lifter: gives them a copy."
	return private(chat.Message{Text: text, Data: map[string]any{"left": true, "erased_on": ends}}), nil
}

// stillHere refuses somebody who has left.
func (t *turn) stillHere(l planner.Lifter) error {
	_, left, err := t.tx.Left(l.ID)
	if err == nil && left {
		err = planner.Errorf(planner.Conflict, "/club left lifter:"+typedName(l)+" back:yes brings them back.", "%s has left the club", render.Called(l))
	}
	return err
}

// goesOn is the day on which the data of somebody who left at a moment is erased.
func (t *turn) goesOn(at time.Time) planner.Date { return t.dayOf(planner.Lifter{}, at.Add(leftKeeps)) }

// back notes that somebody who had left speaks again.
func (t *turn) back() error {
	was, err := t.tx.Returned(t.speaker.ID, t.now)
	if err != nil || !was {
		return err
	}
	about := t.about.ID == t.speaker.ID
	if t.speaker, err = t.tx.Lifter(t.speaker.ID); about {
		t.about = t.speaker
	}
	return err
}

// standing adds to a lifter's row on the board that they have not joined yet. Of
// somebody who has left it says only that.
func (t *turn) standing(id planner.LifterID, flags []string) (_ []string, left bool, err error) {
	at, left, err := t.tx.Left(id)
	if err != nil {
		return flags, false, err
	}
	if left {
		return []string{"has left; data goes on " + t.goesOn(at).Short()}, true, nil
	}
	p, waits, err := t.tx.Placeholder(id)
	switch {
	case err != nil || !waits:
		return flags, false, err
	case p.Claims != 0:
		return append(flags, "not joined yet; a claim waits for you"), false, nil
	}
	return append(flags, "not joined yet"), false, nil
}

// undelivered says which channels took no posts lately; empty where all did.
func (t *turn) undelivered() (string, error) {
	posts, err := t.tx.Undelivered(nudge.ReasonUndelivered, t.now.Add(-unreachableFor))
	var lines []string
	for _, channel := range slices.Sorted(maps.Keys(posts)) {
		lines = append(lines, fmt.Sprintf("%s to %s could not be made lately. See that the channel is there and that I may post in it, or choose another with /club settings or /club desk.", render.Count(posts[channel], "post"), channel))
	}
	return strings.Join(lines, "\n"), err
}

// unreachableFor is how far back a direct message that could not be sent is worth a
// captain's look.
const unreachableFor = 14 * 24 * time.Hour

// unreached lists the members whom direct messages did not reach lately.
func (t *turn) unreached(reason string) (map[string]bool, error) {
	handles, err := t.tx.Unreachable(reason, t.now.Add(-unreachableFor))
	out := map[string]bool{}
	for _, h := range handles {
		out[h] = true
	}
	return out, err
}
