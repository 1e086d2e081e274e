package bot

import (
	"math"

	"blockbell/planner"
	"blockbell/store"
)

const (
	// bestsReach is how many days back a best still says what a lifter can do.
	bestsReach = 365
	// trendFrom is how many days with sets make a trend worth more than the best of
	// single sets when a load is doubted (common practice).
	trendFrom = 3
)

// bests knows what the lifter can do in each lift, looked up when first asked for.
type bests struct {
	t    *turn
	read map[planner.Lift]store.Reading // nil: not looked up
	seen map[planner.Lift]float64
	err  error
}

func (t *turn) bests() *bests { return &bests{t: t, seen: map[planner.Lift]float64{}} }

// kg returns the max of a competition lift in kg: the trend's where enough was
// logged, else the best that was told or lifted; 0 where nothing is known.
func (b *bests) kg(lift planner.Lift) float64 {
	if kg, ok := b.seen[lift]; ok || b.err != nil {
		return kg
	}
	kg, known := b.trend(lift)
	if !known && b.err == nil {
		kg = b.lifted(lift)
	}
	if b.err != nil {
		return 0
	}
	b.seen[lift] = kg
	return kg
}

// trend is the level of a lift as it was last read; false where too little was logged
// for one.
func (b *bests) trend(lift planner.Lift) (float64, bool) {
	if b.read == nil {
		b.read = map[planner.Lift]store.Reading{}
		if b.t.about.ID != 0 {
			var all []store.Reading
			all, b.err = b.t.tx.Readings(b.t.about.ID)
			for _, r := range all {
				b.read[r.Lift] = r
			}
		}
	}
	r := b.read[lift]
	return r.Kg, r.Kg > 0 && r.Observations >= trendFrom
}

// lifted is the best of what was told and of single sets.
func (b *bests) lifted(lift planner.Lift) float64 {
	best := b.t.about.Best(lift).Kg()
	if b.t.about.ID == 0 {
		return best
	}
	sets, err := b.t.tx.HeavySets(b.t.about.ID, lift, b.t.today().AddDays(-bestsReach))
	b.err = err
	for _, s := range sets {
		if kg, ok := b.t.estimate(s); ok {
			best = math.Max(best, kg)
		}
	}
	return best
}
