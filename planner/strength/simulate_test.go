package strength_test

import (
	"math"
	"math/rand/v2"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// athlete is an invented lifter whose true maximum is known. Error sizes are those
// of the literature: single days differ by 2.5 % (Grgic et al. 2020), people leave
// about 0.95 repetitions more than they say (Halperin et al. 2022) and are off by
// about 1 in all (Hackett et al. 2017): a lean of 0.95 that differs by 0.5 between
// people, and 0.75 from set to set, give a mean absolute error of 1.1. At effort 7
// the latter is half a repetition more. The curve of repetitions differs between
// people too (common practice).
type athlete struct {
	rng    *rand.Rand
	bias   float64 // repetitions left more than told
	curve  float64 // relative error of the relation for each repetition away from 5
	level  func(week float64) float64
	form   float64 // how far the level wanders by itself, per square root of a week
	easy   bool    // rates everything at effort 7
	blocks []planner.Block
}

// monday is the first day of every simulation.
var monday = planner.NewDate(2027, 1, 4)

func newAthlete(seed uint64, level func(week float64) float64) *athlete {
	rng := rand.New(rand.NewPCG(seed, 77))
	return &athlete{
		rng: rng, level: level, form: 0.001,
		bias: 0.95 + 0.5*rng.NormFloat64(), curve: 0.004 * rng.NormFloat64(),
	}
}

// train logs the rated sets of some weeks: one to three days a week, one week in
// ten missed, sets of 3 to 6 with 1 to 3 left (8 to 10 with 1 to 3 left in muscle
// blocks, 1 to 3 with 1 to 2 left in peaking).
func (a *athlete) train(from, to int) []planner.Set {
	var sets []planner.Set
	wander := 0.0
	for week := from; week < to; week++ {
		wander += a.form * a.rng.NormFloat64()
		if a.rng.Float64() < 0.1 {
			continue
		}
		for _, d := range a.rng.Perm(6)[:1+a.rng.IntN(3)] {
			day := monday.AddDays(7*week + d)
			sets = append(sets, a.set(day, a.level(float64(week)+float64(d)/7)+wander))
		}
	}
	return sets
}

// set is one rated set on a day, at a true level.
func (a *athlete) set(day planner.Date, level float64) planner.Set {
	reps, left := 3+a.rng.IntN(4), float64(1+a.rng.IntN(3))
	switch a.kind(day) {
	case planner.Hypertrophy:
		reps = 6 + a.rng.IntN(4)
	case planner.Peaking:
		reps, left = 1+a.rng.IntN(3), float64(1+a.rng.IntN(2))
	}
	if a.easy {
		left = 3
	}
	doubt := 0.75
	if left >= 2.5 {
		doubt = 1.25
	}
	toFailure := float64(reps) + max(0, left+a.bias+doubt*a.rng.NormFloat64())
	today := math.Exp(level + 0.025*a.rng.NormFloat64() + a.curve*(toFailure-5))
	kg := today * strength.Percent(strength.Default, toFailure) / 100
	return planner.Set{Day: day, Lift: planner.Squat, Weight: planner.Kilograms(2.5 * math.Round(kg/2.5)), Reps: reps, Sets: 1, Reserve: &left}
}

func (a *athlete) kind(d planner.Date) planner.BlockKind {
	if i := planner.At(a.blocks, d); i >= 0 {
		return a.blocks[i].Kind
	}
	return ""
}

// halting is a level that rises by a rate a week until it halts.
func halting(kg, rate, halt float64) func(float64) float64 {
	return func(week float64) float64 { return math.Log(kg) + rate*min(week, halt) }
}

// read asks for the reading of a log.
func (a *athlete) read(sets []planner.Set, today planner.Date, level planner.Level, expected float64) strength.Reading {
	return strength.Read(strength.History{
		Lift: planner.Squat, Today: today, Level: level, Sets: sets, Blocks: a.blocks,
		Expected: func(planner.Date) float64 { return expected },
	})
}

// sd is the standard deviation of a measured share of n.
func sd(rate float64, n int) float64 { return math.Sqrt(rate * (1 - rate) / float64(n)) }
