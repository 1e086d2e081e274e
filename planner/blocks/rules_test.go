package blocks

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

// TestPeakingLimit: common practice; each row names the rule it shows.
func TestPeakingLimit(t *testing.T) {
	kg := planner.Kilograms
	old := monday.AddDays(-61 * 366)
	tests := []struct {
		name   string
		lifter planner.Lifter
		women  bool
		gear   planner.Equipment
		weeks  int
	}{
		{"nothing known of a first-timer", planner.Lifter{}, false, "", 3},
		{"first meet, elite", planner.Lifter{Level: planner.Elite}, false, planner.MultiPly, 3},
		{"novice", planner.Lifter{Level: planner.Novice, HasCompeted: true}, true, "", 4},
		{"new", planner.Lifter{Level: planner.New, HasCompeted: true}, true, "", 4},
		{"intermediate", planner.Lifter{Level: planner.Intermediate, HasCompeted: true}, true, "", 6},
		{"advanced", planner.Lifter{Level: planner.Advanced, HasCompeted: true}, true, "", 8},
		{"elite", planner.Lifter{Level: planner.Elite, HasCompeted: true}, true, "", 10},
		{"light man", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Men, Bodyweight: kg(66)}, true, "", 5},
		{"man of 67 kg", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Men, Bodyweight: kg(67)}, true, "", 6},
		{"light woman, once only", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Women, Class: planner.Class{Limit: kg(57)}}, true, "", 5},
		{"woman, habit on", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Women, Bodyweight: kg(70)}, true, "", 5},
		{"woman, habit off", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Women, Bodyweight: kg(70)}, false, "", 6},
		{"heavy woman", planner.Lifter{Level: planner.Intermediate, HasCompeted: true, Category: planner.Women, Class: planner.Class{Limit: kg(84), Plus: true}}, true, "", 7},
		{"heavy man", planner.Lifter{Level: planner.Advanced, HasCompeted: true, Category: planner.Men, Class: planner.Class{Limit: kg(105)}}, true, "", 9},
		{"over 60", planner.Lifter{Level: planner.Advanced, HasCompeted: true, Born: old}, true, "", 7},
		{"equipped", planner.Lifter{Level: planner.Advanced, HasCompeted: true}, true, planner.SinglePly, 10},
		{"wraps are not gear", planner.Lifter{Level: planner.Advanced, HasCompeted: true}, true, planner.Wraps, 8},
		{"never under 3", planner.Lifter{Level: planner.Novice, HasCompeted: true, Category: planner.Men, Bodyweight: kg(60), Born: old}, true, "", 3},
		{"never above 13", planner.Lifter{Level: planner.Elite, HasCompeted: true, Category: planner.Men, Bodyweight: kg(120)}, true, planner.MultiPly, 13},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			got := PeakingLimitIn(c.lifter, monday, Rules{WomenShorter: c.women}, c.gear)
			if got.Weeks != c.weeks {
				t.Errorf("limit %d, want %d: %q", got.Weeks, c.weeks, got.Reasons)
			}
			for _, why := range got.Reasons {
				if !strings.Contains(why, "common practice") {
					t.Errorf("reason %q does not say common practice", why)
				}
			}
		})
	}
}

