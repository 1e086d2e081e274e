package store_test

import (
	"fmt"
	"strings"
	"testing"

	"blockbell/store"
	"blockbell/store/storetest"
)

// What somebody erased did for others and for the club is part of the others' history:
// it stays, told apart from what the program did, and without a name.
func TestEraseKeepsWhatWasDoneForOthers(t *testing.T) {
	s := storetest.New(t)
	bo, zora := join(t, s, "bo"), join(t, s, "zora")
	update(t, s, func(tx *store.Tx) error {
		for _, e := range []store.AuditEntry{
			{By: zora, About: bo, What: "set the level, as Zora said"},
			{By: zora, What: "changed the club"},
			{By: bo, About: zora, What: "set the level of zora"},
			{By: zora, About: zora, What: "took back"},
			{What: "began a block", About: bo},
		} {
			if err := tx.Audit(e.By, e.About, e.What, now); err != nil {
				return err
			}
		}
		return tx.EraseLifter(zora)
	})
	want := []store.AuditEntry{
		{About: bo, What: "began a block", At: now},
		{Gone: true, What: "changed the club", At: now},
		{Gone: true, About: bo, What: "set the level, as somebody said", At: now},
	}
	var got []store.AuditEntry
	view(t, s, func(tx *store.Tx) (err error) { got, err = tx.AuditTrail(9); return err })
	same(t, "the trail", got, want)
	for table, rows := range export(t, s) {
		if text := strings.ToLower(fmt.Sprint(rows)); strings.Contains(text, "zora") {
			t.Errorf("%s still knows zora: %s", table, text)
		}
	}
}
