package blocks

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"blockbell/planner"
)

// TestConflictIsSmallest: whatever leaves no plan, dropping any single thing that the
// error names leaves one, and what it does not name is not to blame. A meet may be
// named without which the pins would be to blame in another way.
func TestConflictIsSmallest(t *testing.T) {
	const seed = 31
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	refused := 0
	for range 400 {
		r := randomRequest(rng)
		r.Pins = r.Pins[:min(1, len(r.Pins))]
		r.addTightPins(rng)
		r.addRandomBounds(rng)
		if rng.IntN(2) == 0 {
			r.addRandomAway(rng)
		}
		s, err := newSeason(r)
		if err != nil {
			continue
		}
		if _, err = s.solve(); err == nil {
			continue
		}
		refused++
		bad := s.conflict()
		for i, x := range bad {
			if !strings.Contains(err.Error(), x.text) {
				t.Fatalf("%s\n%q does not name %s", describe(r), err, x.text)
			}
			keep := append(append([]thing{}, bad[:i]...), bad[i+1:]...)
			if !s.possible(keep) && !(x.kind == "meet" && !s.needsAll(keep)) {
				t.Fatalf("%s\n%q: without %s there is still no plan", describe(r), err, x.text)
			}
		}
		if s.possible(bad) {
			t.Fatalf("%s\n%q: the things named have a plan", describe(r), err)
		}
	}
	if refused < 50 {
		t.Errorf("only %d requests were impossible", refused)
	}
}

// addTightPins pins more than most calendars hold.
func (r *Request) addTightPins(rng *rand.Rand) {
	for i := range 1 + rng.IntN(3) {
		kind := kindOf[rng.IntN(3)]
		r.Pins = append(r.Pins, Pin{Ordinal: i + 1, Kind: kind, Weeks: 3 + rng.IntN(10)})
	}
}

// TestConflictNamesEveryKind: a pin, a bound, a time away and a meet, each named
// where it is to blame.
func TestConflictNamesEveryKind(t *testing.T) {
	tests := []struct {
		name   string
		change func(*Request)
		named  []string
		not    []string
	}{
		{"no peaking before a main meet", func(r *Request) {
			r.Bounds = []Bound{{planner.Peaking, 0, "the club"}, {planner.Hypertrophy, 5, ""}}
		}, []string{"the bound \"no peaking\" by the club", "Meet 1"}, []string{"hypertrophy"}},
		{"a pin against the weeks that a time away leaves", func(r *Request) {
			r.Away = []Away{{monday + 14, monday + 14 + 34}, {monday - 80, monday - 60}}
			r.Pins = []Pin{{Ordinal: 1, Kind: planner.Strength, Weeks: 12}}
		}, []string{"\"block 1 strength 12 weeks\"", "time away \"Mon 18 January 2027 to Sun 21 February 2027\""}, []string{"2026"}},
		{"two pins and a bound, one of them needless", func(r *Request) {
			r.Pins = []Pin{{Ordinal: 1, Kind: planner.Strength}, {Kind: planner.Peaking, Weeks: 6}}
			r.Bounds = []Bound{{planner.Peaking, 4, "Coach Ada"}}
		}, []string{"\"peaking 6 weeks\"", "\"peaking at most 4 weeks\" by Coach Ada"}, []string{"block 1"}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, 16)
			c.change(&r)
			_, err := Build(r)
			var e *planner.Error
			if !errors.As(err, &e) || e.Kind != planner.Impossible {
				t.Fatalf("%v", err)
			}
			for _, w := range c.named {
				if !strings.Contains(e.Sentence, w) {
					t.Errorf("%q does not name %s", e.Sentence, w)
				}
			}
			for _, w := range c.not {
				if strings.Contains(e.Sentence, w) {
					t.Errorf("%q names %s", e.Sentence, w)
				}
			}
			t.Log(e.Words())
		})
	}
}

// TestStatedLimits: meets on one day, fifty meets and a meet in ten years have a plan
// that says what it leaves out.
func TestStatedLimits(t *testing.T) {
	r := fresh(planner.Intermediate, 16, 520)
	for i := range 50 {
		r.Meets = append(r.Meets, planner.Meet{ID: planner.MeetID(10 + i), Name: "Open", Kind: planner.Main, Date: r.Meets[0].Date.AddDays(14 * i)})
	}
	p := mustBuild(t, r)
	notes := strings.Join(p.Notes, " ")
	for _, w := range []string{"Two entries on", "Only the next 12 meets", "more than 156 weeks away"} {
		if !strings.Contains(notes, w) {
			t.Errorf("nothing is said of %q", w)
		}
	}
	addsUp(t, r, Plan{Blocks: p.Blocks, Meets: p.Meets})
}

// TestPeakingPinNeedsAMeet: the refusal says why nobody peaks without a meet.
func TestPeakingPinNeedsAMeet(t *testing.T) {
	r := fresh(planner.Intermediate)
	r.Pins = []Pin{{Kind: planner.Peaking, Weeks: 4}}
	_, err := Build(r)
	var e *planner.Error
	if !errors.As(err, &e) || !strings.Contains(e.Sentence, "peaking 4 weeks") || !strings.Contains(e.Hint, "Add the meet first: peaking shows strength on one day") {
		t.Errorf("%+v", err)
	}
	r = fresh(planner.Intermediate, 1)
	r.Pins = []Pin{{Kind: planner.Strength, Weeks: 5}}
	if _, err = Build(r); !errors.As(err, &e) || !strings.Contains(e.Sentence, "of 1 training week before") {
		t.Errorf("%+v", err)
	}
}
