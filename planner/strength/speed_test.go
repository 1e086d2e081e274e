package strength

import (
	"math/rand/v2"
	"testing"

	"blockbell/planner"
)

// fiveYears is a log of two rated days a week.
func fiveYears() (*History, []Observation) {
	rng := rand.New(rand.NewPCG(1, 2))
	start := planner.NewDate(2027, 1, 4)
	var obs []Observation
	for week := range 260 {
		for day := range 2 {
			obs = append(obs, Observation{
				Day: start.AddDays(7*week + 3*day), Log: 5 + 0.0005*float64(week) + 0.04*rng.NormFloat64(),
				SD: 0.04, Kind: Hard, Rated: true,
			})
		}
	}
	return &History{Level: planner.Advanced, Today: obs[len(obs)-1].Day}, obs
}

func BenchmarkFilterAndSmoother(b *testing.B) {
	t := follow(fiveYears())
	for b.Loop() {
		t.run()
	}
}

// BenchmarkFollow adds what counts, the weights, and learning the variances.
func BenchmarkFollow(b *testing.B) {
	h, obs := fiveYears()
	for b.Loop() {
		follow(h, obs)
	}
}

func BenchmarkJudge(b *testing.B) {
	h, obs := fiveYears()
	t := follow(h, obs)
	for b.Loop() {
		judge(h, t)
	}
}

// Learnt variances follow the log: twice the scatter gives a larger scale, and the
// level's defaults hold where the log is short.
func TestVariancesAreLearnt(t *testing.T) {
	h, obs := fiveYears()
	short := follow(h, obs[:learnDays-1])
	if short.learnt || short.variances != habitsOf(planner.Advanced).variances {
		t.Errorf("%d days taught %+v", learnDays-1, short.variances)
	}
	calm := follow(h, obs)
	near(t, "scale of a log as its errors say", calm.variances.Scale, 1, 0.25)
	wild := make([]Observation, len(obs))
	for i, o := range obs {
		wild[i] = o
		wild[i].Log += 0.07 * rand.New(rand.NewPCG(uint64(i), 9)).NormFloat64()
	}
	if got := follow(h, wild).variances.Scale; got < 1.5*calm.variances.Scale {
		t.Errorf("scale %.2f after %.2f with twice the scatter", got, calm.variances.Scale)
	}
}
