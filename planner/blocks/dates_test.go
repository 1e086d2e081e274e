package blocks

import (
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/planner"
)

// addsUp checks that the blocks of a plan follow each other without a hole but
// the days of meets, cover the time from today to the eve of the last meet, and
// count exactly the training weeks that begin in them.
func addsUp(t *testing.T, r Request, p Plan) {
	t.Helper()
	end := p.Meets[len(p.Meets)-1].Date
	at := r.Today
	for i, b := range p.Blocks {
		if i == 0 && r.Running != nil && b.Start == r.Running.Start {
			at = b.Start
		}
		if b.Start != at && !(b.Start == at+1 && meetOn(p, at)) {
			t.Fatalf("%s\n%s: block %d begins on %s, the one before ends on %s", describe(r), lengths(p.Blocks), i+1, b.Start, at.AddDays(-1))
		}
		if b.End < b.Start {
			t.Fatalf("%s\n%s: block %d ends on %s before it begins on %s", describe(r), lengths(p.Blocks), i+1, b.End, b.Start)
		}
		n := weeksIn(b.Start, b.End, r.Rules.WeekStart)
		short := n == 0 && b.Weeks == 1 && b.Start.DaysUntil(b.End) >= 3
		if b.Weeks != n && !short {
			t.Fatalf("%s\n%s: block %d has %d weeks, but %d begin in it", describe(r), lengths(p.Blocks), i+1, b.Weeks, n)
		}
		if !b.TaperStart.IsZero() && !b.Contains(b.TaperStart) {
			t.Fatalf("taper from %s outside %s to %s", b.TaperStart, b.Start, b.End)
		}
		if b.Reason == "" {
			t.Fatalf("block %d has no reason", i+1)
		}
		at = b.End.AddDays(1)
	}
	for at < end && meetOn(p, at) {
		at++ // meets on days in a row
	}
	if at != end {
		t.Fatalf("%s\n%s: the last block ends on %s, the meet is on %s", describe(r), lengths(p.Blocks), at.AddDays(-1), end)
	}
}

func meetOn(p Plan, d planner.Date) bool {
	for _, m := range p.Meets {
		if m.Date == d {
			return true
		}
	}
	return false
}

func TestRandomPlansAddUp(t *testing.T) {
	const seed = 42
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 42))
	for range 400 {
		r := randomRequest(rng)
		p, err := Build(r)
		if err != nil || len(p.Meets) == 0 || p.Meets[len(p.Meets)-1].Kind != planner.Main || len(p.Blocks) == 0 {
			continue
		}
		addsUp(t, r, p)
		score := p.Model.Objective(p.Blocks, p.Marks)
		if score != p.Parts || p.Parts.Total != p.Objective {
			t.Fatalf("%s: parts %+v do not add up to %v", describe(r), p.Parts, p.Objective)
		}
		for _, b := range p.Boundaries {
			for _, c := range []*float64{b.Earlier, b.Later} {
				if c != nil && *c < -100*tie {
					t.Fatalf("%s\n%s: moving the boundary on %s costs %g", describe(r), lengths(p.Blocks), b.Date, *c)
				}
			}
			if (b.Earlier == nil || b.Later == nil) && b.Binding == "" {
				t.Fatalf("%s\n%s: no rule named for the boundary on %s", describe(r), lengths(p.Blocks), b.Date)
			}
		}
	}
}

