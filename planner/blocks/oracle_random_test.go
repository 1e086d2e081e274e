package blocks

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

// sameValue is how far two sums of the same few dozen terms may differ by the
// order of adding.
const sameValue = 1e-12

func (o *oracle) lengths(blocks []oBlock) string {
	var words []string
	for _, b := range o.listed(blocks) {
		words = append(words, fmt.Sprintf("%c%d", b.kind, b.length))
	}
	return strings.Join(words, " ")
}

// stretchLimits are the peaking limits of the meets of r.
func stretchLimits(r Request) []int {
	l := r.Lifter
	var out []int
	for _, m := range r.Meets {
		if m.Kind == planner.Main {
			out = append(out, PeakingLimit(l, r.Today, r.Rules).Weeks)
			l.HasCompeted = true
		}
	}
	return append(out, PeakingLimit(l, r.Today, r.Rules).Weeks)
}

// compare builds a plan and holds it against the oracle. It returns how many
// plans the oracle looked at: 0 where the rules had to give way, -1 where no plan
// is possible.
func compare(t *testing.T, r Request) int {
	t.Helper()
	p, err := Build(r)
	m := p.Model
	if err != nil {
		s, bad := newSeason(r)
		if bad != nil {
			return -1
		}
		m = s.model
	}
	o := newOracle(r, m, stretchLimits(r))
	if len(o.weeks) == 0 {
		o.noWeeks(t, p, err)
		return 1
	}
	want, ok := o.best()
	var e *planner.Error
	switch {
	case err != nil && (!errors.As(err, &e) || e.Kind != planner.Impossible || len(r.Pins)+len(r.Bounds) == 0):
		t.Fatalf("%s\nBuild: %v", describe(r), err)
	case err != nil && ok:
		t.Fatalf("%s\nBuild: %v\noracle: %s", describe(r), err, o.lengths(want.blocks))
	case err != nil:
		return -1
	case !ok && len(p.Relaxed) == 0 && !strings.Contains(strings.Join(p.Notes, " "), "cycle has"):
		t.Fatalf("%s\n%s: the oracle knows no legal plan, and nothing is said to be relaxed", describe(r), lengths(p.Blocks))
	case !ok:
		return 0
	}
	// Days too few for a training week make a block of no weeks, which the oracle
	// does not list.
	got := strings.ReplaceAll(lengths(p.Blocks)+" ", "P0 ", "")
	if got != strings.ReplaceAll(o.lengths(want.blocks)+" ", "P0 ", "") {
		t.Fatalf("%s\n got %s %.9f\nwant %s %.9f\nrelaxed %q notes %q", describe(r), got, p.Objective, o.lengths(want.blocks), want.value, p.Relaxed, p.Notes)
	}
	if math.Abs(p.Objective-want.value) > sameValue {
		t.Fatalf("%s\n%s: objective %.15f, oracle %.15f", describe(r), got, p.Objective, want.value)
	}
	return want.count
}

// noWeeks checks a plan of a few days: only what is known already counts.
func (o *oracle) noWeeks(t *testing.T, p Plan, err error) {
	t.Helper()
	if err != nil {
		if len(o.r.Pins) == 0 {
			t.Fatalf("%s\nBuild: %v", describe(o.r), err)
		}
		return
	}
	var known []oBlock
	if o.run != 0 {
		known = []oBlock{{kind: o.run, length: o.done, running: true}}
	}
	if v := o.simulate(known); math.Abs(v-p.Objective) > sameValue {
		t.Fatalf("%s\n%s: objective %.15f, oracle %.15f", describe(o.r), lengths(p.Blocks), p.Objective, v)
	}
}

func describe(r Request) string {
	t := fmt.Sprintf("today %s (%s), %s, week from %s", r.Today, r.Today.Weekday(), r.Lifter.Level, r.Rules.WeekStart)
	if r.Running != nil {
		t += fmt.Sprintf(", running %s since %s", r.Running.Kind, r.Running.Start)
	}
	for _, m := range r.Meets {
		t += fmt.Sprintf(", %s %s", m.Kind, m.Date)
	}
	return t + fmt.Sprintf(", history %v, pins %v, away %v, bounds %v, born %s long %v competed %v", r.History, r.Pins, r.Away, r.Bounds, r.Lifter.Born, r.Lifter.LongBlocks, r.Lifter.HasCompeted)
}

func TestPlanMatchesEnumeration(t *testing.T) {
	t.Parallel()
	longest := 36
	if testing.Short() {
		longest = 22
	}
	for _, level := range planner.Levels() {
		for n := 1; n <= longest; n++ {
			if compare(t, fresh(level, n)) == 0 && n != 5 {
				t.Errorf("%s, %d weeks: the rules left no plan", level, n)
			}
		}
	}
}

