package blocks

import (
	"slices"

	"blockbell/planner"
)

// pastWeek is one week that was: of a block, or away.
type pastWeek struct {
	kind  planner.BlockKind
	week  int // weeks of its block, or of its time away, before it
	block int // which block, counted back; -1 away
	long  bool
}

// remember lists the last 52 weeks before the day of the plan, oldest first. The
// running block has its dates; finished blocks are taken to lie one behind another
// before it, with the weeks of told times away between.
func (s *season) remember() []pastWeek {
	var out []pastWeek
	h := newUnwinding(s.History)
	parted := false // by the last time away that ended a block
	d := s.Today.AddDays(-1).OnOrBefore(s.Rules.WeekStart)
	for left := s.done; len(out) < replayWeeks; d = d.AddDays(-7) {
		if w, a, away := weekAway(s.spans, d, d.AddDays(6), s.Rules.WeekStart); away {
			long := a.days() >= awayEnds
			if long && !parted {
				parted, s.since = true, h.first()
			}
			out = append(out, pastWeek{kind: Layoff, week: w, block: -1, long: long})
			continue
		}
		if left > 0 {
			left--
			out = append(out, pastWeek{kind: s.Running.Kind, week: left, block: len(s.History)})
			continue
		}
		if h.at < 0 {
			break
		}
		out = append(out, h.next())
	}
	slices.Reverse(out)
	return cut(out)
}

// unwinding walks finished blocks backward, week by week.
type unwinding struct {
	past []Past
	at   int // block; -1 when all are done
	left int
}

func newUnwinding(past []Past) *unwinding {
	h := &unwinding{past: past, at: len(past)}
	h.step()
	return h
}

func (h *unwinding) step() {
	for h.left == 0 && h.at >= 0 {
		if h.at--; h.at >= 0 {
			h.left = h.past[h.at].Weeks
		}
	}
}

// first is the oldest block of which weeks were walked.
func (h *unwinding) first() int {
	if h.at >= 0 && h.left < h.past[h.at].Weeks {
		return h.at
	}
	return h.at + 1
}

func (h *unwinding) next() pastWeek {
	h.left--
	w := pastWeek{kind: h.past[h.at].Kind, week: h.left, block: h.at}
	h.step()
	return w
}

// cut counts anew what a block did after a time away that ended it.
func cut(weeks []pastWeek) []pastWeek {
	block, less, long := -1, 0, false
	for i := range weeks {
		w := &weeks[i]
		switch {
		case w.block < 0:
			long = long || w.long
			continue
		case w.block != block:
			block, less = w.block, 0
		case long:
			less = w.week
		}
		long = false
		w.week -= less
	}
	return weeks
}

// recent are the finished blocks since the last time away that ended one.
func (s *season) recent() []Past { return s.History[min(s.since, len(s.History)):] }

// begin sets the start of the model from what was really done: the last 52 weeks
// are run from zero, then today's strength is taken off, so that it is zero again. With
// nothing known it stays at zero and the level's expression.
func (s *season) begin() {
	m := &s.model
	if s.Running != nil {
		s.done = s.weeksDone(s.Running.Start, s.Today)
		m.Start.Block, m.Start.Week = s.Running.Kind, s.done
	}
	x, lost := m.relive(State{E: m.unknownE()}, s.remember(), func(x State, k, w int) State { return m.Week(x, kindAt(k), w) })
	m.Start.Lost, m.Start.State = lost, x.fromToday()
	m.Start.Hypertrophy = !s.peaks() && s.underWay()[planner.Hypertrophy]
	if n := len(s.recent()); s.Running != nil && n > 0 {
		s.before = s.recent()[n-1].Kind
	}
}