// TestGaps: the table of gaps between two main meets, common practice.
func TestGaps(t *testing.T) {
	tests := []struct {
		days  int
		level planner.Level
		after string // blocks after the first meet
		note  string
	}{
		{1, planner.Advanced, "", ""},
		{8, planner.Advanced, "P1", ""},
		{10, planner.Novice, "P2", "adds up"},
		{14, planner.Advanced, "P2", ""},
		{21, planner.Advanced, "R1 P2", ""},
		{28, planner.Novice, "R1 P3", "adds up"},
		{35, planner.Advanced, "R1 P4", ""},
		{42, planner.Novice, "R2 P4", "recovery lasts 2 weeks"},
		{48, planner.Intermediate, "R2 P5", ""},
		{48, planner.Novice, "R1 S3 P3", "also a strength block"},
		{49, planner.Advanced, "R1 S3 P3", ""},
		{63, planner.Advanced, "R1 S4 P4", ""},
		{77, planner.Intermediate, "R1 S6 P4", ""},
		{98, planner.Intermediate, "R1 H4 S6 P3", ""},
	}
	for _, c := range tests {
		r := fresh(c.level, 16)
		r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Second", Kind: planner.Main, Date: r.Meets[0].Date.AddDays(c.days)})
		p := mustBuild(t, r)
		i := planner.At(p.Blocks, r.Meets[0].Date.AddDays(-1))
		if got := lengths(p.Blocks[i+1:]); got != c.after {
			t.Errorf("%s, gap of %d days: %s, want %s", c.level, c.days, got, c.after)
		}
		if notes := strings.Join(p.Notes, " "); !strings.Contains(notes, c.note) {
			t.Errorf("%s, gap of %d days: notes %q, want %q", c.level, c.days, notes, c.note)
		}
	}
}

// TestMovedMeet: a running block when a meet moves, common practice.
func TestMovedMeet(t *testing.T) {
	tests := []struct {
		name    string
		running planner.BlockKind
		done    int
		left    int
		blocks  string
		relaxed string
		note    string
	}{
		{"strength begun, 6 left: finish it, then peak", planner.Strength, 2, 6, "S5 P3", "", ""},
		{"strength begun, 5 left: the rest is peaking", planner.Strength, 2, 5, "P5", "", ""},
		{"strength begun, 3 left", planner.Strength, 5, 3, "P3", "", ""},
		{"strength begun, 2 left: taper only", planner.Strength, 5, 2, "P2", "", ""},
		{"hypertrophy, 5 left: straight to peaking", planner.Hypertrophy, 3, 5, "P5", "", "80-85 %"},
		{"hypertrophy just begun, 6 left", planner.Hypertrophy, 1, 6, "S3 P3", "ends after 1 week", ""},
		{"peaking goes on to limit + 2", planner.Peaking, 4, 4, "P8", "", "2 weeks past your limit"},
		{"peaking would go on too long", planner.Peaking, 4, 8, "S4 P4", "", ""},
		{"peaking too long, no time for anything else", planner.Peaking, 6, 5, "P11", "above your limit of 6", ""},
		{"recovery just begun, 3 left", planner.Recovery, 0, 3, "P3", "", ""},
		{"after the last meet, recovery runs", planner.Recovery, 0, 12, "R1 H4 S4 P3", "", ""},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			r := fresh(planner.Intermediate, c.left)
			r.Running = &Running{c.running, monday.AddDays(-7 * c.done)}
			p := mustBuild(t, r)
			if got := lengths(p.Blocks); got != c.blocks {
				t.Errorf("%s, want %s", got, c.blocks)
			}
			if got := strings.Join(p.Relaxed, " "); !strings.Contains(got, c.relaxed) || c.relaxed == "" && got != "" {
				t.Errorf("relaxed %q, want %q", got, c.relaxed)
			}
			if got := strings.Join(p.Notes, " "); !strings.Contains(got, c.note) {
				t.Errorf("notes %q, want %q", got, c.note)
			}
			addsUp(t, r, p)
		})
	}
}

func TestLeftOutIsSaid(t *testing.T) {
	for weeks, want := range map[int][]planner.BlockKind{
		2: {planner.Hypertrophy, planner.Strength}, 9: {planner.Hypertrophy}, 16: {},
	} {
		if got := mustBuild(t, fresh(planner.Intermediate, weeks)).LeftOut; !slices.Equal(got, want) {
			t.Errorf("%d weeks: left out %q, want %q", weeks, got, want)
		}
	}
}

