package store_test

import (
	"database/sql"
	"testing"
)

// makeForeign makes a database of some other program.
func makeForeign(t testing.TB, path string) {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(`CREATE TABLE songs (name TEXT); INSERT INTO songs VALUES ('x')`); err != nil {
		t.Fatal(err)
	}
}
