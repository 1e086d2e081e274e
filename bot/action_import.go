package bot

import (
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/parse/sheet"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// waitingImport returns the file that a button is about.
func (t *turn) waitingImport(b store.Button) (a importArgs, d *sheet.Draft, err error) {
	if a, err = args[importArgs](b); err != nil {
		return a, nil, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return a, nil, err
	}
	packed, waits, err := t.tx.ImportDraft(a.Lifter, a.Import)
	if err != nil {
		return a, nil, err
	}
	if !waits {
		return a, nil, planner.Errorf(planner.Conflict, "Send the file again with /log import.", "That file no longer waits for an answer")
	}
	d, err = sheet.Unpack(packed)
	return a, d, err
}

// chooseImport keeps one choice about a file and shows it anew.
func chooseImport(t *turn, b store.Button) (chat.Reply, error) {
	a, d, err := t.waitingImport(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if a.Order != "" {
		d.Order = a.Order
	}
	if a.Unit != "" {
		d.Unit = a.Unit
	}
	d.Unknown = d.Unknown || a.Unknown
	packed, err := d.Pack()
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.SaveDraft(a.Lifter, a.Import, packed); err != nil {
		return chat.Reply{}, err
	}
	r, err := t.preview(importArgs{Lifter: a.Lifter, Import: a.Import}, d)
	r.Kind = chat.Update
	return r, err
}

// dropImport answers 'Cancel'.
func dropImport(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[importArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropImport(a.Lifter, a.Import); err != nil {
		return chat.Reply{}, err
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true, Text: "Cancelled. Nothing of the file is kept."}}, nil
}

// writeImport answers 'Import N sets': everything that is new goes into the log at
// once, or nothing does.
func writeImport(t *turn, b store.Button) (chat.Reply, error) {
	a, d, err := t.waitingImport(b)
	if err != nil {
		return chat.Reply{}, err
	}
	in, err := t.take(d)
	if err != nil {
		return chat.Reply{}, err
	}
	all, sets := make([]store.Imported, len(in.fresh)), make([]planner.Set, len(in.fresh))
	for i, n := range in.fresh {
		all[i], sets[i] = store.Imported{Set: n.Set, Marks: n.Marks}, n.Set
	}
	beaten, err := t.fileBests(sets)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.FinishImport(a.Lifter, a.Import, all, t.now, t.progress(len(all))); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit(fmt.Sprintf("imported %d sets", len(all))); err != nil {
		return chat.Reply{}, err
	}
	undo, err := t.button("Undo this import", "import.undo", importArgs{Lifter: a.Lifter, Import: a.Import}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.Imported(len(all), in.known, len(in.read.Problems), fileBestsText(beaten, t.about.Unit))
	m.Private, m.Buttons = true, []chat.Button{undo}
	m.Data = map[string]any{"imported": len(all), "known": in.known, "refused": len(in.read.Problems), "records": recordData(beaten)}
	return chat.Reply{Kind: chat.Update, Message: m}, nil
}

// fileBestsText names the bests of a file that beat the log.
func fileBestsText(all []newRecord, unit planner.Unit) []string {
	lines := make([]string, len(all))
	for i, r := range all {
		lines[i] = render.Set(r.Set, unit) + " (" + r.Day.Long() + ")"
	}
	return lines
}

// manySets is the number of sets from which writing them takes long enough to show
// how far it has come.
const manySets = 2000

// progress tells each quarter of the way where there is far to go.
func (t *turn) progress(all int) func(done int) {
	if t.event.Progress == nil || all < manySets {
		return nil
	}
	return func(done int) {
		if done < all {
			t.event.Progress(chat.Message{Private: true, Text: fmt.Sprintf("Importing: %d of %d sets …", done, all),
				Data: map[string]any{"progress": map[string]int{"done": done, "all": all}}})
		}
	}
}

// undoImport takes the sets of a file out of the log again.
func undoImport(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[importArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	n, err := t.tx.UndoImport(a.Lifter, a.Import, t.speaker.ID, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit(fmt.Sprintf("took back an import of %d sets", n)); err != nil {
		return chat.Reply{}, err
	}
	return chat.Reply{Kind: chat.Update, Message: chat.Message{Private: true,
		Text: "Taken back: " + render.Count(n, "set") + " of that file are gone from the log.", Data: map[string]any{"undone": n}}}, nil
}
