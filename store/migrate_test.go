package store

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blockbell/planner"
)

// frozen is a released schema with a few rows. These files are never edited.
const frozen = "../testdata/schema"

// raw opens a file with the driver alone.
func raw(t testing.TB, path string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// schema returns the text of every table and index by name.
func schema(t testing.TB, db *sql.DB) map[string]string {
	t.Helper()
	rows, err := db.QueryContext(context.Background(), `SELECT name, coalesce(sql, '') FROM sqlite_schema`)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	texts := map[string]string{}
	for rows.Next() {
		var name, text string
		if err := rows.Scan(&name, &text); err != nil {
			t.Fatal(err)
		}
		texts[name] = strings.Join(strings.Fields(text), " ")
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return texts
}

// rowCounts counts the rows of every table.
func rowCounts(t testing.TB, db *sql.DB) map[string]int {
	t.Helper()
	counts := map[string]int{}
	for name, text := range schema(t, db) {
		if !strings.HasPrefix(text, "CREATE TABLE") || strings.HasPrefix(name, "sqlite_") {
			continue
		}
		var n int
		if err := db.QueryRowContext(context.Background(), "SELECT count(*) FROM "+name).Scan(&n); err != nil {
			t.Fatal(err)
		}
		counts[name] = n
	}
	return counts
}

// fromFrozen makes a database out of a frozen file.
func fromFrozen(t testing.TB, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "old.db")
	db := raw(t, path)
	if _, err := db.Exec(string(text)); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	db.Close()
	return path
}

// Every released schema migrates to exactly what a fresh database has, and its
// rows are still there.
func TestReleasedSchemasMigrateToTheNewest(t *testing.T) {
	files, err := filepath.Glob(frozen + "/*.sql")
	if err != nil || len(files) == 0 {
		t.Fatalf("no frozen schemas: %v", err)
	}
	want := schema(t, fresh(t).writer)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			path := fromFrozen(t, file)
			before := rowCounts(t, raw(t, path))
			s, err := Open(t.Context(), path, Options{Terminal, time.Unix(1, 0)})
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			if d := cmp.Diff(want, schema(t, s.writer)); d != "" {
				t.Errorf("the migrated schema differs (-fresh +migrated):\n%s", d)
			}
			after := rowCounts(t, s.writer)
			for table, n := range before {
				if table != "goose_db_version" && after[table] != n {
					t.Errorf("%s had %d rows and has %d", table, n, after[table])
				}
			}
			err = s.View(t.Context(), func(tx *Tx) error {
				l, ok, err := tx.LifterByHandle("ana")
				if err != nil || !ok || l.Squat != 140*planner.Kilogram {
					t.Errorf("the lifter of the file: %+v, %v, %v", l, ok, err)
				}
				sets, err := tx.RecentSets(l.ID, 9)
				if err != nil || len(sets) != 2 {
					t.Errorf("the sets of the file: %+v, %v", sets, err)
				}
				p, ok, err := tx.AgreedPlan(l.ID)
				if err != nil || !ok || len(p.Season.Blocks) != 1 {
					t.Errorf("the plan of the file: %+v, %v, %v", p, ok, err)
				}
				return err
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
}

// The first migration still makes the schema that was frozen for it.
func TestFirstMigrationIsFrozen(t *testing.T) {
	frozenSchema := schema(t, raw(t, fromFrozen(t, frozen+"/0001.sql")))
	if known, err := newest(); err != nil || known != 1 {
		t.Skipf("the newest migration is %d: the test above covers it", known)
	}
	if d := cmp.Diff(frozenSchema, schema(t, fresh(t).writer)); d != "" {
		t.Errorf("the migration was edited after its release (-frozen +migration):\n%s", d)
	}
}

func TestNewerDatabaseIsRefusedAndUntouched(t *testing.T) {
	path := fromFrozen(t, frozen+"/0001.sql")
	db := raw(t, path)
	if _, err := db.Exec(`INSERT INTO goose_db_version (version_id, is_applied) VALUES (9999, 1); CREATE TABLE later (x)`); err != nil {
		t.Fatal(err)
	}
	db.Close()
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	open := map[string]func() (*Store, error){
		"Open":           func() (*Store, error) { return Open(t.Context(), path, Options{World: Terminal}) },
		"OpenForReading": func() (*Store, error) { return OpenForReading(t.Context(), path) },
	}
	for name, open := range open {
		s, err := open()
		if err == nil {
			s.Close()
		}
		e, ok := err.(*planner.Error)
		if !ok || e.Kind != planner.Conflict || !strings.Contains(e.Sentence, "format 9999") || e.Hint == "" {
			t.Errorf("%s: got %v", name, err)
		}
	}
	after, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(before) != string(after) {
		t.Error("the refused database was changed")
	}
}

func TestOlderDatabaseIsNotReadWithoutBringingItUpToDate(t *testing.T) {
	path := fromFrozen(t, frozen+"/0001.sql")
	db := raw(t, path)
	if _, err := db.Exec(`DELETE FROM goose_db_version WHERE version_id > 0`); err != nil {
		t.Fatal(err)
	}
	db.Close()
	_, err := OpenForReading(t.Context(), path)
	if e, ok := err.(*planner.Error); !ok || e.Kind != planner.Conflict || e.Hint == "" {
		t.Errorf("got %v, want an error for a person", err)
	}
}

// A half-made database (the program died between the schema and the world) is
// completed by the next start.
func TestOpenCompletesAHalfMadeDatabase(t *testing.T) {
	s := fresh(t)
	path := s.Path()
	if _, err := s.writer.Exec(`DELETE FROM origin`); err != nil {
		t.Fatal(err)
	}
	s.Close()
	s, err := Open(t.Context(), path, Options{Platform, time.Unix(7, 0)})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var got string
	row := s.readers.QueryRow(`SELECT world || ' ' || created_ms FROM origin`)
	if err := row.Scan(&got); err != nil || got != fmt.Sprint(Platform, " ", 7000) {
		t.Errorf("the world is %q, %v", got, err)
	}
}
