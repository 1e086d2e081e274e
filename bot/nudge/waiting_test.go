package nudge_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// latePosts lists the direct posts to somebody that speak of a block that waits into
// peaking.
func latePosts(h house, who string) (out []string) {
	for _, p := range h.board.posts {
		if p.To.Person == who && strings.Contains(strings.Join(p.Facts, " "), "/block-late/") {
			out = append(out, p.At.Format(time.DateOnly)+" "+p.Message.Text)
		}
	}
	return out
}

// Nobody presses anything: a muscle block that ended on 21 February runs into the
// peaking planned from 10 May. The three reminders are long over; lifter and captain
// hear of it when peaking should begin and when the taper should.
func TestABlockThatWaitsIntoPeakingIsToldToLifterAndCoach(t *testing.T) {
	cap := friend(2, "cap", "Cap")
	cap.Lifter.Captain, cap.Lifter.Nudges, cap.Meets, cap.Season, cap.Plan = true, planner.Direct, nil, planner.Season{}, 0
	f := club(ana(), cap)
	f.Ask = true
	h := newHouse(t, f)
	h.walk(day(time.January, 5).At(time.UTC, 0, 0), day(time.June, 11).At(time.UTC, 0, 0))
	got := latePosts(h, "ana")
	if len(got) != 2 || !strings.HasPrefix(got[0], "2027-05-10 ") || !strings.HasPrefix(got[1], "2027-05-31 ") {
		t.Fatalf("the lifter is told %q, want on 10 and 31 May", got)
	}
	for _, want := range []string{"muscle block (hypertrophy) ended 78 days ago", "peaking (heavy singles, less work) begins today", "River Open is in 33 days", "/season build"} {
		if !strings.Contains(got[0], want) {
			t.Errorf("%q is missing in %q", want, got[0])
		}
	}
	if !strings.Contains(got[1], "taper (easing off) starts Mon 31 May") {
		t.Errorf("the taper is missing in %q", got[1])
	}
	coach := latePosts(h, "cap")
	if len(coach) != 2 || !strings.HasPrefix(coach[0], "2027-05-11 ") {
		t.Fatalf("the captain is told %q, want the mornings after", coach)
	}
	for _, want := range []string{"Ana: their muscle block ended 78 days ago", "River Open", "/club board"} {
		if !strings.Contains(coach[0], want) {
			t.Errorf("%q is missing in %q", want, coach[0])
		}
	}
}

// Where the block just before peaking waits, the reminders of that week come first.
func TestTheBlockBeforePeakingHasAWeek(t *testing.T) {
	f := club(ana())
	f.Ask = true
	f.Members[0].Season.Begun[1] = day(time.February, 22)
	want := []string{"ana/block-late/b20270510/2027-05-10/peak 2027-05-17", "ana/block-late/b20270510/2027-05-10/taper 2027-05-31"}
	var got []string
	for _, n := range nudge.Due(f, yearFrom, yearTo) {
		if n.Kind == nudge.BlockLate {
			got = append(got, n.Key+" "+n.Day.String())
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("told %q, want %q", got, want)
	}
	for _, begun := range []bool{false, true} { // begun, or where blocks begin on their date: nothing
		f.Ask = begun
		f.Members[0].Season.Begun[2] = day(time.May, 16)
		for _, n := range nudge.Due(f, yearFrom, yearTo) {
			if n.Kind == nudge.BlockLate {
				t.Errorf("told %s", n.Key)
			}
		}
	}
}
