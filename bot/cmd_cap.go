package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// capParams are what a bound takes.
func capParams() []Param {
	return []Param{
		{Name: "kind", About: "the kind of block", Choices: blockWords},
		{Name: "weeks", About: "the most weeks; 0: none of this kind; any: no bound"},
	}
}

// capKind answers /season cap: the longest that a kind of block may be for one
// lifter.
func capKind(t *turn) (chat.Reply, error) {
	if len(t.optionNames()) == 0 {
		return t.showPins("")
	}
	said, err := t.bound(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if _, err := t.build(c); err != nil {
		return chat.Reply{}, err // the turn is rolled back, and the bound with it
	}
	if err := t.note(t.about, "For your plans: "+said, undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("set a bound"); err != nil {
		return chat.Reply{}, err
	}
	return t.replan(change{said: "Kept. " + said, title: "Proposed plan, with the bound", data: map[string]any{"kind": t.options["kind"], "weeks": t.options["weeks"]}})
}

// capClub answers /club cap: the same for everybody. Running plans stay until they
// are built anew.
func capClub(t *turn) (chat.Reply, error) {
	if len(t.optionNames()) == 0 {
		bounds, err := t.tx.Bounds(0)
		return private(render.ClubCaps(mapped(bounds, capOf))), err
	}
	said, err := t.bound(0)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "set a bound for the club", t.now); err != nil {
		return chat.Reply{}, err
	}
	text := "Kept for the club. " + said + " Agreed plans stay as they are; new ones keep to it."
	return private(chat.Message{Text: text, Data: map[string]any{"kind": t.options["kind"], "weeks": t.options["weeks"]}}), nil
}

// bound keeps or forgets a bound; lifter 0 means the club.
func (t *turn) bound(lifter planner.LifterID) (string, error) {
	kind := planner.BlockKind(t.options["kind"])
	if kind == "" || t.options["weeks"] == "" {
		return "", planner.Errorf(planner.Invalid, usage(*t.command), "%s needs kind: and weeks:", t.command.Path())
	}
	if strings.EqualFold(t.options["weeks"], "any") {
		was, err := t.tx.DropBound(lifter, kind)
		if err == nil && !was {
			err = planner.Errorf(planner.NotFound, "", "There is no bound on %s to take away", render.BlockShort(kind))
		}
		return "No bound on " + render.BlockShort(kind) + " any more.", err
	}
	most, err := wholeNumber("weeks", t.options["weeks"], 0, 26)
	if err != nil {
		return "", err
	}
	if most > 0 && most < 3 && kind != planner.Recovery {
		return "", planner.Errorf(planner.Invalid, "Give 0 to have none of this kind.", "weeks: no %s is shorter than 3 weeks", render.BlockShort(kind))
	}
	b := store.Bound{Lifter: lifter, Kind: kind, Most: most, By: t.speaker.ID}
	return render.Sentence(render.BoundText(capOf(b))), t.tx.SetBound(b, t.now)
}