func TestTuneUp(t *testing.T) {
	t.Run("lies in strength, peaking or late in hypertrophy", func(t *testing.T) {
		for at := 1; at <= 17; at++ {
			r := fresh(planner.Intermediate, 20)
			d := monday.AddDays(7*at - 2)
			r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Practice", Kind: planner.TuneUp, Date: d})
			p := mustBuild(t, r)
			i := planner.At(p.Blocks, d)
			inside := i >= 0 && (p.Blocks[i].Kind == planner.Strength || p.Blocks[i].Kind == planner.Peaking ||
				p.Blocks[i].Kind == planner.Hypertrophy && weeksIn(p.Blocks[i].Start, d, time.Monday) > 3)
			eve := planner.At(p.Blocks, d-1)
			if !inside && !(i < 0 && p.Blocks[eve].Kind == planner.Peaking) {
				t.Errorf("week %d: %s", at, lengths(p.Blocks))
			}
			if len(p.Relaxed) > 0 {
				t.Errorf("week %d: relaxed %q", at, p.Relaxed)
			}
		}
	})
	t.Run("less than 3 weeks before the main meet", func(t *testing.T) {
		r := fresh(planner.Intermediate, 20)
		r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Practice", Kind: planner.TuneUp, Date: r.Meets[0].Date - 14})
		if got := mustBuild(t, r).Relaxed; len(got) != 1 || !strings.Contains(got[0], "less than 3 weeks") {
			t.Errorf("relaxed %q", got)
		}
	})
	t.Run("in the running hypertrophy", func(t *testing.T) {
		r := fresh(planner.Intermediate, 20)
		r.Running = &Running{planner.Hypertrophy, monday - 7}
		r.Meets = append(r.Meets, planner.Meet{ID: 2, Name: "Practice", Kind: planner.TuneUp, Date: monday + 5})
		p := mustBuild(t, r)
		if len(p.Relaxed) != 1 || !strings.Contains(p.Relaxed[0], "muscle block") || p.Blocks[0].Weeks < 4 {
			t.Errorf("%s, relaxed %q", lengths(p.Blocks), p.Relaxed)
		}
	})
	t.Run("nothing behind it", func(t *testing.T) {
		r := fresh(planner.Intermediate, 16)
		r.Meets[0].Kind = planner.TuneUp
		p := mustBuild(t, r)
		if got := lengths(p.Blocks); got != lengths(mustBuild(t, fresh(planner.Intermediate, 16)).Blocks) || !strings.Contains(p.Notes[0], "No main meet follows") {
			t.Errorf("%s, notes %q", got, p.Notes)
		}
	})
}

func TestRolling(t *testing.T) {
	share := map[planner.Level]int{planner.New: 55, planner.Novice: 55, planner.Intermediate: 50, planner.Advanced: 40, planner.Elite: 40}
	for level, most := range share {
		p := mustBuild(t, fresh(level))
		sum := 0
		for _, b := range p.Blocks {
			sum += b.Weeks
		}
		if h := weeksOf(p, planner.Hypertrophy); sum != 14 || 100*h > most*sum || p.Blocks[len(p.Blocks)-1].Kind != planner.Strength {
			t.Errorf("%s: %s", level, lengths(p.Blocks))
		}
		if !strings.Contains(strings.Join(p.Notes, " "), "rolling cycle") {
			t.Errorf("%s: notes %q", level, p.Notes)
		}
	}
	t.Run("a test day closes it", func(t *testing.T) {
		r := fresh(planner.Intermediate, 14)
		r.Meets[0].Kind = planner.Test
		p := mustBuild(t, r)
		if last := p.Blocks[len(p.Blocks)-1]; last.End != r.Meets[0].Date-1 {
			t.Errorf("%s ends on %s, test on %s", lengths(p.Blocks), last.End, r.Meets[0].Date)
		}
	})
	t.Run("running peaking ends at once", func(t *testing.T) {
		r := fresh(planner.Intermediate)
		r.Running = &Running{planner.Peaking, monday - 14}
		if p := mustBuild(t, r); weeksOf(p, planner.Peaking) != 0 {
			t.Errorf("%s", lengths(p.Blocks))
		}
	})
}

