package store_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// Everything kept about a lifter is in their export, and nothing of anybody else.
func TestExportOfOneLifter(t *testing.T) {
	s := storetest.New(t)
	ana, ben := join(t, s, "ana"), join(t, s, "ben")
	tired := 2
	update(t, s, func(tx *store.Tx) error {
		for _, id := range []struct {
			who  string
			mass int
		}{{"ana", 62}, {"ben", 83}} {
			l, _, err := tx.LifterByHandle(id.who)
			if err != nil {
				return err
			}
			if err := tx.AddBodyweight(l.ID, march1, planner.Grams(1000*id.mass), now); err != nil {
				return err
			}
			if err := tx.AddCheckIn(l.ID, store.CheckIn{Day: march1, Tired: &tired}, now); err != nil {
				return err
			}
		}
		return nil
	})
	write(t, s, ana, "m1", now, aSet(march1))
	write(t, s, ben, "m2", now, aSet(march1), aSet(march1))
	read := func(without ...string) map[string][]map[string]any {
		var out bytes.Buffer
		view(t, s, func(tx *store.Tx) error { return tx.ExportLifter(&out, ana, without...) })
		var tables map[string][]map[string]any
		if err := json.Unmarshal(out.Bytes(), &tables); err != nil {
			t.Fatalf("%v in %s", err, out.String())
		}
		if strings.Contains(out.String(), `"ben"`) || strings.Contains(out.String(), "83") {
			t.Errorf("somebody else's things: %s", out.String())
		}
		return tables
	}
	tables := read()
	if len(tables["lifters"]) != 1 || len(tables["sets"]) != 1 || tables["bodyweights"][0]["mass_kg"] != 62.0 || tables["checkins"][0]["tired"] != 2.0 {
		t.Errorf("%v", tables)
	}
	for _, table := range []string{"meets", "plans", "facts", "away", "lifts_off", "pins", "notes", "nudge_times", "nudges_off", "snoozes", "set_history"} {
		if _, ok := tables[table]; !ok {
			t.Errorf("%s is left out", table)
		}
	}
	if tables := read("bodyweights"); tables["bodyweights"] != nil {
		t.Error("a table that was to be left out is there")
	}
}
