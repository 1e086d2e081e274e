package blocks

import (
	"errors"
	"strings"
	"testing"

	"blockbell/planner"
)

func TestErrors(t *testing.T) {
	meet := func(d planner.Date, k planner.MeetKind) planner.Meet {
		return planner.Meet{Name: "River Open", Date: d, Kind: k}
	}
	tests := []struct {
		name     string
		change   func(*Request)
		kind     planner.ErrorKind
		sentence string // what the sentence must name
		hint     string
	}{
		{"a past meet", func(r *Request) { r.Meets[0].Date = r.Today.AddDays(-1) }, planner.Impossible, "Sun 3 January 2027", "Tue 5 January 2027"},
		{"the meet is today", func(r *Request) { r.Meets[0].Date = r.Today }, planner.Impossible, "the meet is today", "result"},
		{"a meet without a date", func(r *Request) { r.Meets[0].Date = 0 }, planner.Invalid, "no date", "date"},
		{"an unknown kind of meet", func(r *Request) { r.Meets = append(r.Meets, meet(r.Today.AddDays(30), "gala")) }, planner.Invalid, "gala", "tune-up"},
		{"no day", func(r *Request) { r.Today = 0 }, planner.Invalid, "day", ""},
		{"a running block from tomorrow", func(r *Request) { r.Running = &Running{planner.Strength, r.Today + 1} }, planner.Invalid, "Tue 5 January 2027", "began"},
		{"a running block of no kind", func(r *Request) { r.Running = &Running{"rest", r.Today} }, planner.Invalid, "rest", "hypertrophy"},
		{"an empty pin", func(r *Request) { r.Pins = []Pin{{}} }, planner.Invalid, "nothing", "how long"},
		{"a pin longer than any block", func(r *Request) { r.Pins = []Pin{{Kind: planner.Hypertrophy, Weeks: 27}} }, planner.Impossible, "27 weeks", "3 to 26"},
		{"a pin in the past", func(r *Request) { r.Pins = []Pin{{Kind: planner.Strength, Start: r.Today - 8}} }, planner.Impossible, "past", "Mon 4 January 2027"},
		{"a pin after the meet", func(r *Request) { r.Pins = []Pin{{Kind: planner.Strength, Start: r.Today + 100}} }, planner.Impossible, "after the last meet", "Fri 26 March 2027"},
		{"more pinned weeks than there are", func(r *Request) {
			r.Meets[0].Date = r.Meets[0].Date.AddDays(28)
			r.Pins = []Pin{{Ordinal: 1, Kind: planner.Hypertrophy, Weeks: 8}, {Ordinal: 2, Kind: planner.Strength, Weeks: 8}}
		}, planner.Impossible, "\"block 1 hypertrophy 8 weeks\" and \"block 2 strength 8 weeks\"", "Sat 15 May 2027"},
		{"two kinds for one block", func(r *Request) {
			r.Pins = []Pin{{Ordinal: 1, Weeks: 4}, {Ordinal: 1, Kind: planner.Hypertrophy}, {Ordinal: 1, Kind: planner.Strength}}
		}, planner.Impossible, "\"block 1 hypertrophy\" and \"block 1 strength\" together", "Remove"},
		{"peaking far from the meet", func(r *Request) {
			r.Pins = []Pin{{Ordinal: 1, Kind: planner.Peaking, Weeks: 3}}
		}, planner.Impossible, "\"block 1 peaking 3 weeks\"", ""},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, 12)
			c.change(&r)
			_, err := Build(r)
			var e *planner.Error
			if !errors.As(err, &e) {
				t.Fatalf("error %v, want a *planner.Error", err)
			}
			if e.Kind != c.kind || !strings.Contains(e.Sentence, c.sentence) || !strings.Contains(e.Hint, c.hint) {
				t.Errorf("%s: %q, hint %q; want %s naming %q, hint with %q", e.Kind, e.Sentence, e.Hint, c.kind, c.sentence, c.hint)
			}
		})
	}
}

// TestNearestDate: the day named in the hint does give a plan, and a week less
// does not.
func TestNearestDate(t *testing.T) {
	r := fresh(planner.Intermediate, 12)
	r.Pins = []Pin{{Ordinal: 1, Kind: planner.Hypertrophy, Weeks: 8}, {Ordinal: 2, Kind: planner.Strength, Weeks: 8}}
	r.Meets[0].Date = day(t, "2027-05-15")
	if got := lengths(mustBuild(t, r).Blocks); !strings.HasPrefix(got, "H8 S8") {
		t.Errorf("on the named day: %s", got)
	}
	r.Meets[0].Date = day(t, "2027-05-08")
	if p, err := Build(r); err == nil {
		t.Errorf("a week before the named day: %s", lengths(p.Blocks))
	}
}
