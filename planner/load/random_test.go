package load_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
)

// randomRequest is a request nobody thought of: any season, meets anywhere,
// absences, lifts off, few discs, few estimates.
func randomRequest(rng *rand.Rand) load.Request {
	levels := append(planner.Levels(), "")
	kinds := []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery}
	events := []planner.EventKind{"", planner.Full, planner.BenchOnly, planner.PushPull, planner.DeadliftOnly}
	r := load.Request{WeekStart: time.Weekday(rng.IntN(7))}
	r.Lifter = planner.Lifter{Level: levels[rng.IntN(len(levels))], Days: rng.IntN(7), HasCompeted: rng.IntN(3) > 0, Bodyweight: kg(float64(rng.IntN(160)))}
	if rng.IntN(4) > 0 {
		r.Lifter.Born = monday.AddDays(-365 * (13 + rng.IntN(70)))
	}
	at := monday
	for range 1 + rng.IntN(4) {
		days := 1 + rng.IntN(120)
		r.Season = append(r.Season, planner.Block{Kind: kinds[rng.IntN(4)], Start: at, End: at.AddDays(days - 1), Weeks: (days + 6) / 7})
		at = at.AddDays(days + rng.IntN(2))
	}
	b := r.Season[rng.IntN(len(r.Season))]
	r.Today = b.Start.AddDays(rng.IntN(b.Start.DaysUntil(b.End) + 1))
	for range rng.IntN(4) {
		r.Meets = append(r.Meets, planner.Meet{Date: monday.AddDays(rng.IntN(300) - 30), Kind: []planner.MeetKind{planner.Main, planner.TuneUp, planner.Test}[rng.IntN(3)], Event: events[rng.IntN(5)]})
	}
	r.Estimates = map[planner.Lift]load.Estimate{}
	for _, l := range planner.CompetitionLifts() {
		if rng.IntN(5) > 0 {
			r.Estimates[l] = load.Estimate{Kg: 20 + 400*rng.Float64(), SD: 20 * rng.Float64(), Source: []load.Source{load.Trend, load.Claimed}[rng.IntN(2)]}
		}
	}
	if rng.IntN(3) == 0 {
		r.Aways = []planner.Away{{From: r.Today.AddDays(-rng.IntN(120)), To: r.Today.AddDays(-1 - rng.IntN(20))}}
	}
	if rng.IntN(4) == 0 {
		r.Off = []load.Off{{Lift: planner.CompetitionLifts()[rng.IntN(3)], From: r.Today.AddDays(-rng.IntN(60)), Until: r.Today.AddDays(rng.IntN(40) - 20)}}
	}
	gear := []load.Gear{load.Barbell, load.Rack, load.BenchGear, load.Dumbbells, load.Cable, load.LegRoom, load.Bars, load.Boxes}
	for rng.IntN(3) == 0 {
		r.Gym.Missing = append(r.Gym.Missing, gear[rng.IntN(len(gear))])
	}
	if rng.IntN(4) == 0 {
		r.Gym.Unit = planner.LB
	}
	if rng.IntN(6) == 0 {
		r.Version = load.Cautious
	}
	r.Supervised = rng.IntN(2) == 0
	if rng.IntN(2) == 0 {
		r.Equation = strength.Equations()[rng.IntN(7)]
	}
	return r
}

func TestAnyRequestGivesASoundWeek(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	for range 4000 {
		r := randomRequest(rng)
		p, err := load.Week(r)
		if err != nil {
			t.Fatalf("%+v: %v", r, err)
		}
		last := planner.Date(0)
		for _, d := range p.Days {
			sets := 0
			for _, w := range d.Work {
				sets += w.Sets
				if w.Percent > 94 || w.Role != load.Accessory && w.Reserve < 1 || w.Sets < 1 || w.Reps < 1 || w.Why == "" || w.Name == "" {
					t.Fatalf("%+v\n%+v", r, w)
				}
				if loading, err := load.Plates(max(w.Weight, 1), r.Gym); w.Weight > 0 && (err != nil || !loading.Exact) {
					t.Fatalf("%+v: %s cannot be made: %v", r.Gym, w.Weight.Text(r.Gym.Unit), err)
				}
			}
			if d.Date <= last || d.Date < p.Start || d.Date > p.End || sets > 20 || d.Minutes > 100 || len(d.Work) == 0 {
				t.Fatalf("%+v\n%+v", r, d)
			}
			for _, m := range r.Meets {
				if m.Kind == planner.Main && m.Date == d.Date && p.Block != planner.Hypertrophy && p.Block != planner.Strength {
					t.Fatalf("a session on the day of a main meet: %+v", r)
				}
			}
			last = d.Date
		}
	}
}
