package blocks

import "blockbell/planner"

// pinning is what the coach's pins say about one block.
type pinning struct {
	ok      bool // no pin forbids it
	matched bool // a pin speaks of it
	fixed   bool // pins fix its length
	named   bool // a pin that speaks of it says that it peaks, or that it is the one that runs
	ordinal uint8
	kept    uint16
}

// pinsOn reads the pins for a block that follows k.
func (g *graph) pinsOn(k key, b step) pinning {
	r := pinning{ok: true, ordinal: min(k.ordinal+1, g.last), kept: k.kept}
	at := b.at
	if b.running {
		at = runningStart
	}
	for i, p := range g.pins {
		fits := p.fits(b.kind, at, b.total)
		if p.ordinal > 0 {
			if k.ordinal >= g.last || int(k.ordinal)+1 != p.ordinal {
				continue
			}
			if !fits {
				return pinning{}
			}
		} else {
			first := p.start == -1
			if first && (r.kept&(1<<i) != 0 || !g.means(p, b)) || !fits && (!first || p.kind < 0) {
				continue
			}
			if !fits {
				return pinning{}
			}
			r.kept |= 1 << i
		}
		r.matched = true
		r.named = r.named || p.kind == iP || b.running && (p.ordinal > 0 || p.start == runningStart)
		r.fixed = r.fixed || p.weeks > 0 || p.start != -1 && g.pinnedAt(b.at+b.weeks, b.stretch)
	}
	return r
}

// pinnedAt tells whether the end of a block after t weeks is fixed by the meet
// or by the pinned start of another.
func (g *graph) pinnedAt(t, stretch int) bool {
	if t == g.stretches[stretch].hi {
		return true
	}
	for _, p := range g.pins {
		if p.start == t {
			return true
		}
	}
	return false
}

// pinnedH tells whether the coach has pinned hypertrophy, which overrules its
// share.
func (g *graph) pinnedH() bool {
	for _, p := range g.pins {
		if p.kind == iH {
			return true
		}
	}
	return false
}

// ends tells whether block b may end where it does, and in which training week
// the next one begins. Peaking ends the day before a meet and nowhere else; a
// stretch before a main meet ends with peaking and nothing else; a rolling cycle
// ends with strength.
func (g *graph) ends(b step, p pinning) (next int, ok bool) {
	st, r, t := g.stretches[b.stretch], &g.rows[b.stretch], b.at+b.weeks
	if b.running && b.weeks == 0 {
		// Only a running block may end on the day of the plan. Peaking does so
		// where no meet is in its reach.
		return t, b.kind != iP || r.runShort || p.fixed || r.noPeak || !g.peakReaches(r.stretch)
	}
	if t == st.hi {
		switch {
		case st.kind == planner.Main:
			return t, b.kind == iP
		case st.kind == leaving:
			return t, b.kind != iP
		case b.kind == iP:
			return t, st.kind == planner.Test && (b.running || b.weeks <= testTaper || p.fixed)
		}
		return t, b.kind == iS
	}
	if b.kind != iP {
		return t, true
	}
	if (r.shape != nil || r.noStop) && !b.running {
		return 0, false
	}
	return g.endsAtStop(b, p, t)
}

// testTaper is the longest taper for a test day, in weeks.
const testTaper = 2

// endsAtStop tells whether peaking that ends after t weeks ends the day before a
// tune-up or test day.
func (g *graph) endsAtStop(b step, p pinning, t int) (next int, ok bool) {
	for _, s := range g.stops {
		if s.before != t || s.next >= g.stretches[b.stretch].hi {
			continue
		}
		switch {
		case s.kind == planner.TuneUp && !s.close:
			return s.next, b.running || p.fixed || b.weeks >= 3
		case s.kind == planner.Test && (b.running || b.weeks <= testTaper || p.fixed):
			return s.next, true
		}
	}
	return 0, false
}

// lasts tells whether the length of block b is allowed.
func (g *graph) lasts(b step, p pinning) bool {
	r := &g.rows[b.stretch]
	lo, hi := r.span[b.kind][0], r.span[b.kind][1]
	switch {
	case p.fixed && b.kind == iP:
		lo = 1
		if p.named { // the limit gives way to who asks for peaking, not to any pin
			hi = max(hi, pinned[iP][1])
		}
	case p.fixed:
		lo, hi = min(lo, pinned[b.kind][0]), max(hi, pinned[b.kind][1])
	}
	if r.leaves && b.at+b.weeks == g.stretches[b.stretch].hi {
		lo = min(lo, 1)
	}
	if b.running {
		return g.runs(r, b, lo, hi, p)
	}
	if b.kind == iP && b.weeks <= testTaper && g.testAt(b.at+b.weeks) {
		lo = 1
	}
	if b.kind == iP && r.noPeak && !p.fixed {
		hi = testTaper
	}
	return b.weeks >= lo && b.weeks <= hi
}

// testAt tells whether a test day, and not a main meet, comes after t weeks.
func (g *graph) testAt(t int) bool {
	for i, m := range g.marks {
		if g.after[i] == t && m.Kind == planner.Main {
			return false
		}
	}
	for i, m := range g.marks {
		if g.after[i] == t && m.Kind == planner.Test && !m.Virtual {
			return true
		}
	}
	return false
}

// runs tells whether the running block may have the length of b in all. What
// runs already may be longer than any rule: then it ends.
func (g *graph) runs(r *row, b step, lo, hi int, p pinning) bool {
	if b.total < g.hold {
		return false
	}
	switch b.kind {
	case iP:
		return b.weeks == 0 || b.total <= r.stretch || p.fixed && b.total <= hi
	case iS:
		lo = min(lo, 3)
	}
	if b.weeks == 0 {
		return b.total >= lo || r.runShort
	}
	if r.runEnds && !p.fixed {
		return false
	}
	return b.total >= lo && b.total <= hi
}
