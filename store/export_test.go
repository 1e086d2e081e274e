package store_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

type table []map[string]any

// export reads a whole export back.
func export(t testing.TB, s *store.Store) map[string]table {
	t.Helper()
	var out bytes.Buffer
	if err := s.Export(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	if !utf8.Valid(out.Bytes()) {
		t.Error("the export is not valid UTF-8")
	}
	var tables map[string]table
	if err := json.Unmarshal(out.Bytes(), &tables); err != nil {
		t.Fatalf("the export is not JSON: %v\n%s", err, out.String())
	}
	return tables
}

func TestExportTellsEverythingReadably(t *testing.T) {
	s := storetest.New(t)
	ana := join(t, s, "an\xffa \"<&\u2028z")
	reserve := 2.5
	set := aSet(march1)
	set.Reserve, set.Weight = &reserve, 92500
	write(t, s, ana, "m1", now, set, set)
	update(t, s, func(tx *store.Tx) error { return tx.DropSet(ana, march1, 2, ana, now) })
	p := propose(t, s, ana)
	queue(t, s, "ana/1", ana)
	update(t, s, func(tx *store.Tx) error { _, err := tx.AddMeet(aMeet(ana, 0), now); return err })

	r, err := store.OpenForReading(t.Context(), s.Path()) // while s has it open
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	got := export(t, r)
	for _, c := range []struct {
		table, column string
		want          any
	}{
		{"origin", "world", "terminal"},
		{"origin", "created", storetest.Made.Format(time.RFC3339)},
		{"lifters", "handle", "an\ufffda \"<&\u2028z"},
		{"lifters", "captain", false},
		{"lifters", "public_ok", true},
		{"lifters", "born_day", nil},
		{"sets", "day", "2027-03-01"},
		{"sets", "weight_kg", 92.5},
		{"sets", "reserve", 2.5},
		{"sets", "written", "2027-03-02T18:30:15.25Z"},
		{"set_history", "change", "dropped"},
		{"plans", "id", float64(p.ID)},
		{"plans", "detail", nil},
		{"plan_blocks", "kind", "strength"},
		{"plan_meets", "name", "River Open"},
		{"meets", "class_limit_kg", 84.0},
		{"facts", "state", "planned"},
		{"posts", "body", map[string]any{"text": "Block ends."}},
	} {
		rows := got[c.table]
		if len(rows) == 0 {
			t.Errorf("%s has no rows", c.table)
			continue
		}
		value, ok := rows[0][c.column]
		if !ok {
			t.Errorf("%s has no %s: %v", c.table, c.column, rows[0])
		}
		same(t, c.table+"."+c.column, value, c.want)
	}
}

// Every table of the schema is exported, and every yes-or-no column as such.
func TestExportLeavesNothingOut(t *testing.T) {
	var text []byte
	files, err := filepath.Glob("migrations/*.sql")
	for _, file := range files {
		part, readErr := os.ReadFile(file)
		text, err = append(text, part...), errors.Join(err, readErr)
	}
	if err != nil {
		t.Fatal(err)
	}
	s := storetest.New(t)
	ana := join(t, s, "ana")
	write(t, s, ana, "m", now, aSet(march1), aSet(march1))
	update(t, s, func(tx *store.Tx) error {
		if err := tx.DropSet(ana, march1, 2, 0, now); err != nil {
			return err
		}
		if err := tx.SaveClub(store.DefaultClub()); err != nil {
			return err
		}
		if err := tx.SaveDesk(store.Desk{Channel: "#captains"}); err != nil {
			return err
		}
		if err := tx.SaveTraining(ana, store.Training{Cautious: true}); err != nil {
			return err
		}
		if _, err := tx.AddMeet(aMeet(ana, 0), now); err != nil {
			return err
		}
		if err := tx.SaveClassTable(store.ClassTable{Classes: map[planner.Category][]planner.Class{planner.Women: {{Limit: 63000}}}}); err != nil {
			return err
		}
		if err := tx.MarkLeft(ana, 0, now); err != nil {
			return err
		}
		_, _, err := tx.AddTerminalMessage(store.TerminalMessage{At: now})
		return err
	})
	got := export(t, s)
	tables := regexp.MustCompile(`(?s)CREATE TABLE (\w+) \(\n(.*?)\n\) STRICT`).FindAllStringSubmatch(string(text), -1)
	if len(tables) != len(got) || len(tables) < 20 {
		t.Errorf("%d tables are exported, the schema has %d", len(got), len(tables))
	}
	yesNo := regexp.MustCompile(`(?m)^\s*(\w+) .*CHECK \(\w+ IN \(0, 1\)\)`)
	for _, m := range tables {
		rows, ok := got[m[1]]
		if !ok {
			t.Errorf("%s is left out", m[1])
		}
		for _, column := range yesNo.FindAllStringSubmatch(m[2], -1) {
			if len(rows) == 0 {
				t.Errorf("%s has a yes-or-no column but no row to look at", m[1])
			} else if _, ok := rows[0][column[1]].(bool); !ok {
				t.Errorf("%s.%s is exported as %v", m[1], column[1], rows[0][column[1]])
			}
		}
	}
}

// No column can hold the words of a message.
func TestSchemaHasNoPlaceForWords(t *testing.T) {
	var text []byte
	files, err := filepath.Glob("migrations/*.sql")
	for _, file := range files {
		part, readErr := os.ReadFile(file)
		text, err = append(text, part...), errors.Join(err, readErr)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"content", "comment", "note", "injury", "pain", "illness", "pregnan"} {
		if regexp.MustCompile(`(?m)^\s+` + word + `\w* `).Match(text) {
			t.Errorf("the schema has a column %s", word)
		}
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no paper") }

func TestExportTellsWhenItCannotWrite(t *testing.T) {
	s := storetest.New(t)
	for i := range 60 {
		join(t, s, strings.Repeat("long", 50)+string(rune('a'+i)))
	}
	err := s.Export(t.Context(), brokenWriter{})
	if err == nil || !strings.Contains(err.Error(), "no paper") {
		t.Errorf("got %v, want the writer's own error", err)
	}
	var e *planner.Error
	if errors.As(err, &e) {
		t.Errorf("the writer's error is taken for the database's: %q", e.Sentence)
	}
}
