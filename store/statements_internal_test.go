package store

import (
	"database/sql"
	"path/filepath"
	"testing"
)

// keepingOne is a database with one connection, and that connection's statements.
func keepingOne(t *testing.T) (*sql.Conn, *connection) {
	t.Helper()
	db, err := connect(filepath.Join(t.TempDir(), "some.db"), forWriting, 1)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	conn, err := db.Conn(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	var inside *connection
	if err := conn.Raw(func(c any) error { inside = c.(*connection); return nil }); err != nil {
		t.Fatal(err)
	}
	run(t, conn, `CREATE TABLE numbers (n INTEGER PRIMARY KEY)`)
	run(t, conn, `INSERT INTO numbers VALUES (1), (2), (3)`)
	return conn, inside
}

func run(t *testing.T, conn *sql.Conn, query string, args ...any) {
	t.Helper()
	if _, err := conn.ExecContext(t.Context(), query, args...); err != nil {
		t.Fatalf("%s: %v", query, err)
	}
}

const (
	upTo = "-- name: UpTo :many\nSELECT * FROM numbers WHERE n <= ? ORDER BY n"
	add  = "-- name: Add :exec\nINSERT INTO numbers VALUES (?)"
)

func read(t *testing.T, conn *sql.Conn, upto int, with func()) (all []int) {
	t.Helper()
	rows, err := conn.QueryContext(t.Context(), upTo, upto)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var n int
		if err := rows.Scan(&n); err != nil {
			t.Fatal(err)
		}
		all = append(all, n)
		with()
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}

// TestAStatementIsKeptAndMayBeUsedInsideItself reads with one statement while its
// rows are still open, as a loop over lifters does.
func TestAStatementIsKeptAndMayBeUsedInsideItself(t *testing.T) {
	conn, inside := keepingOne(t)
	var inner []int
	outer := read(t, conn, 3, func() { inner = append(inner, read(t, conn, 2, func() {})...) })
	if len(outer) != 3 || len(inner) != 6 {
		t.Errorf("outer %v, inner %v", outer, inner)
	}
	kept := inside.kept[upTo]
	if len(inside.kept) != 1 || kept == nil {
		t.Fatalf("%d statements are kept, want the one that has a name", len(inside.kept))
	}
	read(t, conn, 1, func() {
		if inside.kept[upTo] != nil {
			t.Error("a statement in use is offered to others")
		}
	})
	if inside.kept[upTo] != kept {
		t.Error("the statement was prepared again")
	}
}

// TestAKeptStatementSeesAChangedTable: plans follow the schema.
func TestAKeptStatementSeesAChangedTable(t *testing.T) {
	conn, _ := keepingOne(t)
	read(t, conn, 3, func() {})
	run(t, conn, `DROP TABLE numbers`)
	run(t, conn, `CREATE TABLE numbers (n INTEGER PRIMARY KEY CHECK (n < 50))`)
	run(t, conn, add, 49)
	if got := read(t, conn, 100, func() {}); len(got) != 1 || got[0] != 49 {
		t.Errorf("read %v", got)
	}
}

// TestAKeptStatementWorksAfterItFailed: an error must not stay with the statement.
func TestAKeptStatementWorksAfterItFailed(t *testing.T) {
	conn, inside := keepingOne(t)
	if _, err := conn.ExecContext(t.Context(), add, 1); !taken(err) {
		t.Fatalf("got %v, want that the row exists", err)
	}
	run(t, conn, add, 4)
	if len(inside.kept) != 1 {
		t.Errorf("%d statements are kept", len(inside.kept))
	}
	if got := read(t, conn, 9, func() {}); len(got) != 4 {
		t.Errorf("read %v", got)
	}
}
