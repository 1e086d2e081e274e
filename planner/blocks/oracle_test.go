package blocks

import (
	"math"

	"blockbell/planner"
)

// The oracle plans by full enumeration. It shares no code with the planner but
// the vocabulary: its own calendar goes day by day, its own simulator follows
// the published numbers, its own rules are written from the rules of coaching
// and not from the planner's graph.

// oBlock is a block of the oracle: kind 'H', 'S', 'P' or 'R', whole length, and
// the training weeks (indices) it trains.
type oBlock struct {
	kind    byte
	length  int
	from    int
	to      int // exclusive
	running bool
	stretch int
}

type oStretch struct {
	lo, hi int
	from   planner.Date
	gap    int // days between the two main meets; 0 for the first stretch
	limit  int
	main   bool
	test   bool // closed by a real test day
}

type oStop struct {
	date              planner.Date
	kind              planner.MeetKind
	week, before, nxt int
	near              bool // under 3 weeks before the main meet
}

type oMark struct {
	before int
	s, e   float64
	main   bool
}

type oracle struct {
	r         Request
	m         Model // published numbers only
	weeks     []planner.Date
	stretches []oStretch
	stops     []oStop
	marks     []oMark
	choices   map[int][]oChoice // ways to fill each gap under 98 days
	done      int
	run       byte
}

var letters = map[planner.BlockKind]byte{planner.Hypertrophy: 'H', planner.Strength: 'S', planner.Peaking: 'P', planner.Recovery: 'R'}

// newOracle lays out the days one by one. limits are the peaking limits of the
// stretches.
func newOracle(r Request, m Model, limits []int) *oracle {
	o := &oracle{r: r, m: m}
	if r.Running != nil {
		o.run = letters[r.Running.Kind]
		for d := r.Running.Start; d < r.Today; d++ {
			if d.Weekday() == r.Rules.WeekStart {
				o.done++
			}
		}
	}
	var mains []planner.Date
	for _, x := range r.Meets {
		if x.Kind == planner.Main {
			mains = append(mains, x.Date)
		}
	}
	from, last := r.Today, planner.Date(0)
	for i, d := range mains {
		o.addDays(from, d, limits[i], last)
		from, last = d+1, d
	}
	if len(mains) == 0 {
		d := r.Today
		if last := lastTest(r); weekStarts(r, last) >= 6 {
			o.addDays(r.Today, last, limits[0], 0)
			o.stretches[0].main, o.stretches[0].test = false, true
			for _, x := range r.Meets {
				o.addMeet(x)
			}
			return o
		}
		for n := 0; n < 14 || d.Weekday() != r.Rules.WeekStart; d++ {
			if d.Weekday() == r.Rules.WeekStart {
				n++
			}
		}
		o.addDays(r.Today, d, limits[0], 0)
		o.stretches[0].main = false
		o.marks = append(o.marks, oMark{before: 14, s: 0.5})
	}
	for _, x := range r.Meets {
		o.addMeet(x)
	}
	o.choices = map[int][]oChoice{}
	for i := 1; i < len(o.stretches); i++ {
		o.choices[i] = o.gapChoices(i)
	}
	return o
}

func lastTest(r Request) (last planner.Date) {
	for _, x := range r.Meets {
		if x.Kind == planner.Test {
			last = max(last, x.Date)
		}
	}
	return last
}

// weekStarts counts the days from today to the eve of d on which a week begins.
func weekStarts(r Request, d planner.Date) (n int) {
	for x := r.Today; x < d; x++ {
		if x.Weekday() == r.Rules.WeekStart {
			n++
		}
	}
	return n
}

func (o *oracle) addDays(from, meet planner.Date, limit int, last planner.Date) {
	s := oStretch{lo: len(o.weeks), from: from, limit: limit, main: true}
	if last != 0 {
		s.gap = int(meet - last)
	}
	for d := from; d < meet; d++ {
		if d.Weekday() == o.r.Rules.WeekStart {
			o.weeks = append(o.weeks, d)
		}
	}
	if len(o.weeks) == s.lo && meet-from >= 4 && !(o.run == 'P' && last == 0) {
		o.weeks = append(o.weeks, from)
	}
	s.hi = len(o.weeks)
	o.stretches = append(o.stretches, s)
}

