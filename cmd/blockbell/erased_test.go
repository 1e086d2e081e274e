package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// afterErasing is what the club goes on to say of Mira before she leaves.
const afterErasing = `
@cap /club announce text:"Cheer for Mira, our novice; @mira lifts in Bridge"
press @cap "Post it"
clock +1d
@mira /mydata erase
press @mira "Erase everything"
`

// Somebody who had everything erased is named nowhere any more: not in the posts of
// the club that stay, not in its buttons, not in what the terminal remembers, and
// not in the bytes of the file. What was said of others stays.
func TestErasedLifterIsNamedNowhere(t *testing.T) {
	season, err := os.ReadFile("../../testdata/script/season.txt")
	if err != nil {
		t.Fatal(err)
	}
	march, _, found := strings.Cut(string(season), "clock 2027-03-24")
	if !found {
		t.Fatal("the season has no 24 March")
	}
	db := filepath.Join(t.TempDir(), "club.db")
	run := func(in string, args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		if status := (program{}).Run(t.Context(), append(args, "--db", db), strings.NewReader(in), &out, &errs); status != statusOK {
			t.Fatalf("%v: status %d: %s", args, status, errs.String())
		}
		return out.String()
	}
	run(march, "rehearse", "-")
	before := run("", "export", "--json")
	run(afterErasing, "rehearse", "-")
	after := run("", "export", "--json")

	name := regexp.MustCompile(`(?i)mira`)
	if !name.MatchString(before) {
		t.Error("the season does not speak of Mira: this test proves nothing")
	}
	for line := range strings.Lines(after) {
		if name.MatchString(line) {
			t.Errorf("still named: %.300s", line)
		}
	}
	if !strings.Contains(after, "Cheer for somebody, our novice; somebody lifts in Bridge") {
		t.Error("the announcement itself is gone")
	}
	if !strings.Contains(after, "Kasia") {
		t.Error("others are gone as well")
	}
	file, err := os.ReadFile(db)
	if err != nil {
		t.Fatal(err)
	}
	if name.Match(file) {
		t.Error("the bytes of the file still hold the name")
	}
}
