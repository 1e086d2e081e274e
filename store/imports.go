package store

import (
	"database/sql"
	"fmt"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// ImportID identifies one file of sets of a lifter.
type ImportID int64

// importMessage stands in the place of a message for the sets of a file.
func importMessage(id ImportID) string { return fmt.Sprintf("import/%d", id) }

// AddImport keeps what was read of a file until it expires or the lifter decides. A
// lifter has one file waiting: an earlier one goes.
func (t *Tx) AddImport(lifter planner.LifterID, draft []byte, now, expires time.Time) (ImportID, error) {
	if err := t.q.DropWaiting(t.ctx, lifter); err != nil {
		return 0, err
	}
	id, err := t.q.AddImport(t.ctx, sqlgen.AddImportParams{
		LifterID: lifter, Draft: draft, MadeMs: column.At(now), ExpiresMs: column.At(expires),
	})
	if dangling(err) {
		return 0, noLifter(lifter)
	}
	return ImportID(id), err
}

// ImportDraft returns what was read of a file that still waits.
func (t *Tx) ImportDraft(lifter planner.LifterID, id ImportID) (draft []byte, waits bool, err error) {
	draft, err = t.q.ImportDraft(t.ctx, sqlgen.ImportDraftParams{ID: int64(id), LifterID: lifter})
	if absent(err) {
		return nil, false, nil
	}
	return draft, err == nil, err
}

// SaveDraft replaces what was read of a file that waits; Conflict where it does not.
func (t *Tx) SaveDraft(lifter planner.LifterID, id ImportID, draft []byte) error {
	n, err := t.q.SaveDraft(t.ctx, sqlgen.SaveDraftParams{Draft: draft, ID: int64(id), LifterID: lifter})
	return decided(n, err)
}

// DropImport forgets a file that waits.
func (t *Tx) DropImport(lifter planner.LifterID, id ImportID) error {
	return t.q.DropImport(t.ctx, sqlgen.DropImportParams{ID: int64(id), LifterID: lifter})
}

// ForgetImports forgets the files that nobody decided about and that expired
// before a moment.
func (t *Tx) ForgetImports(before time.Time) error {
	return t.q.ForgetImports(t.ctx, column.At(before))
}

// ImportedMarks returns the digests of all sets that came with files of the lifter.
func (t *Tx) ImportedMarks(lifter planner.LifterID) (map[int64]bool, error) {
	all, err := t.q.ImportedMarks(t.ctx, lifter)
	marks := make(map[int64]bool, len(all))
	for _, m := range all {
		marks[m] = true
	}
	return marks, err
}

// Imported is a set of a file with its digests: one for each time it was done.
type Imported struct {
	Set   planner.Set
	Marks []int64
}

// FinishImport writes the sets of a file into the log and forgets the rest of it.
// After every quarter it tells how many sets are written. Conflict where the
// file does not wait.
func (t *Tx) FinishImport(lifter planner.LifterID, id ImportID, all []Imported, now time.Time, tell func(done int)) error {
	n, err := t.q.FinishImport(t.ctx, sqlgen.FinishImportParams{ID: int64(id), LifterID: lifter})
	if err := decided(n, err); err != nil {
		return err
	}
	w, err := t.importWriter(lifter, id, now)
	if err != nil {
		return err
	}
	defer w.close()
	for i, one := range all {
		if err := w.write(one); err != nil {
			return err
		}
		if step := max(len(all)/4, 1); tell != nil && (i+1)%step == 0 {
			tell(i + 1)
		}
	}
	return nil
}

// UndoImport takes all sets of a file out of the log, corrected ones too, and
// keeps them in the history. It returns how many they were. Conflict where the
// file was never written or is undone already.
func (t *Tx) UndoImport(lifter planner.LifterID, id ImportID, by planner.LifterID, now time.Time) (int, error) {
	n, err := t.q.UndoImport(t.ctx, sqlgen.UndoImportParams{ID: int64(id), LifterID: lifter})
	if err := decided(n, err); err != nil {
		return 0, err
	}
	message := importMessage(id)
	gone, err := t.q.KeepSetsOfImport(t.ctx, sqlgen.KeepSetsOfImportParams{
		ByID: column.Lifter(by), ChangedMs: column.At(now), LifterID: lifter, Message: message,
	})
	if err != nil {
		return 0, err
	}
	if err := t.q.DropSetsOfImport(t.ctx, sqlgen.DropSetsOfImportParams{LifterID: lifter, Message: message}); err != nil {
		return 0, err
	}
	return int(gone), t.q.ForgetMarks(t.ctx, sqlgen.ForgetMarksParams{LifterID: lifter, ImportID: int64(id)})
}

// decided explains a change that met no file in the state it needs.
func decided(n int64, err error) error {
	if err == nil && n == 0 {
		return planner.Errorf(planner.Conflict, "Send the file again with /log import.", "that file no longer waits for an answer")
	}
	return err
}

// importWriter writes sets one after the other with statements that are prepared
// once: a file can have fifty thousand.
type importWriter struct {
	t         *Tx
	lifter    planner.LifterID
	id        ImportID
	written   int64
	last      map[planner.Date]int64 // the highest number used on each day
	set, mark *sql.Stmt
}

func (t *Tx) importWriter(lifter planner.LifterID, id ImportID, now time.Time) (*importWriter, error) {
	w := &importWriter{t: t, lifter: lifter, id: id, written: now.UnixMilli(), last: map[planner.Date]int64{}}
	used, err := t.q.LastSeqs(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	for _, u := range used {
		w.last[u.Day.Date()] = max(w.last[u.Day.Date()], u.Seq)
	}
	if w.set, err = t.tx.PrepareContext(t.ctx, `INSERT INTO sets (lifter_id, day, seq, message, lift, variant, weight_g, reps, sets,
		reserve, missed, gear, pending, written_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0, ?)`); err != nil {
		return nil, err
	}
	w.mark, err = t.tx.PrepareContext(t.ctx, `INSERT INTO imported_sets (lifter_id, mark, import_id) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`)
	if err != nil {
		w.set.Close()
	}
	return w, err
}

func (w *importWriter) close() {
	w.set.Close()
	w.mark.Close()
}

func (w *importWriter) write(one Imported) error {
	s := one.Set
	w.last[s.Day]++
	_, err := w.set.ExecContext(w.t.ctx, int64(w.lifter), s.Day.String(), w.last[s.Day], importMessage(w.id), string(s.Lift), string(s.Variant),
		int64(s.Weight), s.Reps, s.Sets, s.Reserve, s.Missed, string(s.Gear), w.written)
	if err != nil {
		return err
	}
	for _, m := range one.Marks {
		if _, err := w.mark.ExecContext(w.t.ctx, int64(w.lifter), m, int64(w.id)); err != nil {
			return err
		}
	}
	return nil
}
