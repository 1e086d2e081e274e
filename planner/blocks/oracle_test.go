package blocks

import "blockbell/planner"

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
	// A time away that ends blocks: leave, the stretch ends with it; afterAway, it
	// begins with the first day back. rest: recovery comes first.
	leave, afterAway, rest bool
	end                    planner.Date // the day after its last
}

type oStop struct {
	date              planner.Date
	kind              planner.MeetKind
	week, before, nxt int
	near              bool // under 3 weeks before the main meet
}

type oMark struct {
	before int
	lapsed int // weeks away between the last training week before it and it
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
	runStart  planner.Date
	before    byte // kind of the block before the running one
	runs      []oAway
	lapses    []oLapse
	barred    []bool
}

var letters = map[planner.BlockKind]byte{planner.Hypertrophy: 'H', planner.Strength: 'S', planner.Peaking: 'P', planner.Recovery: 'R'}

// newOracle lays out the days one by one. limits are the peaking limits of the
// stretches.
func newOracle(r Request, m Model, limits []int) *oracle {
	o := &oracle{r: r, m: m, runs: awayRuns(r)}
	o.lookBack()
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
	defer o.fillIn()
	if len(mains) == 0 {
		d := r.Today
		if last := lastTest(r); o.trainedIn(r.Today, last) >= 6 {
			o.addDays(r.Today, last, limits[0], 0)
			o.lastPart().main, o.lastPart().test = false, true
			for _, x := range r.Meets {
				o.addMeet(x)
			}
			return o
		}
		for n := 0; n < 14 || d.Weekday() != r.Rules.WeekStart; d++ {
			if _, gone := o.gone(d, d+6); d.Weekday() == r.Rules.WeekStart && !gone {
				n++
			}
			for _, a := range o.runs {
				if o.cuts(a) && d >= a.from && d <= a.to {
					n = 0
				}
			}
		}
		o.addDays(r.Today, d, limits[0], 0)
		o.lastPart().main = false
		o.marks = append(o.marks, oMark{before: len(o.weeks), lapsed: 99, s: 0.5})
	}
	for _, x := range r.Meets {
		o.addMeet(x)
	}
	return o
}

// fillIn looks at what follows from the calendar.
func (o *oracle) fillIn() {
	o.bars()
	o.choices = map[int][]oChoice{}
	for i := 1; i < len(o.stretches); i++ {
		o.choices[i] = o.gapChoices(i)
	}
}

func lastTest(r Request) (last planner.Date) {
	for _, x := range r.Meets {
		if x.Kind == planner.Test {
			last = max(last, x.Date)
		}
	}
	return last
}

func (o *oracle) lastPart() *oStretch { return &o.stretches[len(o.stretches)-1] }

// lapsedBefore counts the weeks away that begin before d and after the last of the
// training weeks before it.
func (o *oracle) lapsedBefore(d planner.Date, before int) (n int) {
	for _, l := range o.lapses {
		if l.before == before && l.start < d {
			n++
		}
	}
	return n
}

func (o *oracle) addMeet(x planner.Meet) {
	before := 0
	for _, w := range o.weeks {
		if w < x.Date {
			before++
		}
	}
	lapsed := o.lapsedBefore(x.Date, before)
	switch x.Kind {
	case planner.Main:
		o.marks = append(o.marks, oMark{before: before, lapsed: lapsed, s: 1, e: 1, main: true})
		return
	case planner.TuneUp:
		o.marks = append(o.marks, oMark{before: before, lapsed: lapsed, s: 0.1, e: 0.1})
	case planner.Test:
		o.marks = append(o.marks, oMark{before: before, lapsed: lapsed, s: 0.5})
	}
	for _, a := range o.runs {
		if o.cuts(a) && x.Date >= a.from && x.Date <= a.to {
			return // lifted away
		}
	}
	st := oStop{date: x.Date, kind: x.Kind, before: before, nxt: before, week: before - 1}
	if before < len(o.weeks) && o.weeks[before] == x.Date {
		st.week, st.nxt = before, before+1
	}
	for _, s := range o.stretches {
		if x.Date >= s.from && x.Date < s.end && !(st.week < 0 && o.run != 0 && o.done > 0 && s.lo == 0) {
			st.week = max(st.week, s.lo)
		}
	}
	for _, y := range o.r.Meets {
		if y.Kind == planner.Main && y.Date > x.Date && y.Date-x.Date < 21 {
			st.near = true
		}
	}
	o.stops = append(o.stops, st)
}

func (o *oracle) leftOut(blocks []oBlock) float64 {
	i := 0 // the run-up to the first main meet
	for i < len(o.stretches)-1 && o.stretches[i].leave {
		i++
	}
	s := o.stretches[i]
	if !s.main || s.hi-s.lo < 11 || i == 0 && o.m.Start.Hypertrophy {
		return 0
	}
	for _, b := range blocks {
		if b.stretch == i && b.kind == 'H' {
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
		if b.running && o.left() == 0 && b.kind != 'P' && !o.stretches[0].leave {
			continue
		}
		if b.running && b.from == b.to && o.left() > 0 && (!inWeek || b.length == 0) {
			continue
		}
		out = append(out, b)
	}
	return out
}
