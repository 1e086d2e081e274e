package blocks

// label is one partial plan: its numbers, what ties are broken by, and the way
// back.
type label struct {
	y, gap, e float64
	blocks    int16
	h, s      int16
	depth     int16 // steps since the start
	from      int32 // label before, -1 at the start
	node      int32 // node the last block began at
	edge      int16
}

// tie is how near two objectives are the same plan to the planner. It is wide of
// rounding (1e-15) and far below anything a person could mean.
const tie = 1e-9

// survey finds, backward, which nodes reach the end and the ranges of the factors
// with which gap and e enter the final value over all continuations. For one
// continuation through an edge the factors are exactly d + a*A and k + f*G, with
// A and G those of the edge's end; a and f are positive, so the ranges map end
// to end.
func (g *graph) survey() {
	for i := len(g.order) - 1; i >= 0 && !g.none; i-- {
		n := &g.nodes[g.order[i]]
		if int(n.t) == len(g.weeks) {
			n.ok = n.kept == g.all && n.ordinal >= g.last
			continue
		}
		for _, e := range n.edges {
			to := &g.nodes[e.to]
			if !to.ok {
				continue
			}
			aLo, aHi := e.d+e.a*to.aLo, e.d+e.a*to.aHi
			gLo, gHi := e.k+e.f*to.gLo, e.k+e.f*to.gHi
			if !n.ok {
				n.ok, n.aLo, n.aHi, n.gLo, n.gHi = true, aLo, aHi, gLo, gHi
				continue
			}
			n.aLo, n.aHi = min(n.aLo, aLo), max(n.aHi, aHi)
			n.gLo, n.gHi = min(n.gLo, gLo), max(n.gHi, gHi)
		}
	}
}

// drops tells whether label x makes label z needless at node n.
//
// Proof. Let a continuation have the factors a and g; it turns both labels into
// plans, for the key holds all that legality depends on, and the finals differ by
//
//	y_x - y_z + a (gap_x - gap_z) + g (e_x - e_z)
//
// since every constant of the continuation is the same for both: what a block earns
// and is charged depends on its weeks and their place in the calendar, never on the
// state. That holds for weeks away too, which the calendar fixes and every plan runs
// alike; and pins, bounds, weeks too soon after a time away and the least length of
// the running block only take edges out, by the key and the edge. a lies in
// [aLo, aHi] and g in [gLo, gHi], and a term linear in a factor is least at an
// end of its range. So worst is a lower bound of the difference over all
// continuations. If worst > tie, every plan through z is worse than one through x
// by more than a tie. If worst >= 0 and x is not behind in the order that breaks
// ties, which adds up along a plan just as the objective does, every plan through
// z is neither better nor preferred to the same one through x. In both cases z
// cannot be the answer. No tolerance enters but the tie itself, and where in
// doubt both labels stay.
func (g *graph) drops(n *node, x, z *label) bool {
	dGap, dE := x.gap-z.gap, x.e-z.e
	worst := x.y - z.y + min(n.aLo*dGap, n.aHi*dGap) + min(n.gLo*dE, n.gHi*dE)
	return worst > tie || worst >= 0 && !g.search.prefers(g, z, x)
}

// search keeps the labels of one forward pass.
type search struct{ arena []label }

// prefers tells whether a tie goes to z over x: fewer blocks, then more weeks of
// hypertrophy, then of strength, then the plan whose first differing block is
// longer, then the earlier kind.
func (q *search) prefers(g *graph, z, x *label) bool {
	switch {
	case z.blocks != x.blocks:
		return z.blocks < x.blocks
	case z.h != x.h:
		return z.h > x.h
	case z.s != x.s:
		return z.s > x.s
	}
	// Go back to where the two plans part; the blocks there differ.
	for z.depth > x.depth {
		z = &q.arena[z.from]
	}
	for x.depth > z.depth {
		x = &q.arena[x.from]
	}
	for z.from != x.from {
		z, x = &q.arena[z.from], &q.arena[x.from]
	}
	if z.from < 0 {
		return false
	}
	a, b := &g.nodes[z.node].edges[z.edge], &g.nodes[x.node].edges[x.edge]
	if a.total != b.total {
		return a.total > b.total
	}
	return a.kind < b.kind
}