func TestManyMeets(t *testing.T) {
	r := fresh(planner.Intermediate, 12, 24, 36)
	twin := r.Meets[1]
	twin.ID, twin.Name, twin.Kind = 9, "Same day", planner.TuneUp
	p := mustBuild(t, r)
	r.Meets = append(r.Meets, twin)
	q := mustBuild(t, r)
	if lengths(p.Blocks) != lengths(q.Blocks) || p.Objective != q.Objective || len(q.Meets) != 4 {
		t.Errorf("two entries on one day: %s, one: %s; %d meets", lengths(q.Blocks), lengths(p.Blocks), len(q.Meets))
	}
	far := fresh(planner.Intermediate, 20, 170)
	if p := mustBuild(t, far); len(p.Meets) != 1 || !strings.Contains(strings.Join(p.Notes, " "), "156 weeks") {
		t.Errorf("meet in 170 weeks: %d meets, notes %q", len(p.Meets), p.Notes)
	}
	var weeks []int
	for i := range 14 {
		weeks = append(weeks, 8*(i+1))
	}
	if p := mustBuild(t, fresh(planner.Novice, weeks...)); len(p.Meets) != maxMeets || p.Blocks[len(p.Blocks)-1].End != p.Meets[maxMeets-1].Date-1 {
		t.Errorf("14 meets: %d planned, %s", len(p.Meets), lengths(p.Blocks))
	}
}

func TestTaper(t *testing.T) {
	tests := []struct {
		level planner.Level
		event planner.EventKind
		mass  float64
		days  int
	}{
		{planner.New, planner.Full, 80, 7}, {planner.Novice, planner.Full, 80, 7}, {planner.Intermediate, planner.Full, 80, 11},
		{planner.Advanced, planner.Full, 80, 14}, {planner.Elite, planner.Full, 80, 15}, {planner.Novice, planner.Full, 106, 15},
		{planner.Elite, planner.BenchOnly, 80, 8},
	}
	for _, c := range tests {
		r := fresh(c.level, 16)
		r.Lifter.Bodyweight, r.Meets[0].Event = planner.Kilograms(c.mass), c.event
		p := mustBuild(t, r)
		last := p.Blocks[len(p.Blocks)-1]
		if got := last.TaperStart.DaysUntil(r.Meets[0].Date); got != c.days {
			t.Errorf("%s %s at %g kg: taper of %d days, want %d", c.level, c.event, c.mass, got, c.days)
		}
	}
}

// TestWords: words that a first-year lifter does not know never reach the screen.
func TestWords(t *testing.T) {
	t.Parallel()
	forbidden := []string{"runway", "accommodation", "residual", "macrocycle", "slope", "dominance"}
	rng := rand.New(rand.NewPCG(11, 11))
	for range 300 {
		r := randomRequest(rng)
		p, err := Build(r)
		text := ""
		if err != nil {
			text = err.Error()
		}
		for _, b := range p.Blocks {
			text += " " + b.Reason
		}
		for _, b := range p.Boundaries {
			text += " " + b.Binding
		}
		text = strings.ToLower(text + strings.Join(p.Notes, " ") + strings.Join(p.Relaxed, " ") + strings.Join(p.Limit.Reasons, " "))
		for _, w := range forbidden {
			if strings.Contains(text, w) {
				t.Fatalf("%q in %q", w, text)
			}
		}
	}
}

// TestStrengthBetweenTwo: at least 4 weeks of strength lie between two
// hypertrophy blocks, also where one of them was before the plan.
func TestStrengthBetweenTwo(t *testing.T) {
	for n, want := range map[int]bool{11: false, 12: true} {
		r := fresh(planner.Intermediate, n)
		r.Running = &Running{planner.Strength, monday.AddDays(-14)}
		r.History = []Past{{planner.Hypertrophy, 6}}
		s, err := newSeason(r)
		if err != nil {
			t.Fatal(err)
		}
		s.weigh()
		plan := []step{{kind: iS, total: n - 8}, {kind: iH, total: 4}, {kind: iS, total: 3}, {kind: iP, total: 3}}
		if got := s.newGraph(loosening{free: true}).allows(plan); got != want {
			t.Errorf("hypertrophy again after %d weeks of strength: allowed %v, want %v", n-8, got, want)
		}
	}
}
