package strength_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// slowly is an intermediate lifter of whom 0.08 % a week is expected, flat since week
// 26, in blocks of eight weeks.
func slowly(seed uint64, week int) strength.Reading {
	a := newAthlete(seed, halting(150, 0.0008, 26))
	a.blocks = cycles(12)
	return a.read(a.train(0, week), monday.AddDays(7*week), planner.Intermediate, 0.0008)
}

// Where only block ends can tell, the answer says so, when the next two are there and
// how often they would show a halt; on that day they are there, with about that power.
func TestSlowLiftersHearWhenTheNextComparisonIs(t *testing.T) {
	foretold, came := 0.0, 0.0
	for _, c := range []struct {
		today, ends int // weeks
		kind        string
	}{{12, 24, "muscle"}, {20, 24, "muscle"}, {31, 32, "strength"}, {39, 48, "strength"}, {38, 48, "strength"}} {
		for seed := range uint64(5) {
			r := slowly(seed, c.today)
			if r.Test.Ends != nil && r.Test.Ends.Last.DaysUntil(monday.AddDays(7*c.today)) <= 42 {
				continue // compared just now
			}
			next, day := r.Test.Next, monday.AddDays(7*c.ends-1)
			if next == nil || next.Last != day || !strings.HasPrefix(string(next.Kind), map[string]string{"muscle": "hyper", "strength": "strength"}[c.kind]) {
				t.Fatalf("week %d: the next comparison is %+v, want %s", c.today, next, day)
			}
			if r.Verdict != strength.TooLittle && r.Verdict != strength.Rising {
				t.Errorf("week %d: %s: %s", c.today, r.Verdict, r.Reason)
			}
			for _, want := range []string{"+0.08 % a week", c.kind + " block", day.Short(), fmt.Sprintf("%.0f of 100", 100*next.Power)} {
				if r.Verdict == strength.TooLittle && !strings.Contains(r.Reason, want) {
					t.Errorf("week %d: %q lacks %q", c.today, r.Reason, want)
				}
			}
			then := slowly(seed, c.ends).Test.Ends
			if then == nil || then.Last != day || then.First != next.First {
				t.Fatalf("week %d: foretold %+v, came %+v", c.today, next, then)
			}
			foretold, came = foretold+next.Power, came+then.Power
		}
	}
	// Days logged in single weeks differ, so the power is held against the mean.
	if math.Abs(foretold/came-1) > 0.15 {
		t.Errorf("power foretold %.2f of what came", foretold/came)
	}
	t.Logf("seeds 0 to 4: power foretold %.2f of what came", foretold/came)
}

// Without a second block of a kind, or any block, that is said, and a layoff that is to
// come parts two ends like one that was.
func TestSlowLiftersWithoutAPairToCome(t *testing.T) {
	a := newAthlete(3, halting(150, 0, 0))
	h := strength.History{
		Lift: planner.Squat, Today: monday.AddDays(140), Level: planner.Advanced, Sets: a.train(0, 20),
		Expected: func(planner.Date) float64 { return 0.0005 },
	}
	if r := strength.Read(h); r.Test.Next != nil || !strings.Contains(r.Reason, "no plan") || strings.Contains(r.Reason, "your plan") {
		t.Errorf("no blocks: %+v: %s", r.Test.Next, r.Reason)
	}
	h.Blocks = cycles(3)[1:]
	if r := strength.Read(h); r.Test.Next != nil || !strings.Contains(r.Reason, "no two blocks") {
		t.Errorf("no second block of a kind: %+v: %s", r.Test.Next, r.Reason)
	}
	h.Blocks = cycles(6)
	h.Away = []strength.Span{{From: monday.AddDays(150), To: monday.AddDays(166)}}
	if r := strength.Read(h); r.Test.Next == nil || r.Test.Next.Last != monday.AddDays(5*56-1) || r.Test.Next.First != monday.AddDays(3*56-1) {
		t.Errorf("with a layoff to come: %+v: %s", r.Test.Next, r.Reason)
	}
	h.Expected = func(planner.Date) float64 { return -0.0002 }
	if r := strength.Read(h); !strings.Contains(r.Reason, "only a fall") {
		t.Errorf("nothing expected: %s", r.Reason)
	}
}