// randomRequest is a lifter with one or two meets in 12 to 26 weeks, or none,
// perhaps a running block, history and pins.
func randomRequest(rng *rand.Rand) Request {
	levels := planner.Levels()
	r := Request{Today: monday.AddDays(rng.IntN(900)), Rules: Rules{WeekStart: time.Weekday(rng.IntN(7)), WomenShorter: rng.IntN(2) == 0}}
	r.Lifter = planner.Lifter{Level: levels[rng.IntN(len(levels))], HasCompeted: rng.IntN(6) > 0, LongBlocks: rng.IntN(6) == 0}
	if rng.IntN(6) == 0 {
		r.Lifter.Born = r.Today.AddDays(-365 * 64)
	}
	if rng.IntN(3) == 0 {
		r.Lifter.Category, r.Lifter.Bodyweight, r.Lifter.Class = planner.Women, planner.Kilograms(55+rng.Float64()*20), planner.Class{Limit: planner.Kilograms(76)}
	}
	days := 12*7 + rng.IntN(14*7)
	if rng.IntN(3) == 0 {
		days = 1 + rng.IntN(12*7)
	}
	last := planner.Meet{ID: 2, Name: "Last", Kind: planner.Main, Date: r.Today.AddDays(days)}
	switch rng.IntN(8) {
	case 0, 1, 2:
		r.addRandomMeet(rng, planner.Main, days)
	case 3:
		r.addRandomMeet(rng, planner.TuneUp, days)
	case 4:
		r.addRandomMeet(rng, planner.Test, days)
	}
	r.Meets = append(r.Meets, last)
	switch rng.IntN(10) {
	case 0:
		r.Meets = nil
	case 1: // test days only
		for i := range r.Meets {
			r.Meets[i].Kind = planner.Test
		}
	}
	r.addRandomPast(rng)
	if p, err := Build(r); err == nil && len(p.Blocks) > 0 {
		for range rng.IntN(4) - 1 {
			r.Pins = append(r.Pins, randomPin(rng, r, p))
		}
	}
	return r
}

func (r *Request) addRandomMeet(rng *rand.Rand, kind planner.MeetKind, days int) {
	if days > 1 {
		r.Meets = append(r.Meets, planner.Meet{ID: 1, Name: "First", Kind: kind, Date: r.Today.AddDays(1 + rng.IntN(days-1))})
	}
}

func (r *Request) addRandomPast(rng *rand.Rand) {
	if rng.IntN(2) == 0 {
		r.Running = &Running{Kind: kindOf[rng.IntN(4)], Start: r.Today.AddDays(-rng.IntN(70))}
		if r.Running.Kind == planner.Recovery {
			r.Running.Start = r.Today.AddDays(-rng.IntN(16))
		}
	}
	for range rng.IntN(4) {
		r.History = append(r.History, Past{Kind: kindOf[rng.IntN(4)], Weeks: 1 + rng.IntN(12)})
	}
}

// randomPin speaks of a block near one of the plan without pins, as a coach who
// has seen it would.
func randomPin(rng *rand.Rand, r Request, p Plan) Pin {
	i := rng.IntN(len(p.Blocks))
	b := p.Blocks[i]
	pin := Pin{Weeks: max(0, b.Weeks+rng.IntN(5)-2)}
	switch rng.IntN(4) {
	case 0:
		pin.Ordinal = i + 1
	case 1:
		pin.Start = max(r.Today, b.Start.AddDays(7*rng.IntN(4)-7))
	case 2:
		pin.Ordinal, pin.Start, pin.Weeks = i+1, max(r.Today, b.Start.AddDays(7*rng.IntN(3)-7)), 0
	}
	if last := p.Blocks[len(p.Blocks)-1].End; pin.Start > last {
		pin.Start = last
	}
	if rng.IntN(2) == 0 || pin == (Pin{}) {
		pin.Kind = b.Kind
	}
	return pin
}

func TestRandomPlansMatchEnumeration(t *testing.T) {
	t.Parallel()
	const seed = 20270104
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	rounds := 2300
	if testing.Short() {
		rounds = 200
	}
	plans, relaxed, refused := 0, 0, 0
	for range rounds {
		r := randomRequest(rng)
		n := compare(t, r)
		if n > 0 {
			plans += n
			continue
		}
		if n < 0 {
			refused++
		} else {
			relaxed++
		}
	}
	t.Logf("%d instances, %d plans looked at; %d plans had to relax a rule, %d requests were impossible", rounds, plans, relaxed, refused)
}
