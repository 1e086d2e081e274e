package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// appointCaptain answers /club captain: makes a member a captain, or ends that.
func appointCaptain(t *turn) (chat.Reply, error) {
	l, err := t.lifterNamed(t.options["member"])
	if err != nil {
		return chat.Reply{}, err
	}
	if t.options["appoint"] == "no" {
		return t.dismiss(l)
	}
	if err := t.stillHere(l); err != nil {
		return chat.Reply{}, err
	}
	if store.IsPlaceholder(l) {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Name a member who writes to me.", "%s has not joined yet", render.Called(l))
	}
	if err := t.tx.Appoint(l.ID, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(l, "You are a captain of the club now: /help club.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	return t.madeCaptain(l, true, "appointed as captain", render.Called(l)+" is a captain now and can do what you can. To hand the club over, dismiss yourself with /club captain member:"+typedName(t.speaker)+" appoint:no.")
}

// dismiss ends an appointment. The club never goes without anybody who runs it.
func (t *turn) dismiss(l planner.Lifter) (chat.Reply, error) {
	all, err := t.tx.Members()
	if err != nil {
		return chat.Reply{}, err
	}
	others := 0
	for _, o := range all {
		if o.Captain && o.ID != l.ID {
			others++
		}
	}
	if others == 0 {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Appoint another captain first.", "%s is the only captain", render.Called(l))
	}
	was, err := t.tx.Dismiss(l.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if !was {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Take the right to manage the server, or the captain's role, from them there.",
			"%s was not appointed here; whoever runs the server is a captain", render.Called(l))
	}
	return t.madeCaptain(l, false, "dismissed as captain", render.Called(l)+" is no longer a captain, unless the server says so.")
}

// madeCaptain keeps the change, writes it down and says it.
func (t *turn) madeCaptain(l planner.Lifter, captain bool, what, text string) (chat.Reply, error) {
	l.Captain = captain
	if err := t.tx.SaveLifter(l, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, l.ID, what, t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: text, Data: map[string]any{"member": render.Called(l), "captain": captain}}), nil
}