// plan is a found sequence of blocks.
type plan struct {
	steps     []step
	objective float64
	g         *graph
}

// best returns the best plan of the graph; false where there is none.
func (g *graph) best() (plan, bool) {
	if !g.nodes[0].ok {
		return plan{}, false
	}
	first := g.start()
	first.node = -1
	g.search.arena = append(g.search.arena[:0], first)
	g.nodes[0].labels = []int32{0}
	var finished []int32
	for _, i := range g.order {
		n := &g.nodes[i]
		if !n.ok {
			continue
		}
		if int(n.t) == len(g.weeks) {
			finished = append(finished, n.labels...)
			continue
		}
		for _, l := range n.labels {
			g.extend(i, l)
		}
	}
	l := &g.search.arena[g.choose(finished)]
	return plan{steps: g.path(l), objective: l.y, g: g}, true
}

// extend carries label l over every edge of node i.
func (g *graph) extend(i, l int32) {
	for j := range g.nodes[i].edges {
		e := &g.nodes[i].edges[j]
		to := &g.nodes[e.to]
		if !to.ok {
			continue
		}
		x := g.search.arena[l]
		z := label{
			y: x.y + e.c + e.d*x.gap + e.k*x.e - e.charge, gap: e.a*x.gap + e.b, e: e.f*x.e + e.h,
			blocks: x.blocks, h: x.h, s: x.s, depth: x.depth + 1, from: l, node: i, edge: int16(j),
		}
		if e.listed {
			z.blocks++
		}
		switch e.kind {
		case iH:
			z.h += e.weeks
		case iS:
			z.s += e.weeks
		}
		g.keep(to, z)
	}
}

// keep adds a label to a node unless one there drops it, and takes out those it
// drops.
func (g *graph) keep(n *node, z label) {
	for _, i := range n.labels {
		if g.drops(n, &g.search.arena[i], &z) {
			return
		}
	}
	left := n.labels[:0]
	for _, i := range n.labels {
		if !g.drops(n, &z, &g.search.arena[i]) {
			left = append(left, i)
		}
	}
	n.labels = append(left, int32(len(g.search.arena)))
	g.search.arena = append(g.search.arena, z)
}

// choose returns the best of the finished labels, ties by preference.
func (g *graph) choose(finished []int32) int32 {
	top := finished[0]
	for _, i := range finished {
		if g.search.arena[i].y > g.search.arena[top].y {
			top = i
		}
	}
	pick := top
	for _, i := range finished {
		x := &g.search.arena[i]
		if x.y >= g.search.arena[top].y-tie && g.search.prefers(g, x, &g.search.arena[pick]) {
			pick = i
		}
	}
	return pick
}

// path returns the blocks that led to a label.
func (g *graph) path(l *label) []step {
	var steps []step
	for l.from >= 0 {
		n := &g.nodes[l.node]
		e := n.edges[l.edge]
		steps = append(steps, step{
			kind: int(e.kind), at: int(n.t), weeks: int(e.weeks), total: int(e.total),
			running: n.running, next: int(g.nodes[e.to].t), stretch: n.stretch,
		})
		l = &g.search.arena[l.from]
	}
	for i, j := 0, len(steps)-1; i < j; i, j = i+1, j-1 {
		steps[i], steps[j] = steps[j], steps[i]
	}
	return steps
}

// allows tells whether a sequence of blocks is a legal plan of the graph.
func (g *graph) allows(steps []step) bool {
	at := int32(0)
	for _, b := range steps {
		to := int32(-1)
		for _, e := range g.nodes[at].edges {
			if int(e.kind) == b.kind && int(e.total) == b.total {
				to = e.to
				break
			}
		}
		if to < 0 {
			return false
		}
		at = to
	}
	return int(g.nodes[at].t) == len(g.weeks) && g.nodes[at].ok
}
