package bot

import (
	"encoding/json"
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// undo is how a lifter takes back what somebody did for them; the zero undo: not at
// all.
type undo struct {
	does string
	args any
}

// note tells a lifter in private what the speaker did for them. Nothing is noted of
// what people do for themselves, nor for who has not joined yet and so reads nothing.
func (t *turn) note(l planner.Lifter, what string, u undo) error {
	if l.ID == t.speaker.ID || store.IsPlaceholder(l) {
		return nil
	}
	args, err := json.Marshal(u.args)
	if err != nil {
		return err
	}
	_, err = t.tx.AddNote(store.Note{Lifter: l.ID, By: t.speaker.ID, What: what, Undo: u.does, Args: args}, t.now)
	return err
}

// undos names everything that a lifter can take back. The names are kept in the
// database, so they must not change.
func undos() map[string]func(*turn, store.Note) (string, error) {
	return map[string]func(*turn, store.Note) (string, error){
		"plan.back":  takePlanBack,
		"move.back":  takeMoveBack,
		"away.drop":  takeAwayBack,
		"lift.back":  takeLiftBack,
		"pin.drop":   takePinBack,
		"log.drop":   takeSetsBack,
		"meet.drop":  takeMeetBack,
		"meet.where": moveMeetBack,
		"claim.back": takeClaimBack,
	}
}

// undone says in words what was taken back.
func undone(does string) string {
	what := map[string]string{"plan": "a plan", "move": "a move to another block", "away": "a time away", "lift": "a lift off the plan", "pin": "something fixed", "log": "logged sets", "meet": "a meet", "claim": "what was kept before they joined"}
	noun, _, _ := strings.Cut(does, ".")
	if w, ok := what[noun]; ok {
		return w
	}
	return "something done for them"
}

// noteArgs is what a button about notes carries.
type noteArgs struct {
	Note store.NoteID `json:"note"`
}

// notesPressed answers 'Look' under a message that something was done for the
// lifter: each thing with a button that takes it back, where one does.
func notesPressed(t *turn, _ store.Button) (chat.Reply, error) {
	all, err := t.tx.NotesSince(t.speaker.ID, t.now.Add(-buttonLife))
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Done for you"}
	fits := false
	for i := len(all) - 1; i >= 0 && len(m.Fields) < 10; i-- {
		f, err := t.noteField(all[i], len(m.Fields)+1)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Fields = append(m.Fields, f)
		if all[i].Undo == "" || !all[i].Undone.IsZero() {
			continue
		}
		b, err := t.button(fmt.Sprintf("Take back %d", len(m.Fields)), "note.undo", noteArgs{all[i].ID}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
		fits = fits || strings.HasPrefix(all[i].Undo, "meet.") || strings.HasPrefix(all[i].Undo, "away.")
	}
	if fits {
		b, err := t.button("Build my plan", "season.build", lifterArgs{t.speaker.ID}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append([]chat.Button{b}, m.Buttons...)
	}
	if err := t.addClaims(&m); err != nil {
		return chat.Reply{}, err
	}
	if len(m.Fields) == 0 {
		m.Text = "Nothing was done for you in the last week."
	}
	return private(m), nil
}

// noteField is one note on screen.
func (t *turn) noteField(n store.Note, number int) (chat.Field, error) {
	by := "somebody who has left"
	if n.By != 0 {
		l, err := t.tx.Lifter(n.By)
		if err != nil {
			return chat.Field{}, err
		}
		by = render.Called(l)
	}
	value := n.What
	if !n.Undone.IsZero() {
		value += " Taken back."
	}
	return chat.Field{Name: fmt.Sprintf("%d: %s, %s", number, by, t.dayOf(t.speaker, n.Made).Short()), Value: value}, nil
}

// undoPressed takes one thing back, once.
func undoPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[noteArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	n, err := t.tx.Note(a.Note)
	if err != nil {
		return chat.Reply{}, err
	}
	take, known := undos()[n.Undo]
	if n.Lifter != t.speaker.ID || !known {
		return chat.Reply{}, planner.Errorf(planner.Forbidden, "", "That cannot be taken back")
	}
	first, err := t.tx.UndoNote(n.ID, t.now)
	if err != nil || !first {
		return private(chat.Message{Text: "Already taken back."}), err
	}
	said, err := take(t, n)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, t.speaker.ID, "took back "+undone(n.Undo), t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: said, Data: map[string]any{"undone": n.Undo}}), nil
}

// noteDetail reads what taking a note back needs.
func noteDetail[T any](n store.Note) (T, error) {
	var v T
	if err := json.Unmarshal(n.Args, &v); err != nil {
		return v, fmt.Errorf("note %d: %w", n.ID, err)
	}
	return v, nil
}

// planBack is what taking an agreed plan back needs: it, and the one before.
type planBack struct {
	Plan   store.PlanID `json:"plan"`
	Before store.PlanID `json:"before"`
}

// takePlanBack lets the plan run again that ran before somebody agreed to another.
func takePlanBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[planBack](n)
	if err != nil {
		return "", err
	}
	now, runs, err := t.tx.AgreedPlan(n.Lifter)
	if err != nil {
		return "", err
	}
	if !runs || now.ID != a.Plan {
		return "", planner.Errorf(planner.Conflict, "Look at /season.", "Another plan has been agreed since")
	}
	if a.Before == 0 {
		return "Taken back. You have no agreed plan now; /season build makes a proposal.", t.tx.WithdrawPlan(a.Plan, t.now)
	}
	before, err := t.tx.Plan(a.Before)
	if err != nil {
		return "", err
	}
	again, err := t.tx.ProposePlan(store.Plan{Lifter: n.Lifter, Season: before.Season, Detail: before.Detail}, t.now)
	if err != nil {
		return "", err
	}
	_, err = t.tx.AgreePlan(again.ID, t.now)
	return "Taken back. Your plan from before runs again.", err
}
