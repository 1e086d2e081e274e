package store

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"modernc.org/sqlite"
)

// TestEveryWriteToRememberedTablesIsNoticed asks the database itself, through its
// authorizer, which tables each generated statement writes to, triggers included.
func TestEveryWriteToRememberedTablesIsNoticed(t *testing.T) {
	s, err := Open(t.Context(), filepath.Join(t.TempDir(), "club.db"), Options{World: Terminal, Now: time.Unix(0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	conn, err := s.writer.Conn(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	written := map[string]bool{}
	err = conn.Raw(func(c any) error {
		return c.(*connection).bare.(sqlite.AuthorizerRegisterer).RegisterAuthorizer(
			func(action sqlite.AuthorizerActionCode, table, _, _, _ string) sqlite.AuthorizerReturnCode {
				if action == sqlite.AuthInsert || action == sqlite.AuthUpdate || action == sqlite.AuthDelete {
					written[table] = true
				}
				return sqlite.AuthorizerOK
			})
	})
	if err != nil {
		t.Fatal(err)
	}
	noticed, passed := 0, 0
	for _, query := range generated(t) {
		clear(written)
		prepared, err := conn.PrepareContext(t.Context(), query)
		if err != nil {
			t.Fatalf("%s: %v", query, err)
		}
		prepared.Close()
		does := false
		for table := range inMemory {
			does = does || written[table]
		}
		if does != touches(query) {
			t.Errorf("writes to %v, and touches says %v: %s", written, touches(query), query)
		}
		if does {
			noticed++
		} else if len(written) > 0 {
			passed++
		}
	}
	if noticed < 10 || passed < 10 {
		t.Errorf("%d statements touch what is remembered and %d write elsewhere; both should be many", noticed, passed)
	}
}

// generated lists the texts of the generated statements.
func generated(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("internal/sqlgen/*.sql.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("no generated queries found: %v", err)
	}
	literal := regexp.MustCompile("(?s)`(-- name: .*?)`")
	var all []string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range literal.FindAllSubmatch(text, -1) {
			all = append(all, string(m[1]))
		}
	}
	return all
}

func TestWhatIsNotUnderstoodTouchesEverything(t *testing.T) {
	for query, want := range map[string]bool{
		"SELECT 1":                                       false,
		" -- x\n\nSELECT 1":                              false,
		"SELECTED":                                       true,
		"UPDATE sets SET x":                              false,
		"UPDATE clubs SET x":                             false,
		"UPDATE club SET x":                              true,
		"INSERT OR REPLACE INTO sets VALUES (1)":         true,
		"WITH x AS (SELECT 1) DELETE FROM club":          true,
		"DELETE FROM \"club\"":                           true,
		"PRAGMA user_version = 1":                        true,
		"-- name: X :exec\n\nDELETE FROM plan_meets":     true,
		"-- name: X :exec\n-- y\nINSERT INTO buttons ()": false,
	} {
		if touches(query) != want {
			t.Errorf("%q: %v", query, touches(query))
		}
	}
}

// TestOtherCommitsKeepTheMemory: a log line must not make everybody's next answer
// slow.
func TestOtherCommitsKeepTheMemory(t *testing.T) {
	s, err := Open(t.Context(), filepath.Join(t.TempDir(), "club.db"), Options{World: Terminal, Now: time.Unix(0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, step := range []struct {
		name string
		do   func(*Tx) error
		want int
	}{
		{"reading", func(tx *Tx) error { _, err := tx.Club(); return err }, 1},
		{"an event", func(tx *Tx) error { _, err := tx.FreshEvent("e", time.Unix(9, 0)); return err }, 1},
		{"settings", func(tx *Tx) error { return tx.SaveClub(DefaultClub()) }, 0},
	} {
		if err := s.Update(t.Context(), step.do); err != nil {
			t.Fatal(err)
		}
		if len(s.memory.rows) != step.want {
			t.Errorf("after %s %d rows are remembered, want %d", step.name, len(s.memory.rows), step.want)
		}
	}
}
