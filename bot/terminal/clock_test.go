package terminal

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

// season is a set of due moments over a hundred days, some close together.
func season(t *testing.T) (start time.Time, at []time.Time) {
	start = moment(t, "2027-01-04T08:00:00Z")
	for day := 3; day < 100; day += 7 {
		due := start.AddDate(0, 0, day)
		at = append(at, due, due.Add(time.Minute))
	}
	return start, at
}

func TestClockIsSetOnceThenWalksFromDueToDue(t *testing.T) {
	start, at := season(t)
	s := newStage(t, newNotebook(), &scripted{}, at...)
	if got := s.script(t, "clock 2027-01-04T08:00:00Z"); got != "" {
		t.Errorf("the first clock printed %q", got)
	}
	posts := objects(t, s.script(t, "clock +14d"))
	if len(posts) != 4 {
		t.Fatalf("got %d posts in a fortnight, want 4", len(posts))
	}
	for i, p := range posts {
		if p.At != stamp(at[i]) || p.Kind != "post" || p.To != "#announcements" || !slices.Equal(p.Nudge, []string{"ana/week/" + p.At}) {
			t.Errorf("post %d is %+v, want one due at %s", i, p, stamp(at[i]))
		}
	}
	want := append([]time.Time{start}, append(at[:4:4], start.AddDate(0, 0, 14))...)
	if !slices.EqualFunc(s.due.runs, want, time.Time.Equal) {
		t.Errorf("the runner ran at %v, want %v", s.due.runs, want)
	}
}

func TestSeasonIsTheSameInOneRunAndInFifty(t *testing.T) {
	start, at := season(t)
	end := start.AddDate(0, 0, 100)
	whole := newStage(t, newNotebook(), &scripted{}, at...)
	want := whole.script(t, "clock "+stamp(start), "clock "+stamp(end))
	if n := len(objects(t, want)); n != len(at) {
		t.Fatalf("one run posted %d, want %d", n, len(at))
	}

	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	stops := []time.Time{start, end}
	for len(stops) < 50 {
		stops = append(stops, start.Add(time.Duration(random.Int64N(int64(100*24*time.Hour/time.Second)))*time.Second))
	}
	slices.SortFunc(stops, time.Time.Compare)
	memory := newNotebook()
	var got strings.Builder
	for _, stop := range stops {
		got.WriteString(newStage(t, memory, &scripted{}, at...).script(t, "clock "+stamp(stop)))
	}
	if got.String() != want {
		t.Errorf("fifty runs differ from one:\n%s\nwant\n%s", got.String(), want)
	}
}

func TestClockDoesNotGoBack(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	e := only(t, s.script(t, "clock 2027-01-04T08:00:00Z", "# steady", "clock 2027-01-03T08:00:00Z"))
	if e.Kind != "error" || e.Line != 3 || e.At != "2027-01-04T08:00:00Z" || !strings.Contains(e.Text, "2027-01-03") {
		t.Errorf("got %+v", e)
	}
	if s.Complaints() != 1 || stamp(s.memory.clock) != "2027-01-04T08:00:00Z" {
		t.Errorf("complaints %d, clock %s", s.Complaints(), s.memory.clock)
	}
	if got := s.script(t, "clock 2027-01-04T08:00:00Z"); got != "" || s.Complaints() != 1 {
		t.Errorf("the same moment again printed %q", got)
	}
}

func TestWallTimeIsAskedOnlyWithoutClock(t *testing.T) {
	memory := newNotebook()
	s := newStage(t, memory, &scripted{answer: says("hello")})
	if o := only(t, s.script(t, "@ana hello")); o.At != "2026-11-25T09:30:15Z" {
		t.Errorf("first use at %s, want wall time in whole seconds", o.At)
	}
	later := newStage(t, memory, &scripted{answer: says("hello")})
	later.Wall = func() time.Time { t.Error("wall time asked again"); return wallTime }
	if o := only(t, later.script(t, "clock +1h", "@ana hello")); o.At != "2026-11-25T10:30:15Z" {
		t.Errorf("an hour later it is %s", o.At)
	}
}