func (o *oracle) addMeet(x planner.Meet) {
	before := 0
	for _, w := range o.weeks {
		if w < x.Date {
			before++
		}
	}
	switch x.Kind {
	case planner.Main:
		o.marks = append(o.marks, oMark{before: before, s: 1, e: 1, main: true})
		return
	case planner.TuneUp:
		o.marks = append(o.marks, oMark{before: before, s: 0.1, e: 0.1})
	case planner.Test:
		o.marks = append(o.marks, oMark{before: before, s: 0.5})
	}
	st := oStop{date: x.Date, kind: x.Kind, before: before, nxt: before, week: before - 1}
	if before < len(o.weeks) && o.weeks[before] == x.Date {
		st.week, st.nxt = before, before+1
	}
	for _, s := range o.stretches {
		if s.hi > s.lo && st.week >= s.lo-1 && st.week < s.hi && before <= s.hi && (st.week >= s.lo || o.weeks[s.lo].AddDays(-7) < x.Date) {
			st.week = max(st.week, s.lo)
			break
		}
	}
	for _, y := range o.r.Meets {
		if y.Kind == planner.Main && y.Date > x.Date && y.Date-x.Date < 21 {
			st.near = true
		}
	}
	o.stops = append(o.stops, st)
}

// simulate returns the objective of a plan, written down from the published
// description.
func (o *oracle) simulate(blocks []oBlock) float64 {
	p := o.m
	m, c, s, e := p.Start.M, p.Start.C, p.Start.S, p.Start.E
	value := 0.0
	taken := make([]bool, len(o.marks))
	reach := func(t int) {
		for i, k := range o.marks {
			if !taken[i] && k.before <= t {
				value += k.s*s + k.e*e
				taken[i] = true
			}
		}
	}
	reach(0)
	cost := 0.0
	for _, b := range blocks {
		k := map[byte]int{'H': 0, 'S': 1, 'P': 2, 'R': 3}[b.kind]
		if k < 3 && b.length > 0 {
			d := float64(b.length)/p.L0[k] - 1
			cost += p.Kappa * d * d
		}
		for t := b.from; t < b.to; t++ {
			reach(t)
			w := b.length - (b.to - t)
			phi := 0.0
			if k < 2 {
				phi = (1 - math.Exp(-(float64(w)+1)/p.TauOn)) * math.Exp(-float64(w)/p.TauAcc[k])
			}
			switch b.kind {
			case 'H':
				m += p.Rm * phi
				s -= p.DS
				if p.TauH > 0 {
					s += (m + c - s) / p.TauH
				}
			case 'S':
				c += p.Rc * phi
				s += (m + c - s) / p.TauG
			case 'P':
				if w >= 3 {
					m -= p.Dm
				}
				s += (m + c - s) / p.TauP
			}
			if w >= 16 {
				s -= 0.0005
			}
			e += (p.ET[k] - e) / p.ETau[k]
		}
	}
	reach(len(o.weeks))
	return value + 0.5*m - cost - o.leftOut(blocks)
}

func (o *oracle) leftOut(blocks []oBlock) float64 {
	s := o.stretches[0]
	if !s.main || s.hi-s.lo < 11 || o.m.Start.Hypertrophy {
		return 0
	}
	for _, b := range blocks {
		if b.stretch == 0 && b.kind == 'H' {
			return 0
		}
	}
	return o.m.LeftOutCost // published as 0.004
}

// oFound is the oracle's best plan.
type oFound struct {
	blocks []oBlock
	value  float64
	count  int // plans looked at
}

// better tells whether plan x wins over the best so far.
func (o *oracle) better(x []oBlock, v float64, f oFound) bool {
	if f.blocks == nil || v > f.value+1e-9 {
		return true
	}
	if v < f.value-1e-9 {
		return false
	}
	a, b := o.listed(x), o.listed(f.blocks)
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	for _, k := range []byte{'H', 'S'} {
		if p, q := total(x, k), total(f.blocks, k); p != q {
			return p > q
		}
	}
	for i := range min(len(x), len(f.blocks)) {
		if x[i].length != f.blocks[i].length {
			return x[i].length > f.blocks[i].length
		}
	}
	return false
}

func total(blocks []oBlock, kind byte) (n int) {
	for _, b := range blocks {
		if b.kind == kind {
			n += b.to - b.from
		}
	}
	return n
}

// listed leaves out a running block that ends on the day of the plan.
func (o *oracle) listed(blocks []oBlock) []oBlock {
	var out []oBlock
	for _, b := range blocks {
		inWeek := len(o.weeks) > 0 && o.weeks[0] > o.r.Today
		if b.running && o.left() == 0 && b.kind != 'P' {
			continue
		}
		if b.running && b.from == b.to && o.left() > 0 && (!inWeek || b.length == 0) {
			continue
		}
		out = append(out, b)
	}
	return out
}
