package blocks

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

// pair is a lifter with a main meet in ten weeks, on the given weekday, and
// another so many days later. Weeks begin on Monday.
func pair(level planner.Level, first time.Weekday, days int) Request {
	r := fresh(level, 10)
	r.Rules.WeekStart = time.Monday
	r.Meets[0].Date = r.Today.AddDays(70).OnOrAfter(first)
	r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Second", Kind: planner.Main, Date: r.Meets[0].Date.AddDays(days)})
	return r
}

// afterFirst are the blocks that follow the first meet.
func afterFirst(t *testing.T, r Request) (string, Plan) {
	t.Helper()
	p := mustBuild(t, r)
	addsUp(t, r, p)
	i := planner.At(p.Blocks, r.Meets[0].Date.AddDays(-1))
	return lengths(p.Blocks[i+1:]), p
}

// TestGapKeepsTheLimit: where a longer strength block or recovery keeps the second
// peak within the limit, that comes before passing it (common practice).
func TestGapKeepsTheLimit(t *testing.T) {
	r := fresh(planner.Novice, 1)
	r.Today = day(t, "2027-01-07")
	r.Rules = Rules{WeekStart: time.Monday, WomenShorter: true}
	r.Lifter.Category, r.Lifter.Bodyweight, r.Lifter.Class = planner.Women, planner.Kilograms(65), planner.Class{Limit: planner.Kilograms(69)}
	r.Lifter.Born = day(t, "1968-01-01")
	r.Meets[0].Date = day(t, "2027-05-20")
	r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Second", Kind: planner.Main, Date: day(t, "2027-08-21")})
	if got, p := afterFirst(t, r); p.Limit.Weeks != 3 || got == "R2 S6 P5" || lastBlock(p).Weeks > 3 || len(p.Relaxed) > 0 {
		t.Errorf("13 weeks: %s at limit %d, relaxed %q", got, p.Limit.Weeks, p.Relaxed)
	}
	for _, level := range trained {
		for days := 18; days <= 210; days += sparse(5) {
			for first := time.Sunday; first <= time.Saturday; first += time.Weekday(sparse(3)) {
				r := pair(level, first, days)
				r.Lifter.Born = r.Today.AddDays(-366 * 61)
				p := mustBuild(t, r)
				n, limit := r.weeksOfGap(), PeakingLimit(r.Lifter, r.Today, r.Rules).Weeks
				// Two weeks of recovery and the limit fill 5 weeks of peaking alone at
				// limit 3; a week more is the only gap that nothing within it fills.
				if past := lastBlock(p).Weeks > limit; past != (days >= 35 && days < 49 && n == 6 && limit == 3) {
					t.Fatalf("%s, limit %d, %d weeks: %s", describe(r), limit, n, lengths(p.Blocks))
				} else if said := strings.Contains(strings.Join(p.Relaxed, " "), "above your limit"); said != past {
					t.Fatalf("%s: %s, relaxed %q", describe(r), lengths(p.Blocks), p.Relaxed)
				}
			}
		}
	}
}

func lastBlock(p Plan) planner.Block { return p.Blocks[len(p.Blocks)-1] }

// weeksOfGap counts the training weeks between the two meets.
func (r Request) weeksOfGap() int {
	return weeksIn(r.Meets[0].Date+1, r.Meets[1].Date-1, r.Rules.WeekStart)
}

// TestGapRowsGoByDays: the row is chosen by the days from meet to meet, also where
// the training weeks between them say another (common practice).
func TestGapRowsGoByDays(t *testing.T) {
	tests := []struct {
		first  time.Weekday
		days   int
		kinds  string
		blocks string // "" where more than one length fits
	}{
		{time.Saturday, 17, "P", "P3"},
		{time.Monday, 18, "RP", "R0 P2"},
		{time.Saturday, 34, "RP", "R1 P4"},
		{time.Monday, 35, "RP", "R1 P3"},
		{time.Saturday, 48, "RP", "R2 P5"},
		{time.Monday, 49, "RSP", "R0 S3 P3"},
		{time.Saturday, 49, "RSP", "R1 S3 P3"},
		{time.Saturday, 69, "RSP", ""},
		{time.Monday, 70, "RSP", ""},
		{time.Saturday, 97, "RSP", ""},
		{time.Monday, 98, "RHSP", ""},
	}
	for _, c := range tests {
		got, p := afterFirst(t, pair(planner.Intermediate, c.first, c.days))
		kinds := strings.Join(strings.FieldsFunc(got, func(r rune) bool { return r == ' ' || r >= '0' && r <= '9' }), "")
		if kinds != c.kinds || c.blocks != "" && got != c.blocks {
			t.Errorf("%d days from a %s: %s, want %s %s", c.days, c.first, got, c.kinds, c.blocks)
		}
		if len(p.Relaxed) > 0 {
			t.Errorf("%d days from a %s: relaxed %q", c.days, c.first, p.Relaxed)
		}
	}
}

