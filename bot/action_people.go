package bot

import (
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// peopleSent answers the form with a pasted table.
func peopleSent(t *turn, _ store.Button) (chat.Reply, error) {
	if err := t.captainOnly("Adding lifters"); err != nil {
		return chat.Reply{}, err
	}
	for _, o := range t.event.Options {
		if o.Name == "table" {
			return t.readPeople([]byte(o.Value))
		}
	}
	return chat.Reply{}, planner.Errorf(planner.Invalid, "Ask again with /club import.", "There was no table in it")
}

// captainOnly refuses a press by somebody who is no captain any more.
func (t *turn) captainOnly(what string) error {
	if t.speaker.Captain {
		return nil
	}
	return planner.Errorf(planner.Forbidden, "Ask a captain.", "%s is for captains", what)
}

// peopleDropped answers 'Cancel'.
func peopleDropped(_ *turn, _ store.Button) (chat.Reply, error) {
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Cancelled. Nobody was added."}}, nil
}

// putPressed puts the lifters of a table down: those who are still not there.
func putPressed(t *turn, b store.Button) (chat.Reply, error) {
	if err := t.captainOnly("Adding lifters"); err != nil {
		return chat.Reply{}, err
	}
	a, err := args[peopleArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	var put []planner.Lifter
	var plan []planner.LifterID
	var undo peopleArgs
	for _, s := range a.Seats {
		l, fresh, err := t.putDown(s)
		if err != nil {
			return chat.Reply{}, err
		}
		if !fresh {
			continue
		}
		put, undo.IDs = append(put, l), append(undo.IDs, l.ID)
		if s.Meet.Name != "" {
			plan = append(plan, l.ID)
		}
	}
	m := render.PeoplePut(len(put), len(a.Seats)-len(put))
	m.Private = true
	m.Data = map[string]any{"put": handlesOf(put)}
	if len(put) > 0 {
		m.Buttons, err = t.afterPut(plan, undo)
	}
	return chat.Reply{Kind: chat.Update, Message: m}, err
}

// putDown puts one lifter down, unless somebody of that name is there by now.
func (t *turn) putDown(s seat) (l planner.Lifter, fresh bool, err error) {
	if _, there, err := t.lifterWithName(s.Lifter.Name); err != nil || there {
		return l, false, err
	}
	l = s.Lifter
	if l.Coach != 0 {
		if _, err := t.tx.Lifter(l.Coach); err != nil {
			l.Coach = 0 // erased since
		}
	}
	if l.ID, err = t.tx.AddPlaceholder(l, t.now); err != nil {
		return l, false, err
	}
	if s.Meet.Name != "" {
		s.Meet.Lifter = l.ID
		if _, err := t.tx.AddMeet(s.Meet, t.now); err != nil {
			return l, false, err
		}
	}
	if l, err = t.tx.Lifter(l.ID); err != nil {
		return l, false, err
	}
	return l, true, t.tx.Audit(t.speaker.ID, l.ID, "added before they joined", t.now)
}

// afterPut offers what usually comes next, and to take it back.
func (t *turn) afterPut(plan []planner.LifterID, undo peopleArgs) (out []chat.Button, err error) {
	if len(plan) > 0 {
		b, err := t.button(fmt.Sprintf("Lay out plans for %s", render.Count(len(plan), "lifter")), "season.layout", layOutArgs{plan}, t.speaker)
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	b, err := t.button("Undo this import", "people.undo", undo, t.speaker)
	return append(out, b), err
}

func handlesOf(all []planner.Lifter) []string {
	out := []string{}
	for _, l := range all {
		out = append(out, l.Handle)
	}
	return out
}

// undoPeople takes back that lifters were added: those for whom nothing was logged
// or agreed since, and who have not joined.
func undoPeople(t *turn, b store.Button) (chat.Reply, error) {
	if err := t.captainOnly("Adding lifters"); err != nil {
		return chat.Reply{}, err
	}
	a, err := args[peopleArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	gone := 0
	var stay []planner.Lifter
	for _, id := range a.IDs {
		_, waits, err := t.tx.Placeholder(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if !waits {
			continue
		}
		l, err := t.tx.Lifter(id)
		if err != nil {
			return chat.Reply{}, err
		}
		used, err := t.usedSince(id)
		if err != nil {
			return chat.Reply{}, err
		}
		if used {
			stay = append(stay, l)
			continue
		}
		if err := t.tx.EraseLifter(id); err != nil {
			return chat.Reply{}, err
		}
		gone++
	}
	text := "Taken back: " + render.Count(gone, "lifter") + " erased."
	if len(stay) > 0 {
		text += " Kept, since they have sets, a plan or a claim: " + names(stay) + ". /club placeholders erases them one by one."
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: text, Data: map[string]any{"undone": gone, "kept": handlesOf(stay)}}}, nil
}

// usedSince tells whether something was logged, agreed or claimed for a placeholder.
func (t *turn) usedSince(id planner.LifterID) (bool, error) {
	p, _, err := t.tx.Placeholder(id)
	if err != nil || p.Claims != 0 {
		return p.Claims != 0, err
	}
	last, err := t.tx.LastLogged(id)
	if err != nil || !last.IsZero() {
		return !last.IsZero(), err
	}
	_, agreed, err := t.tx.AgreedPlan(id)
	return agreed, err
}
