package blocks

import "blockbell/planner"

// expand adds the blocks that may follow node i.
func (g *graph) expand(i int32) {
	n := g.nodes[i]
	if int(n.t) == len(g.weeks) {
		return
	}
	if n.running {
		g.expandRunning(i)
		return
	}
	st, r := g.stretches[n.stretch], &g.rows[n.stretch]
	for kind := range 4 {
		if !g.follows(n.key, n.stretch, kind) {
			continue
		}
		longest := max(r.span[kind][1], pinned[kind][1])
		shortest := 1
		if kind == iR { // may be no more than the odd days in front
			shortest = min(1, r.span[iR][0])
		}
		for w := shortest; w <= longest && int(n.t)+w <= st.hi; w++ {
			g.addBlock(i, step{kind: kind, at: int(n.t), weeks: w, total: w, stretch: n.stretch})
		}
	}
}

// follows tells whether a block of the kind may come after what the key says.
func (g *graph) follows(k key, stretch, kind int) bool {
	r := &g.rows[stretch]
	if r.shape != nil && (int(k.pos) >= len(r.shape) || r.shape[k.pos] != kind) {
		return false
	}
	switch k.last {
	case none:
		return (kind == iR) == r.recover && (!r.anew || kind == iH)
	case iH:
		return kind == iS || kind == iP && r.hToP
	case iS:
		return kind == iP || kind == iH && !k.shortS
	case iP:
		return kind == iH || kind == iS
	default: // recovery
		return kind == iH || kind == iS || kind == iP && r.rToP
	}
}

// expandRunning adds the ways in which the running block may go on.
func (g *graph) expandRunning(i int32) {
	kind, st := index(g.Running.Kind), g.stretches[g.nodes[i].stretch]
	for w := 0; w <= st.weeks(); w++ {
		b := step{kind: kind, weeks: w, total: g.done + w, running: true}
		g.addBlock(i, b)
	}
}

// addBlock adds the block to node i if the rules allow it.
func (g *graph) addBlock(i int32, b step) {
	k := g.nodes[i].key
	p := g.pinsOn(k, b)
	if !p.ok {
		return
	}
	next, ok := g.ends(b, p)
	if !ok || !g.lasts(b, p) || g.overCap(b) || !g.o.back && g.barredPeak(b) {
		return
	}
	spent, ok := g.tuneUpsIn(b, p)
	if !ok {
		return
	}
	after, charge, ok := g.follow(k, b, p, next)
	if !ok {
		return
	}
	charge += spent
	after.ordinal, after.kept = p.ordinal, p.kept
	e := edge{kind: uint8(b.kind), weeks: int16(b.weeks), total: int16(b.total), charge: charge, flow: g.pass(g.flowOf(b), b.at+b.weeks, next)}
	e.listed = b.weeks > 0 || !b.running || g.done > 0 && g.listedAtOnce()
	e.to = g.visit(after)
	g.nodes[i].edges = append(g.nodes[i].edges, e)
}

// follow returns the key after block b and what the block is charged.
func (g *graph) follow(k key, b step, p pinning, next int) (after key, charge float64, ok bool) {
	after = key{t: int16(next), last: uint8(b.kind), hSeen: k.hSeen, hWeeks: k.hWeeks}
	r, st := &g.rows[b.stretch], g.stretches[b.stretch]
	charge = g.model.preference(b.kind, b.total)
	if b.kind == iH {
		after.hSeen = g.minds(b.stretch)
		if r.mostH > 0 {
			after.hWeeks += uint8(b.weeks)
			if int(after.hWeeks) > r.mostH && !g.pinnedH() {
				return after, 0, false
			}
		}
	}
	before := k.last
	if b.running {
		before = none
		if g.before == planner.Hypertrophy {
			before = iH
		}
	}
	if r.mostH > 0 && int(after.hWeeks)+st.hi-next <= r.mostH {
		after.hWeeks = 0 // no hypertrophy to come can pass the bound
	}
	after.shortS = b.kind == iS && before == iH && b.total < r.between && !p.fixed
	if r.shape != nil {
		after.pos = k.pos + 1
	}
	if b.at+b.weeks == st.hi {
		if r.needH && !after.hSeen {
			return after, 0, false
		}
		if b.stretch == g.main && g.longFirst() && !after.hSeen {
			charge += g.model.LeftOutCost
		}
		after.last, after.pos, after.hSeen, after.shortS = none, 0, false, false
	}
	return after, charge, g.tracks(k, &after, b)
}

// tracks moves the trackers of the plans to differ from; a finished plan must
// differ from all of them.
func (g *graph) tracks(k key, after *key, b step) bool {
	for i, other := range g.avoid {
		j := k.track[i]
		after.track[i] = different
		if j != different && int(j) < len(other) && resembles(other[j], b) {
			after.track[i] = j + 1
		}
		if int(after.t) == len(g.weeks) && after.track[i] != different {
			return false
		}
	}
	return true
}

// resembles tells whether two blocks in the same place count as the same to a
// lifter: one kind, and less than two weeks apart in length.
func resembles(a, b step) bool {
	d := a.total - b.total
	return a.kind == b.kind && d > -2 && d < 2
}

func (g *graph) flowOf(b step) flow {
	if b.weeks == 0 {
		return still
	}
	if b.running {
		f := still
		for w := range b.weeks {
			f = g.week(f, b.kind, g.done+w, w)
		}
		return f
	}
	list := g.flows[b.kind][int16(b.at)]
	for w := len(list); w < b.weeks; w++ {
		f := still
		if w > 0 {
			f = list[w-1]
		}
		list = append(list, g.week(f, b.kind, w, b.at+w))
	}
	g.flows[b.kind][int16(b.at)] = list
	return list[b.weeks-1]
}
