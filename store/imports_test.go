package store_test

import (
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// importOne leaves a file that was written and one that waits.
func importOne(tx *store.Tx, id planner.LifterID, words string) error {
	done, err := tx.AddImport(id, []byte(words), now, now.Add(time.Hour))
	if err != nil {
		return err
	}
	if err := tx.FinishImport(id, done, []store.Imported{{Set: aSet(march1), Marks: []int64{int64(id)}}}, now, nil); err != nil {
		return err
	}
	_, err = tx.AddImport(id, []byte("draft of "+words), now, now.Add(time.Hour))
	return err
}

func TestImportIsWrittenOnceAndUndoneWhole(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	write(t, s, ana, "m1", now, aSet(march1))
	var id store.ImportID
	update(t, s, func(tx *store.Tx) (err error) {
		id, err = tx.AddImport(ana, []byte("read"), now, now.Add(time.Hour))
		return err
	})
	all := []store.Imported{{Set: aSet(march1), Marks: []int64{7, -8}}, {Set: aSet(march1.AddDays(-1)), Marks: []int64{9}}}
	told := 0
	update(t, s, func(tx *store.Tx) error { return tx.FinishImport(ana, id, all, now, func(n int) { told = n }) })
	if told != 2 {
		t.Errorf("told of %d sets", told)
	}
	wantKind(t, s.Update(t.Context(), func(tx *store.Tx) error { return tx.FinishImport(ana, id, all, now, nil) }), planner.Conflict)
	view(t, s, func(tx *store.Tx) error {
		sets, err := tx.RecentSets(ana, 9)
		if err != nil || len(sets) != 3 || sets[0].Seq != 2 {
			t.Errorf("%+v, %v", sets, err)
		}
		marks, err := tx.ImportedMarks(ana)
		if err != nil || len(marks) != 3 || !marks[-8] {
			t.Errorf("marks %v, %v", marks, err)
		}
		last, err := tx.LastSets(ana, time.Hour, now)
		if len(last) != 1 { // what came with a file is nobody's last words
			t.Errorf("last %+v, %v", last, err)
		}
		_, waits, err := tx.ImportDraft(ana, id)
		if waits {
			t.Error("the file is still kept")
		}
		return err
	})
	update(t, s, func(tx *store.Tx) error {
		n, err := tx.UndoImport(ana, id, ana, now)
		if n != 2 {
			t.Errorf("undone: %d", n)
		}
		marks, err2 := tx.ImportedMarks(ana)
		if len(marks) != 0 || err2 != nil {
			t.Errorf("marks left: %v, %v", marks, err2)
		}
		return err
	})
	wantKind(t, s.Update(t.Context(), func(tx *store.Tx) error { _, err := tx.UndoImport(ana, id, ana, now); return err }), planner.Conflict)
	view(t, s, func(tx *store.Tx) error {
		sets, err := tx.RecentSets(ana, 9)
		if len(sets) != 1 {
			t.Errorf("%+v", sets)
		}
		return err
	})
	if got := write(t, s, ana, "m2", now, aSet(march1)); got[0].Seq != 3 {
		t.Errorf("the number %d is used again", got[0].Seq)
	}
}

func TestWaitingImportsAreForgotten(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "ana")
	var first, second store.ImportID
	waits := func(id store.ImportID) (waits bool) {
		view(t, s, func(tx *store.Tx) (err error) { _, waits, err = tx.ImportDraft(ana, id); return err })
		return waits
	}
	update(t, s, func(tx *store.Tx) (err error) {
		if first, err = tx.AddImport(ana, []byte("a"), now, now.Add(time.Hour)); err != nil {
			return err
		}
		second, err = tx.AddImport(ana, []byte("b"), now, now.Add(time.Hour))
		return err
	})
	if waits(first) || !waits(second) {
		t.Errorf("only the last file waits: %v %v", waits(first), waits(second))
	}
	update(t, s, func(tx *store.Tx) error { return tx.ForgetImports(now.Add(time.Hour)) })
	if !waits(second) {
		t.Error("forgotten before it expired")
	}
	update(t, s, func(tx *store.Tx) error { return tx.ForgetImports(now.Add(2 * time.Hour)) })
	if waits(second) {
		t.Error("kept after it expired")
	}
}

func TestFirstCallIsOnceADay(t *testing.T) {
	s := storetest.New(t)
	ana, bo := join(t, s, "ana"), join(t, s, "bo")
	first := func(id planner.LifterID, day planner.Date) (first bool) {
		update(t, s, func(tx *store.Tx) (err error) { first, err = tx.FirstCall(id, day, now); return err })
		return first
	}
	got := []bool{first(ana, march1), first(ana, march1), first(bo, march1), first(ana, march1.AddDays(1)), first(ana, march1.AddDays(1))}
	for i, want := range []bool{true, false, true, true, false} {
		if got[i] != want {
			t.Errorf("call %d: %v", i, got[i])
		}
	}
	hands := func() (n int) {
		for _, row := range export(t, s)["events"] {
			if id, _ := row["id"].(string); len(id) > 5 && id[:5] == "hand/" {
				n++
			}
		}
		return n
	}
	if hands() != 3 {
		t.Errorf("%d days are kept", hands())
	}
	update(t, s, func(tx *store.Tx) error { return tx.ForgetCalls(now.Add(37 * time.Hour)) })
	if hands() != 0 {
		t.Errorf("%d days are kept after they are over", hands())
	}
}
