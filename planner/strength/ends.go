package strength

import (
	"math"

	"blockbell/planner"
)

// Ends compares the ends of the last two blocks of one kind: what is left where the
// expected change is too small to show within a block.
type Ends struct {
	Kind        planner.BlockKind
	First, Last planner.Date // last days of the two blocks
	Change, SD  float64      // percent between them, and its standard deviation
	Expected    float64      // percent expected between them
	// Power is the chance, 0 to 1, that this comparison would show a full halt.
	Power float64
}

// surely is what a difference between block ends must exceed, in standard
// deviations: one-sided 2.5 %, since up to two new pairs come up within 12 weeks.
const surely = 1.96

// endsHold is how many days the comparison of two block ends says something of today;
// after that the next block has a trend of its own.
const endsHold = 42

// endDays is how many days before its end stand for the end of a block.
const endDays = 28

// endsOf compares the last two blocks of a kind that has rated work at two ends:
// strength before muscle before peaking, whose single is sharp.
func endsOf(h *History, t *track, sum rail) *Ends {
	var best *Ends
	for _, kind := range likeForLike {
		if e := h.endsOfKind(t, kind, sum); e != nil && best.yieldTo(e.Last) {
			best = e
		}
	}
	return best
}

// likeForLike are the kinds of blocks by how well their ends compare.
var likeForLike = []planner.BlockKind{planner.Strength, planner.Hypertrophy, planner.Peaking}

// yieldTo tells whether the ends of a kind that compares less well are taken instead:
// only where none better lie within the half year before. Comparing all would find
// twice as many halts that are none.
func (e *Ends) yieldTo(last planner.Date) bool {
	return e == nil || last > e.Last.AddDays(7*26)
}

// endsOfKind compares the last two finished blocks of a kind.
func (h *History) endsOfKind(t *track, kind planner.BlockKind, sum rail) *Ends {
	var ends []planner.Date
	var level, variance []float64
	for i := len(h.Blocks) - 1; i >= 0 && len(ends) < 2; i-- {
		b := h.Blocks[i]
		if b.Kind != kind || b.End > h.Today {
			continue
		}
		if l, v, ok := t.mean(lastDays(b)); ok {
			ends, level, variance = append(ends, b.End), append(level, l), append(variance, v)
		}
	}
	if len(ends) < 2 || ends[1] < sum.first || h.longAway(ends[1], h.Today) {
		return nil
	}
	e := h.pair(kind, ends[1], ends[0], variance[0]+variance[1])
	e.Change = 100 * (level[0] - level[1])
	return e
}

// pair is two ends of a kind with what can be said of them before they are compared;
// variance is that of both levels together.
func (h *History) pair(kind planner.BlockKind, first, last planner.Date, variance float64) *Ends {
	due := 0.0
	for d := first; d < last; d = d.AddDays(1) {
		due += h.expected(d) / 7
	}
	sd := math.Sqrt(variance + formWander*formWander*weeks(first, last))
	return &Ends{Kind: kind, First: first, Last: last, SD: 100 * sd, Expected: 100 * due, Power: normal(due/sd - surely)}
}

// lastDays is the stretch that stands for the end of a block.
func lastDays(b planner.Block) (from, to planner.Date) {
	return max(b.Start, b.End.AddDays(-endDays)), b.End
}

// mean is the weighted mean of the rated days in a stretch, with its variance. Two
// days are the least.
func (t *track) mean(from, to planner.Date) (level, variance float64, ok bool) {
	var sum, weight float64
	n := 0
	for i, o := range t.obs {
		if o.Day < from || o.Day > to || !o.Rated || (o.Kind != Hard && o.Kind != Easy) {
			continue
		}
		w := t.weight[i] / (o.SD * o.SD * t.variances.Scale)
		sum, weight = sum+w*o.Log, weight+w
		n++
	}
	return sum / weight, 1 / weight, n >= 2
}

// normal is the distribution function of the standard normal.
func normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
