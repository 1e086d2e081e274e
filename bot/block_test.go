package bot

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

type blockAnswer struct {
	Block *struct {
		Kind     planner.BlockKind `json:"kind"`
		Start    planner.Date      `json:"start"`
		End      planner.Date      `json:"end"`
		Week     int               `json:"week"`
		Weeks    int               `json:"weeks"`
		DaysLeft int               `json:"days_left"`
		Overdue  int               `json:"overdue_days"`
	} `json:"block"`
	Next *struct {
		Kind  planner.BlockKind `json:"kind"`
		Start planner.Date      `json:"start"`
	} `json:"next"`
	Meet *struct {
		Name     string       `json:"name"`
		Date     planner.Date `json:"date"`
		DaysLeft int          `json:"days_left"`
	} `json:"meet"`
}

func TestBlockOnFirstLastMeetAndFollowingDay(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z") // a Monday
	k.planned("ana", "2027-04-24")          // a Saturday, 16 weeks on
	season := data[struct{ Blocks []planner.Block }](t, k.ok(k.say("ana", "/season")))
	if n := len(season.Blocks); n != 3 {
		t.Fatalf("%d blocks", n)
	}
	weeks := 0
	for i, b := range season.Blocks {
		weeks += b.Weeks
		for _, day := range []planner.Date{b.Start, b.End} {
			k.now = day.At(time.UTC, 9, 0)
			got := data[blockAnswer](t, k.ok(k.say("ana", "/block")))
			if got.Block == nil || got.Block.Kind != b.Kind || got.Block.DaysLeft != day.DaysUntil(b.End) || got.Block.Weeks != b.Weeks {
				t.Errorf("on %s: %+v, want %s with %d days left", day, got.Block, b.Kind, day.DaysUntil(b.End))
			}
			if last := i == len(season.Blocks)-1; (got.Next == nil) != last {
				t.Errorf("on %s: next is %+v", day, got.Next)
			}
			if want := day.DaysUntil(planner.NewDate(2027, 4, 24)); got.Meet == nil || got.Meet.DaysLeft != want {
				t.Errorf("on %s: meet %+v, want %d days left", day, got.Meet, want)
			}
		}
	}
	if weeks != 16 {
		t.Errorf("%d weeks planned, want 16", weeks)
	}
	k.clock("2027-04-24T07:00:00Z")
	if got := data[blockAnswer](t, k.ok(k.say("ana", "/block"))); got.Block != nil || got.Meet == nil || got.Meet.DaysLeft != 0 {
		t.Errorf("on meet day: %+v %+v", got.Block, got.Meet)
	}
	k.clock("2027-04-25T07:00:00Z")
	if got := data[blockAnswer](t, k.ok(k.say("ana", "/block"))); got.Block != nil || got.Meet != nil || got.Next != nil {
		t.Errorf("the day after: %+v", got)
	}
}

func TestBlockUsesTheLiftersOwnDay(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set zone:Pacific/Auckland"))
	k.ok(k.say("ben", "/me set zone:America/Los_Angeles"))
	k.planned("ana", "2027-04-24")
	k.planned("ben", "2027-04-24")
	k.clock("2027-04-23T20:00:00Z") // 24 April in Auckland, 23 April in Los Angeles
	if got := data[blockAnswer](t, k.ok(k.say("ana", "/block"))); got.Block != nil || got.Meet.DaysLeft != 0 {
		t.Errorf("Auckland: %+v %+v", got.Block, got.Meet)
	}
	if got := data[blockAnswer](t, k.ok(k.say("ben", "/block"))); got.Block == nil || got.Block.DaysLeft != 0 || got.Meet.DaysLeft != 1 {
		t.Errorf("Los Angeles: %+v %+v", got.Block, got.Meet)
	}
}

func TestPeakingGoesOnWhenItsMeetMovesLater(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.clock("2027-04-20T09:00:00Z")
	k.ok(k.say("ana", `/meet move name:"river open" date:2027-07-24`))
	k.ok(k.press("ana", "Keep my plan"))
	k.clock("2027-05-25T09:00:00Z")
	got := data[blockAnswer](t, k.ok(k.say("ana", "/block")))
	if got.Block == nil || got.Block.Kind != planner.Peaking || got.Block.Overdue != 32 || got.Block.DaysLeft != -32 {
		t.Fatalf("five weeks past its end: %+v", got.Block)
	}
	// What the alarm says is said here too, to the lifter; aloud only how long it is.
	text := k.ok(k.say("ana", "/block")).Message.Text
	aloud := k.ok(k.say("ana", "/block aloud:yes")).Message.Text
	for _, want := range []string{"To keep muscle you need a third of", "Issurin 2008", "by River Open (in 60 days)", "From here I would plan: "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
		if strings.Contains(aloud, want) {
			t.Errorf("%q is told aloud", want)
		}
	}
	if want := "your usual limit is "; !strings.Contains(text, want) || !strings.Contains(aloud, want) {
		t.Errorf("%q is missing in %q or %q", want, text, aloud)
	}
}
