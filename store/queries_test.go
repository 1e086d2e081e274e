package store_test

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// The generator numbers named arguments but leaves plain marks plain; SQLite
// counts a plain mark on from the highest number, so a query with both binds the
// wrong values.
func TestQueriesDoNotMixNamedAndPlainArguments(t *testing.T) {
	files, err := filepath.Glob("internal/sqlgen/*.sql.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("no generated queries found: %v", err)
	}
	query := regexp.MustCompile("(?s)`-- name: (\\w+).*?`")
	plain, numbered := regexp.MustCompile(`\?(\D|$)`), regexp.MustCompile(`\?\d`)
	seen := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range query.FindAllSubmatch(text, -1) {
			seen++
			if plain.Match(m[0]) && numbered.Match(m[0]) {
				t.Errorf("the query %s mixes ? and sqlc.arg", m[1])
			}
		}
	}
	if seen < 50 {
		t.Errorf("only %d queries were looked at", seen)
	}
}