func TestDates(t *testing.T) {
	tests := []struct {
		name         string
		today, meet  string
		weekStart    time.Weekday
		blocks       string
		firstEnd     string // last day of the first block
		secondStarts time.Weekday
	}{
		{"Monday to Saturday", "2027-01-04", "2027-03-27", time.Monday, "H4 S5 P3", "2027-01-31", time.Monday},
		{"odd days join the first block", "2026-12-30", "2027-03-27", time.Monday, "H4 S5 P3", "2027-01-31", time.Monday},
		{"six odd days", "2026-12-29", "2027-03-27", time.Monday, "H4 S5 P3", "2027-01-31", time.Monday},
		{"weeks from Sunday", "2027-01-04", "2027-03-27", time.Sunday, "H4 S4 P3", "2027-02-06", time.Sunday},
		{"weeks from Thursday", "2027-01-04", "2027-03-27", time.Thursday, "H4 S5 P3", "2027-02-03", time.Thursday},
		{"meet on the week's first day", "2027-01-04", "2027-03-29", time.Monday, "H4 S5 P3", "2027-01-31", time.Monday},
		{"over a leap day", "2028-01-03", "2028-03-25", time.Monday, "H4 S5 P3", "2028-01-30", time.Monday},
		{"meet on a leap day", "2027-12-06", "2028-02-29", time.Monday, "H5 S5 P3", "2028-01-09", time.Monday},
		{"over the year's end", "2026-11-02", "2027-01-23", time.Monday, "H4 S5 P3", "2026-11-29", time.Monday},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, 1)
			r.Today, r.Meets[0].Date, r.Rules.WeekStart = day(t, c.today), day(t, c.meet), c.weekStart
			p := mustBuild(t, r)
			addsUp(t, r, p)
			if got := lengths(p.Blocks); got != c.blocks {
				t.Errorf("blocks %s, want %s", got, c.blocks)
			}
			if got := p.Blocks[0].End; got != day(t, c.firstEnd) {
				t.Errorf("the first block ends on %s, want %s", got, c.firstEnd)
			}
			if got := p.Blocks[1].Start.Weekday(); got != c.secondStarts {
				t.Errorf("the second block begins on a %s, want %s", got, c.secondStarts)
			}
		})
	}
}

func day(t *testing.T, text string) planner.Date {
	t.Helper()
	d, err := planner.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestEveryWeekday: whatever weekday weeks begin on and the meets fall on, the
// plan adds up, before and after the first meet.
func TestEveryWeekday(t *testing.T) {
	for start := time.Sunday; start <= time.Saturday; start++ {
		for d := range 14 {
			r := fresh(planner.Intermediate, 14, 30)
			r.Rules.WeekStart = start
			r.Today = r.Today.AddDays(d)
			r.Meets[0].Date = r.Meets[0].Date.AddDays(d / 2)
			r.Meets[1].Date = r.Meets[1].Date.AddDays(d % 9)
			addsUp(t, r, mustBuild(t, r))
		}
	}
}

// TestNearMeets: every day of notice gives a plan that adds up, down to the eve.
func TestNearMeets(t *testing.T) {
	for days := 1; days <= 60; days++ {
		r := fresh(planner.Intermediate, 1)
		r.Today = r.Today.AddDays(2) // a Wednesday
		r.Meets[0].Date = r.Today.AddDays(days)
		p := mustBuild(t, r)
		addsUp(t, r, p)
		if k := p.Blocks[len(p.Blocks)-1].Kind; k != planner.Peaking {
			t.Errorf("%d days: the last block is %s", days, k)
		}
	}
}

// TestShift: all dates moved by whole weeks move the answer and nothing else.
func TestShift(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	for range 60 {
		r := randomRequest(rng)
		r.Lifter.Born = 0 // ages do not move with the calendar
		p, err := Build(r)
		if err != nil {
			continue
		}
		by := 7 * (1 + rng.IntN(200))
		q := mustBuild(t, shifted(r, by))
		if len(p.Blocks) != len(q.Blocks) || p.Objective != q.Objective {
			t.Fatalf("%s\n%s, %d days later %s", describe(r), lengths(p.Blocks), by, lengths(q.Blocks))
		}
		for i := range p.Blocks {
			if p.Blocks[i].Start.AddDays(by) != q.Blocks[i].Start || p.Blocks[i].End.AddDays(by) != q.Blocks[i].End {
				t.Fatalf("%s\nblock %d: %+v, %d days later %+v", describe(r), i+1, p.Blocks[i], by, q.Blocks[i])
			}
		}
	}
}

func shifted(r Request, by int) Request {
	q := r
	q.Today = r.Today.AddDays(by)
	if r.Running != nil {
		q.Running = &Running{Kind: r.Running.Kind, Start: r.Running.Start.AddDays(by)}
	}
	q.Meets, q.Pins, q.Away, q.Agreed = nil, nil, nil, nil
	for _, a := range r.Away {
		q.Away = append(q.Away, Away{a.From.AddDays(by), a.To.AddDays(by)})
	}
	for _, b := range r.Agreed {
		b.Start, b.End = b.Start.AddDays(by), b.End.AddDays(by)
		q.Agreed = append(q.Agreed, b)
	}
	for _, m := range r.Meets {
		m.Date = m.Date.AddDays(by)
		q.Meets = append(q.Meets, m)
	}
	for _, p := range r.Pins {
		if !p.Start.IsZero() {
			p.Start = p.Start.AddDays(by)
		}
		q.Pins = append(q.Pins, p)
	}
	return q
}
