package bot

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/parse/sheet"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// exportData answers /mydata export with one JSON file.
func exportData(t *turn) (chat.Reply, error) {
	all, err := t.everything()
	if err != nil {
		return chat.Reply{}, err
	}
	raw, err := json.MarshalIndent(all, "", "  ")
	if err != nil {
		return chat.Reply{}, fmt.Errorf("export of lifter %d: %w", t.about.ID, err)
	}
	if err := t.audit("exported the data"); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{
		Title: "Your data", Text: "Everything I keep about " + render.Called(t.about) + ", as JSON.",
		Files: []chat.File{{Name: "my-data.json", Bytes: append(raw, '\n'), Alt: "all data kept about the lifter, as JSON"}},
		Data:  map[string]any{"bytes": len(raw) + 1},
	}), nil
}

// exportLog answers /log export with one table of all sets that count.
func exportLog(t *turn) (chat.Reply, error) {
	all, err := t.tx.Sets(t.about.ID, 1, t.today().AddDays(1))
	if err != nil {
		return chat.Reply{}, err
	}
	sets := slices.DeleteFunc(all, func(s planner.Set) bool { return s.Pending })
	if len(sets) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Log one by writing it, for example: squat 140x5 @8", "There is no logged set yet")
	}
	var b bytes.Buffer
	if err := sheet.Write(&b, sets); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("exported the log"); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{
		Title: "The log", Text: render.Count(len(sets), "line") + " as a table; weights in kg.",
		Files: []chat.File{{Name: "my-log.csv", Bytes: b.Bytes(), Alt: "all logged sets as a table"}},
		Data:  map[string]any{"lines": len(sets), "bytes": b.Len()},
	}), nil
}

// everything gathers what is kept about a lifter.
func (t *turn) everything() (map[string]any, error) {
	id := t.about.ID
	public, err := t.tx.LifterPublic(id)
	if err != nil {
		return nil, err
	}
	meets, err := t.tx.Meets(id)
	if err != nil {
		return nil, err
	}
	sets, err := t.tx.Sets(id, 1, t.today().AddDays(1))
	if err != nil {
		return nil, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return nil, err
	}
	var weights []store.Bodyweight
	var without []string
	if hidden {
		// Plans keep what the planner said of the class, and facts that a nudge came.
		without = []string{"lifters", "bodyweights", "checkins", "plans", "facts"}
	} else if weights, err = t.tx.Bodyweights(id, 1, t.today().AddDays(1)); err != nil {
		return nil, err
	}
	if t.about.ID != t.speaker.ID {
		// The number of a licence is for the lifter alone; what came at joining holds a
		// profile with its bodyweight.
		without = append(without, "licences", "takeovers")
	}
	var kept bytes.Buffer
	if err := t.tx.ExportLifter(&kept, id, without...); err != nil {
		return nil, err
	}
	plans, err := t.tx.Plans(id)
	if err != nil {
		return nil, err
	}
	return map[string]any{
		"profile": render.Profile(masked(t.about, hidden), public).Data, "kept": json.RawMessage(kept.Bytes()), "meets": render.Meets(meets, t.today(), t.about.Unit).Data,
		"sets": t.setData(sets), "bodyweights": bodyweightRows(weights), "plans": planRows(plans),
	}, nil
}

func bodyweightRows(all []store.Bodyweight) []map[string]any {
	rows := []map[string]any{}
	for _, w := range all {
		rows = append(rows, map[string]any{"date": w.Day, "kg": w.Mass.Kg()})
	}
	return rows
}

func planRows(all []store.Plan) []map[string]any {
	rows := []map[string]any{}
	for _, p := range all {
		rows = append(rows, map[string]any{"version": p.Version, "state": p.State, "built": p.Built, "blocks": p.Season.Blocks, "meets": p.Season.Meets})
	}
	return rows
}

// eraseData answers /mydata erase: it asks once more.
func eraseData(t *turn) (chat.Reply, error) {
	erase, err := t.button("Erase everything", "data.erase", lifterArgs{t.speaker.ID}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{
		Title:   "Erase everything?",
		Text:    "Your profile, meets, plans, sets and bodyweights go for good; nobody can bring them back. /mydata export gives you a copy first.",
		Buttons: []chat.Button{erase},
	}), nil
}

// erasePressed erases the lifter who pressed.
func erasePressed(t *turn, _ store.Button) (chat.Reply, error) {
	if err := t.tx.EraseLifter(t.speaker.ID); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Erased. If you write to me again, you begin anew.", Data: map[string]any{"erased": true}}), nil
}

// assignLifter answers /club assign: who coaches a lifter, and the group.
func assignLifter(t *turn) (chat.Reply, error) {
	if t.options["lifter"] == "" {
		return chat.Reply{}, planner.Errorf(planner.Invalid, usage(*t.command), "/club assign needs lifter:")
	}
	l := t.about
	if v, ok := t.options["coach"]; ok {
		coach, err := t.coachNamed(v)
		if err != nil {
			return chat.Reply{}, err
		}
		l.Coach = coach
	}
	if v, ok := t.options["group"]; ok {
		if len([]rune(v)) > 24 || !callable.MatchString(v) {
			return chat.Reply{}, planner.Errorf(planner.Invalid, "Use one to three words, at most 24 characters.", "group: that cannot be a group's name")
		}
		l.Group = v
		if v == "none" {
			l.Group = ""
		}
	}
	if err := t.tx.SaveLifter(l, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tellCoached(l); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("assigned coach or group"); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Saved for " + render.Called(l) + ".", Data: map[string]any{"lifter": l.Handle, "group": l.Group}}), nil
}

// tellCoached tells a lifter whose coach changes who it is from now on and what they
// see, and the coach whom they coach.
func (t *turn) tellCoached(l planner.Lifter) error {
	if l.Coach == t.about.Coach {
		return nil
	}
	who := "a captain"
	if l.Coach != 0 {
		coach, err := t.tx.Lifter(l.Coach)
		if err != nil {
			return err
		}
		who = parse.Clean(render.Called(coach))
		if err := t.note(coach, "You coach "+parse.Clean(render.Called(l))+" from now on: add lifter: to the commands; /club approve shows plans that wait for you.", undo{}); err != nil {
			return err
		}
	}
	return t.note(l, "Your coach is "+who+" from now on, and sees your plan and log. Who sees bodyweight and check-ins is yours to say: /bodyweight seen_by.", undo{})
}

// coachNamed finds a coach; "none" leaves it to the captain.
func (t *turn) coachNamed(v string) (planner.LifterID, error) {
	if v == "none" {
		return 0, nil
	}
	l, err := t.lifterNamed(v)
	if err == nil {
		err = t.stillHere(l)
	}
	if err == nil && store.IsPlaceholder(l) {
		err = planner.Errorf(planner.Invalid, "Name a member who writes to me.", "coach: %s has not joined yet", render.Called(l))
	}
	return l.ID, err
}
