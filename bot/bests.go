package bot

import (
	"fmt"
	"math"

	"blockbell/planner"
)

// bestsReach is how many days back a best still says what a lifter can do.
const bestsReach = 365

// bests knows the lifter's best estimates, each looked up when first asked for.
type bests struct {
	t    *turn
	seen map[planner.Lift]best
	err  error
}

// best is what is known of one lift: the best estimate in kg, told or logged, and
// whether any set was logged.
type best struct {
	kg     float64
	logged bool
	// before and today are the best estimates of earlier days, told ones
	// included, and of today.
	before, today float64
}

func (t *turn) bests() *bests { return &bests{t: t, seen: map[planner.Lift]best{}} }

// kg returns the best estimate of a competition lift, 0 where nothing is known.
func (b *bests) kg(lift planner.Lift) float64 { return b.of(lift).kg }

func (b *bests) of(lift planner.Lift) best {
	if x, ok := b.seen[lift]; ok || b.err != nil {
		return x
	}
	x := best{kg: b.t.about.Best(lift).Kg(), before: b.t.about.Best(lift).Kg()}
	if b.t.about.ID != 0 {
		sets, err := b.t.tx.HeavySets(b.t.about.ID, lift, b.t.today().AddDays(-bestsReach))
		if err != nil {
			b.err = err
			return best{}
		}
		for _, s := range sets {
			kg, ok := b.t.estimate(s)
			if !ok {
				continue
			}
			x.kg, x.logged = math.Max(x.kg, kg), true
			if s.Day == b.t.trainingDay() {
				x.today = math.Max(x.today, kg)
			} else {
				x.before = math.Max(x.before, kg)
			}
		}
	}
	b.seen[lift] = x
	return x
}

// recordStep is how much, as a share, an estimate must beat the best by to be
// news: half of the smallest change worth noticing, 1.2 % (Hopkins' rule).
const recordStep = 0.006

// records says which sets beat the lifter's best estimate of a competition lift,
// once a day and lift: who warms up past an old best hears of it one time. A lift
// without any logged set before has no best to beat.
func (t *turn) records(sets []planner.Set, b *bests) ([]string, error) {
	var news []string
	top := map[planner.Lift]float64{}
	for _, s := range sets {
		if !s.Lift.Competition() || s.Variant != "" || s.Pending || (s.Gear != "" && s.Gear != planner.Raw) {
			continue
		}
		kg, ok := t.estimate(s)
		was := b.of(s.Lift)
		told := was.today > was.before*(1+recordStep)
		if ok && was.logged && !told && kg > math.Max(was.kg*(1+recordStep), top[s.Lift]) {
			top[s.Lift] = kg
		}
	}
	for _, lift := range planner.CompetitionLifts() {
		if kg := top[lift]; kg > 0 {
			unit := t.about.Unit
			news = append(news, fmt.Sprintf("Your best %s so far: your estimated max (what you could lift once) is now about %s; it was %s.",
				lift, rounded(kg, unit), rounded(b.kg(lift), unit)))
		}
	}
	return news, b.err
}

// rounded writes an estimate to the half kilogram or the pound: more digits would
// claim more than one set can say.
func rounded(kg float64, unit planner.Unit) string {
	if unit == planner.LB {
		return fmt.Sprintf("%.0f lb", planner.Kilograms(kg).Lb())
	}
	return planner.Kilograms(math.Round(kg*2) / 2).Text(unit)
}