// TestShortRecoveryIsTheOddDays: in a gap of 18 to 34 days recovery lasts 4 to 7
// days (common practice), or the odd days in front and one week where they are
// fewer than 4.
func TestShortRecoveryIsTheOddDays(t *testing.T) {
	for days := 18; days <= 34; days++ {
		for first := time.Sunday; first <= time.Saturday; first++ {
			r := pair(planner.Advanced, first, days)
			_, p := afterFirst(t, r)
			b := p.Blocks[planner.At(p.Blocks, r.Meets[0].Date+1)]
			odd := (r.Meets[0].Date + 1).DaysUntil((r.Meets[0].Date + 1).OnOrAfter(time.Monday))
			want := 1
			if odd >= 4 {
				want = 0
			}
			if length := b.Start.DaysUntil(b.End) + 1; b.Kind != planner.Recovery || b.Weeks != want || length != odd+7*want {
				t.Errorf("%d days from a %s: %s of %d weeks, %d days, after %d odd days", days, first, b.Kind, b.Weeks, length, odd)
			}
			if last := p.Boundaries[len(p.Boundaries)-1]; last.Date != b.End+1 || want == 0 && !strings.Contains(last.Binding, "Recovery is at its shortest, less than a week.") {
				t.Errorf("%d days from a %s: the boundary after recovery is %+v", days, first, last)
			}
		}
	}
}

// TestTwoWeeksOfRecoveryFrom60: wherever the row holds them (common practice).
func TestTwoWeeksOfRecoveryFrom60(t *testing.T) {
	for days, want := range map[int]string{
		35: "R1 P4", 42: "R2 P4", 48: "R2 P5", // 5, 6 and 7 weeks
		49: "R1 S3 P3", 56: "R2 S3 P3", 63: "R2 S3 P4", 70: "R2", 84: "R2", 98: "R2 H", 130: "R2 H",
	} {
		r := pair(planner.Advanced, time.Saturday, days)
		r.Lifter.Born = r.Today.AddDays(-366 * 61)
		if got, p := afterFirst(t, r); !strings.HasPrefix(got, want) || len(p.Relaxed) > 0 {
			t.Errorf("%d days: %s, want %s; relaxed %q", days, got, want, p.Relaxed)
		}
	}
}

// TestPinOpensOneGapOnly: pins that a row has no room for open their own gap, and
// that is said; the next gap keeps its row.
func TestPinOpensOneGapOnly(t *testing.T) {
	tests := []struct {
		pins    []Pin
		gap     string // blocks of the first gap
		relaxed string
	}{
		{[]Pin{{Ordinal: 5, Kind: planner.Strength, Weeks: 3}}, "R2 S3 P6", "the strength block lasts 3 weeks; usual for a gap of 77 days is 4 to 6"},
		{[]Pin{{Ordinal: 5, Kind: planner.Strength, Weeks: 3}, {Ordinal: 6, Kind: planner.Peaking, Weeks: 7}}, "R1 S3 P7", "the strength block lasts 3 weeks; usual for a gap of 77 days is 4 to 6"},
	}
	for _, c := range tests {
		r := fresh(planner.Intermediate, 10, 21, 33) // the rules without rows would fill 12 weeks with longer strength
		r.Pins = c.pins
		p := mustBuild(t, r)
		if got := lengths(p.Blocks); !strings.Contains(got, c.gap+" R2 S6 P4") {
			t.Errorf("pins %v: %s, want %s and the row", c.pins, got, c.gap)
		}
		if got := strings.Join(append(p.Relaxed, p.Notes...), " "); !strings.Contains(got, c.relaxed) || strings.Contains(got, "and Meet 3") {
			t.Errorf("pins %v: relaxed %q, want %q", c.pins, got, c.relaxed)
		}
	}
	r := fresh(planner.Intermediate, 10, 21, 33)
	r.Pins = []Pin{{Ordinal: 5, Kind: planner.Strength, Weeks: 3}, {Ordinal: 4, Kind: planner.Recovery, Weeks: 1}}
	_, err := Build(r) // would take 7 weeks of peaking, which nobody asked for
	if err == nil || !strings.Contains(err.Error(), "\"block 5 strength 3 weeks\" and \"block 4 recovery 1 week\"") {
		t.Errorf("pins that leave peaking past its limit: %v", err)
	}
}
