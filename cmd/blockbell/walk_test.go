package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// club sets two lifters up with agreed plans. It is played once; what follows is
// only the clock.
const club = `clock 2027-01-04T07:00:00Z
@ana /me set category:women bodyweight:62.5 class:63 level:intermediate zone:Europe/Lisbon nudges:direct
@ana /meet add name:"River Open" date:2027-05-15 kind:main
@ana squat 140x5 @8
@ana bench 80x5 @8
@ana dead 160x3 @8
@ana /season build
press @ana "Accept plan"
@bo /me set category:men bodyweight:92 class:93 level:advanced zone:America/New_York nudges:channel
@bo /meet add name:"Harbour Cup" date:2027-04-24 kind:main
@bo /season build
press @bo "Accept plan"
`

// The season of club ends after both meets.
var (
	clubStart = time.Date(2027, 1, 4, 7, 0, 0, 0, time.UTC)
	clubEnd   = time.Date(2027, 5, 24, 7, 0, 0, 0, time.UTC)
)

// playClub makes a database with the club in it.
func playClub(t *testing.T) (db string) {
	t.Helper()
	db = filepath.Join(t.TempDir(), "club.db")
	status, out, errs := run(t, club, "rehearse", "--json", "--db", db)
	for _, h := range readOutput(t, out) {
		if h.Kind == "error" {
			t.Errorf("line %d: %s", h.Line, h.Text)
		}
	}
	if status != statusOK || t.Failed() {
		t.Fatalf("status %d: %s\n%s", status, errs, out)
	}
	return db
}

func clockTo(at time.Time) string { return "clock " + at.UTC().Format(time.RFC3339) + "\n" }

// nudges tells each unasked post in one line: when, to whom, for which facts,
// with which words.
func nudges(t *testing.T, output string) []string {
	t.Helper()
	var all []string
	for _, h := range readOutput(t, output) {
		switch h.Kind {
		case "error":
			t.Errorf("line %d: %s", h.Line, h.Text)
		case "post", "direct":
			all = append(all, fmt.Sprintf("%s %s %s %v %q %q %v", h.At, h.Kind, h.To, h.Nudge, h.Title, h.Text, h.Buttons))
		}
	}
	return all
}

// walk plays the clock only, in a new process of thought: the program as a value.
func walk(t *testing.T, db string, to time.Time) []string {
	t.Helper()
	status, out, errs := run(t, clockTo(to), "rehearse", "--json", "--db", db)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, errs)
	}
	return nudges(t, out)
}

func TestSeasonIsTheSameInOneRunAndInFifty(t *testing.T) {
	one := walk(t, playClub(t), clubEnd)
	if len(one) < 10 {
		t.Fatalf("only %d nudges in a season:\n%s", len(one), strings.Join(one, "\n"))
	}
	t.Logf("%d nudges", len(one))

	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	stops := []time.Time{clubEnd}
	for len(stops) < 50 {
		stops = append(stops, clubStart.Add(time.Duration(random.Int64N(int64(clubEnd.Sub(clubStart)/time.Second)))*time.Second))
	}
	slices.SortFunc(stops, time.Time.Compare)
	db := playClub(t)
	var fifty []string
	for _, stop := range stops {
		fifty = append(fifty, walk(t, db, stop)...)
	}
	if diff := cmp.Diff(one, fifty); diff != "" {
		t.Errorf("(-one run +fifty runs)\n%s", diff)
	}
}
