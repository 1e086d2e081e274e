package nudge_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
)

// friend is Ana's plan under another name, told in the channel.
func friend(id planner.LifterID, handle, name string) nudge.Member {
	m := ana()
	m.Lifter.ID, m.Lifter.Handle, m.Lifter.Name, m.Lifter.Nudges = id, handle, name, planner.Channel
	m.Meets = slices.Clone(m.Meets)
	return m
}

// told runs a club once on a day at its hour and returns the post with the key.
func told(t *testing.T, f nudge.Facts, d planner.Date, key string) chat.Post {
	t.Helper()
	h := newHouse(t, f)
	h.run(d.At(time.UTC, 8, 0))
	for _, p := range h.board.posts {
		if p.Key == key {
			return p
		}
	}
	t.Fatalf("no post %s among %q", key, h.board.keys())
	return chat.Post{}
}

func labels(m chat.Message) []string {
	var all []string
	for _, b := range m.Buttons {
		all = append(all, b.Label)
	}
	return all
}

func TestWordsOfTheClubPost(t *testing.T) {
	ben, cy := friend(2, "ben", "Ben"), friend(3, "cy", "Cy")
	ben.Meets[0].Name = "river open" // the same meet, typed by another
	cy.Meets[0].Kind = planner.TuneUp
	cy.Meets = append(cy.Meets, planner.Meet{ID: 13, Name: "Gym Max", Kind: planner.Test, Date: day(time.June, 13)})
	tests := []struct {
		day  planner.Date
		want string
	}{
		{day(time.February, 18), "2 lifters have something new."},
		{day(time.February, 22), "Strength block begins today: Ana, Ben, Cy"},
		{day(time.May, 15), "River Open in 4 weeks: Ana, Ben (Sat 12 June)\nPractice meet River Open in 4 weeks: Cy (Sat 12 June)"},
		{day(time.May, 31), "Taper (easing off) starts today for River Open, Sat 12 June: Ana, Ben, Cy"},
		{day(time.June, 6), "Test day Gym Max in 1 week: Cy (Sun 13 June)"},
		{day(time.June, 8), "2 lifters have something new."},
		{day(time.June, 11), "River Open is tomorrow: Ana, Ben (Sat 12 June)\nPractice meet River Open is tomorrow: Cy (Sat 12 June)"},
	}
	for _, tt := range tests {
		p := told(t, club(cy, ben, ana()), tt.day, "club/"+tt.day.String())
		// What was due on earlier days of the fortnight and is still worth saying is
		// not repeated here: each case starts with an empty ledger.
		if !strings.Contains(p.Message.Text, tt.want) {
			t.Errorf("on %s the club reads\n%s\nwant in it\n%s", tt.day, p.Message.Text, tt.want)
		}
		if p.To != (chat.Target{Channel: "#announcements"}) || p.Message.Title != tt.day.Short() {
			t.Errorf("on %s it goes to %+v under %q", tt.day, p.To, p.Message.Title)
		}
	}
}

func TestWordsOfADirectMessage(t *testing.T) {
	p := told(t, club(ana()), day(time.February, 18), "direct/ana/2027-02-18")
	want := "Your muscle block (hypertrophy) ends Sun 21 February, then strength block.\n" +
		"That is the date in the plan you agreed to.\nIf that suits you, there is nothing to do."
	if p.Message.Text != want {
		t.Errorf("Ana reads\n%s\nwant\n%s", p.Message.Text, want)
	}
	if got, want := labels(p.Message), []string{"Not yet, one more week", "Remind me tomorrow", "Fewer of these"}; !slices.Equal(got, want) {
		t.Errorf("buttons %q, want %q", got, want)
	}
	for _, b := range p.Message.Buttons {
		if b.Owner != "ana" || !b.Expires.Equal(eight.AddDate(0, 0, 7)) {
			t.Errorf("%q belongs to %q until %s", b.Label, b.Owner, b.Expires)
		}
	}
}