func TestUnderstoodNothingDoesNotSetTheClock(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	if o := only(t, s.script(t, "# hello", "", "nonsense")); o.Line != 3 || o.At != "2026-11-25T09:30:15Z" {
		t.Errorf("got %+v", o)
	}
	if s.memory.set {
		t.Errorf("the clock was set to %s", s.memory.clock)
	}
}

// A run killed after it stored a due moment and before the runner had worked
// there leaves the moment behind; the next run must see to it.
func TestKilledRunIsCaughtUp(t *testing.T) {
	start, at := season(t)
	memory := newNotebook()
	newStage(t, memory, &scripted{}, at...).script(t, "clock "+stamp(start))
	memory.clock = at[0]
	s := newStage(t, memory, &scripted{}, at...)
	if o := only(t, s.script(t, "@ana hello")); o.At != stamp(at[0]) {
		t.Errorf("got %+v, want the post due at %s", o, stamp(at[0]))
	}
}

func TestEndedContextStopsBetweenDues(t *testing.T) {
	start, at := season(t)
	s := newStage(t, newNotebook(), &scripted{}, at...)
	s.script(t, "clock "+stamp(start))
	ctx, stop := context.WithCancel(t.Context())
	s.Screen.Writer = writeFunc(func(p []byte) (int, error) { stop(); return s.out.Write(p) })
	s.Do(ctx, 1, "clock +90d")
	if n := len(objects(t, s.out.String())); n != 1 {
		t.Errorf("%d posts after the context ended in the first, want 1", n)
	}
	if !s.memory.clock.Equal(at[0]) {
		t.Errorf("the clock stands at %s, want %s", s.memory.clock, at[0])
	}
}

type writeFunc func([]byte) (int, error)

func (f writeFunc) Write(p []byte) (int, error) { return f(p) }

// stuck names a due moment that does not advance.
type stuck struct{ *dues }

func (stuck) Next(_ context.Context, after, _ time.Time) (time.Time, bool, error) {
	return after, true, nil
}

func TestRunnerThatDoesNotAdvanceEndsTheWalk(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	s.Runner = stuck{s.due}
	o := only(t, s.script(t, "clock 2027-01-04T08:00:00Z", "clock +1d"))
	if o.Kind != "error" || s.Complaints() != 1 || !strings.Contains(s.log.String(), "the runner names") {
		t.Errorf("got %+v, log %s", o, s.log)
	}
}

func TestFaultOfRunnerIsAnErrorLineWithReference(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{answer: says("hello")})
	s.due.fault = errors.New("disk full")
	o := only(t, s.script(t, "clock 2027-01-04T08:00:00Z"))
	if o.Kind != "error" || o.Line != 1 || strings.Contains(o.Text, "disk") || !strings.Contains(o.Text, "T1") {
		t.Errorf("got %+v", o)
	}
	if log := s.log.String(); !strings.Contains(log, "disk full") || !strings.Contains(log, "T1") {
		t.Errorf("the log does not tell: %s", log)
	}
	s.due.fault = nil
	if o := only(t, s.script(t, "@ana hello")); o.Text != "hello" {
		t.Errorf("it did not go on: %+v", o)
	}
}

func TestFaultOfMemoryIsAnErrorLine(t *testing.T) {
	for _, raw := range []string{"clock +1d", "@ana hello", `press @ana "x"`, "edit @ana x", "delete @ana"} {
		s := newStage(t, newNotebook(), &scripted{})
		s.memory.fault = fmt.Errorf("closed")
		if o := only(t, s.script(t, raw)); o.Kind != "error" || s.Complaints() != 1 {
			t.Errorf("%q gave %+v", raw, o)
		}
	}
}
