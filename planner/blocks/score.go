package blocks

import (
	"math"
	"slices"

	"blockbell/planner"
)

// Mark is a day that counts in the objective. Strength and Expression are the
// weights of s and e after the training weeks that began before it.
type Mark struct {
	Date       planner.Date     `json:"date"`
	Kind       planner.MeetKind `json:"kind"`
	Virtual    bool             `json:"virtual,omitempty"` // the test day that closes a rolling cycle
	Strength   float64          `json:"strength_weight"`
	Expression float64          `json:"expression_weight"`
}

// Score is an objective with the parts it is added up from:
// Total = Value + Muscle - Preferences - LeftOut - TuneUps.
type Score struct {
	Value       float64 `json:"value"`       // sum over marks of the weighted s and e
	Muscle      float64 `json:"muscle"`      // lambda x m at the end
	Preferences float64 `json:"preferences"` // kappa x sum of ((L - L0)/L0)^2
	LeftOut     float64 `json:"left_out"`    // hypertrophy missing from a long first run-up
	TuneUps     float64 `json:"tune_ups"`    // tune-ups on days of hypertrophy
	Total       float64 `json:"total"`
}

// Objective scores blocks that cover the days from the model's start on, in
// order. A running block is listed with its true first day and whole length;
// where it is not listed it ended at once and still counts among the
// preferences with the weeks it had. Blocks without a training week count for
// nothing, recovery has no preference.
func (m Model) Objective(blocks []planner.Block, marks []Mark) Score {
	var sc Score
	at := m.trace(blocks, marks)
	for i, mk := range marks {
		sc.Value += mk.Strength*at[i].S + mk.Expression*at[i].E
	}
	sc.Muscle = m.Lambda * at[len(marks)].M
	sc.Preferences = m.preferences(blocks)
	sc.LeftOut = m.leftOut(blocks, marks)
	sc.TuneUps = m.tuneUps(blocks, marks)
	sc.Total = sc.Value + sc.Muscle - sc.Preferences - sc.LeftOut - sc.TuneUps
	return sc
}

// trace returns the state at every mark, and last the state at the end. Marks
// are in order of their dates.
func (m Model) trace(blocks []planner.Block, marks []Mark) []State {
	at := make([]State, 0, len(marks)+1)
	x := m.Start.State
	for _, k := range m.schedule(blocks) {
		for len(at) < len(marks) && marks[len(at)].Date <= k.start {
			at = append(at, x)
		}
		x = m.Week(x, k.kind, k.week)
	}
	for len(at) <= len(marks) {
		at = append(at, x)
	}
	return at
}

// dated is one week of a plan: its first day, and which week of which kind it is.
type dated struct {
	start planner.Date
	kind  planner.BlockKind
	week  int
}

// schedule lists the weeks of blocks with the weeks away between them, in order.
func (m Model) schedule(blocks []planner.Block) []dated {
	var list []dated
	next := 0
	leave := func(until planner.Date) {
		for ; next < len(m.Away) && m.Away[next].Start < until; next++ {
			list = append(list, dated{m.Away[next].Start, Layoff, m.Away[next].Week})
		}
	}
	for i, b := range blocks {
		done := m.doneBefore(blocks, i)
		b.Start = max(b.Start, m.Start.Date)
		d := firstWeek(b, m.WeekStart)
		for w := done; w < b.Weeks; d = d.AddDays(7) {
			leave(d)
			if next < len(m.Away) && m.Away[next].Start == d {
				continue
			}
			list = append(list, dated{d, b.Kind, w})
			w++
		}
	}
	leave(1<<31 - 1)
	return list
}

// firstWeek is the day on which the block's first training week begins: the
// club's weekday, or the block's first day where a short block has no such day.
func firstWeek(b planner.Block, weekStart planner.Weekday) planner.Date {
	if first := b.Start.OnOrAfter(weekStart); first <= b.End {
		return first
	}
	return b.Start
}

// runningListed tells whether the first block is the one that runs at the start.
func (m Model) runningListed(blocks []planner.Block) bool {
	return m.Start.Block != "" && len(blocks) > 0 && blocks[0].Kind == m.Start.Block &&
		(blocks[0].Start < m.Start.Date || m.Start.Week == 0)
}

// doneBefore returns how many weeks of block i lie before the start.
func (m Model) doneBefore(blocks []planner.Block, i int) int {
	if i == 0 && m.runningListed(blocks) {
		return m.Start.Week
	}
	return 0
}

func (m Model) preferences(blocks []planner.Block) float64 {
	sum := 0.0
	if m.Start.Block != "" && !m.runningListed(blocks) {
		sum += m.preference(index(m.Start.Block), m.Start.Week)
	}
	for _, b := range blocks {
		sum += m.preference(index(b.Kind), b.Weeks)
	}
	return sum
}

// preference is what one block of the given whole length pays for being unusual.
func (m Model) preference(kind, weeks int) float64 {
	if kind > iP || weeks == 0 {
		return 0
	}
	off := (float64(weeks) - m.L0[kind]) / m.L0[kind]
	return m.Kappa * off * off
}

func (m Model) leftOut(blocks []planner.Block, marks []Mark) float64 {
	for _, mk := range marks {
		if mk.Kind != planner.Main {
			continue
		}
		if m.Start.Hypertrophy && m.RunUp == m.Start.Date || m.trainingWeeks(m.RunUp, mk.Date) < m.LeftOutFrom {
			return 0
		}
		for _, b := range blocks {
			if b.Kind == planner.Hypertrophy && b.End >= m.RunUp && b.Start < mk.Date {
				return 0
			}
		}
		return m.LeftOutCost
	}
	return 0
}

// tuneUps is what a plan pays for tune-ups on days of hypertrophy. Days between a
// tune-up or test day that was peaked for and the next training week belong to the
// week of that day.
func (m Model) tuneUps(blocks []planner.Block, marks []Mark) (sum float64) {
	for _, mk := range marks {
		i := planner.At(blocks, mk.Date)
		if mk.Kind != planner.TuneUp || i < 0 || blocks[i].Kind != planner.Hypertrophy {
			continue
		}
		if i > 0 && mk.Date < firstWeek(blocks[i], m.WeekStart) && stopsOn(marks, blocks[i-1].End.AddDays(1)) {
			continue
		}
		sum += m.TuneUpCost
	}
	return sum
}

// stopsOn tells whether a tune-up or test day is on d.
func stopsOn(marks []Mark, d planner.Date) bool {
	return slices.ContainsFunc(marks, func(m Mark) bool { return m.Date == d && m.Kind != planner.Main })
}

// trainingWeeks counts the training weeks that begin in [from, to).
func (m Model) trainingWeeks(from, to planner.Date) int {
	n := weeksIn(from, to.AddDays(-1), m.WeekStart)
	for _, w := range m.Away {
		if w.Start >= from && w.Start < to {
			n--
		}
	}
	return n
}

// gain splits the change from the start to x into percent: the whole, and its
// parts from sharpening and from new strength, which add up to it.
func (m Model) gain(x State) (whole, sharpening, strength float64) {
	ds, de := x.S-m.Start.S, x.E-m.Start.E
	strength = 100 * math.Expm1(ds)
	sharpening = 100 * math.Exp(ds) * math.Expm1(de)
	return strength + sharpening, sharpening, strength
}