// The peak before a meet cannot be made longer, so that is not offered.
func TestNoMoreWeeksOfPeakingAreOffered(t *testing.T) {
	p := told(t, club(ana()), day(time.June, 8), "direct/ana/2027-06-08")
	if slices.Contains(labels(p.Message), "Not yet, one more week") {
		t.Errorf("offered under %q", p.Message.Text)
	}
}

func TestWaitingBlockOffersToBegin(t *testing.T) {
	f := club(ana())
	f.Ask = true
	p := told(t, f, day(time.February, 22), "direct/ana/2027-02-22")
	if got, want := labels(p.Message), []string{"Begin it", "Not yet, one more week", "Fewer of these"}; !slices.Equal(got, want) {
		t.Errorf("buttons %q, want %q", got, want)
	}
	if want := "ended on Sun 21 February.\nBy plan the next is strength block, from Mon 22 February; it waits for you."; !strings.Contains(p.Message.Text, want) {
		t.Errorf("Ana reads %q", p.Message.Text)
	}
}

// The figures stand beside each other: muscle lost and the change of the single;
// the limit is told with its reasons, and every reason is marked as common practice.
func TestWordsOfLongPeaking(t *testing.T) {
	m := ana()
	m.Meets[0].Date = day(time.July, 24)
	h := newHouse(t, club(m))
	h.run(day(time.June, 21).At(time.UTC, 8, 0))
	if len(h.board.posts) != 1 || h.board.posts[0].To.Person != "ana" {
		t.Fatalf("posted %q, want one direct message", h.board.keys())
	}
	// Intermediate: dm = 0.0020 a week, that is 0.2 % (the planner's table of levels).
	lines := strings.Split(h.board.posts[0].Message.Text, "\n")
	if len(lines) != 6 {
		t.Fatalf("%d lines, want six: %q", len(lines), lines)
	}
	if want := "Day 43 of peaking, week 7; your usual limit is 6 weeks (intermediate lifters: 6 weeks, common practice)."; lines[0] != want {
		t.Errorf("it begins %q, want %q", lines[0], want)
	}
	if want := "in one more week about 0.2 % of muscle goes and the single "; !strings.Contains(lines[3], want) {
		t.Errorf("then %q, want %q", lines[3], want)
	}
	// Five training weeks begin on the way to Sat 24 July.
	if want := "by River Open (in 33 days) about 1.0 % of muscle goes"; !strings.Contains(lines[3], want) {
		t.Errorf("then %q, want %q", lines[3], want)
	}
	if want := "From here I would plan: "; !strings.HasPrefix(lines[4], want) || !strings.HasSuffix(lines[5], "/season build lays it out.") {
		t.Errorf("then %q, want %q", lines[4:], want)
	}
}

// A hundred lifters with different news still make one message within the limits.
func TestClubPostKeepsToTheLimitOfAMessage(t *testing.T) {
	f := club()
	for i := range 100 {
		m := friend(planner.LifterID(i+1), fmt.Sprintf("lifter%02d", i), fmt.Sprintf("Lifter %02d of the long name", i))
		m.Meets[0].Name, m.Meets[0].Date = fmt.Sprintf("Meet number %02d in a hall far away", i), day(time.March, 18)
		f.Members = append(f.Members, m)
	}
	p := told(t, f, day(time.February, 18), "club/2027-02-18")
	if n := len([]rune(p.Message.Text)); n > chat.MaxText || n < chat.MaxText/2 {
		t.Errorf("%d characters, want at most %d and most of them used", n, chat.MaxText)
	}
	if !strings.Contains(p.Message.Text, "more lines; each lifter finds theirs with /block.") {
		t.Errorf("what was left out is not counted: …%s", p.Message.Text[len(p.Message.Text)-80:])
	}
	if len(p.Facts) < 100 {
		t.Errorf("only %d facts settled", len(p.Facts))
	}
}
