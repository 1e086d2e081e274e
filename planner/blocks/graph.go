package blocks

import "blockbell/planner"

// key is everything that the legality of what follows depends on, and nothing
// else: two partial plans with one key have the same continuations.
type key struct {
	t       int16 // training weeks laid out
	last    uint8 // kind of the last block; none at the start of a stretch
	running bool  // the running block is not yet decided
	pos     uint8 // blocks since the stretch began, where its order is exact
	hSeen   bool  // hypertrophy in this stretch, where that matters
	shortS  bool  // the last block is strength after hypertrophy, too short for more
	ordinal uint8 // blocks so far, up to the last one a pin numbers
	kept    uint16
	hWeeks  uint8    // weeks of hypertrophy, where their total is bounded
	track   [2]uint8 // how far the plan still resembles those to differ from
}

const (
	none      = uint8(4)
	different = uint8(255)
)

type node struct {
	key
	edges    []edge
	ok       bool    // the end can be reached
	aLo, aHi float64 // factor of gap in the final value, over all continuations
	gLo, gHi float64 // factor of e
	labels   []int32
	stretch  int
}

// edge is one whole block.
type edge struct {
	to     int32
	kind   uint8
	weeks  int16 // training weeks laid out
	total  int16 // those done before included
	charge float64
	listed bool
	flow
}

// graph holds every legal plan of a season as a path from its first node to an
// end node.
type graph struct {
	*season
	rows   []row
	o      loosening
	avoid  [][]step
	nodes  []node
	byKey  map[key]int32
	byWeek [][]int32
	order  []int32
	flows  [4]map[int16][]flow
	last   uint8 // highest ordinal that a pin names
	all    uint16
	search search
	none   bool // a pin forbids the first node
}

// step is one block of a found plan, in training weeks.
type step struct {
	kind    int
	at      int // first training week laid out
	weeks   int
	total   int
	running bool
	next    int // first training week of what follows
	stretch int
}

// newGraph lays out the legal plans under rules loosened by o that differ from
// each plan in avoid.
func (s *season) newGraph(o loosening, avoid ...[]step) *graph {
	g := &graph{season: s, rows: s.rows(o), o: o, avoid: avoid, byKey: map[key]int32{}}
	g.byWeek = make([][]int32, len(s.weeks)+1)
	for k := range g.flows {
		g.flows[k] = map[int16][]flow{}
	}
	for i, p := range s.pins {
		if p.ordinal > 0 {
			g.last = max(g.last, uint8(p.ordinal))
		} else {
			g.all |= 1 << i
		}
	}
	first := key{last: none}
	if s.Running != nil {
		first.running = s.stretches[0].weeks() > 0
		if !first.running { // no week is left: it ends, and is the first block
			p := g.pinsOn(first, step{kind: index(s.Running.Kind), total: s.done, running: true})
			first.ordinal, first.kept, g.none = p.ordinal, p.kept, !p.ok
		}
	}
	first.hSeen = s.model.Start.Hypertrophy && g.minds(0)
	g.visit(first)
	for t := range g.byWeek {
		for i := 0; i < len(g.byWeek[t]); i++ {
			g.expand(g.byWeek[t][i])
		}
		g.order = append(g.order, g.byWeek[t]...)
	}
	g.survey()
	return g
}

// minds tells whether it matters in stretch i that hypertrophy was seen.
func (g *graph) minds(i int) bool {
	return g.rows[i].needH || i == 0 && g.longFirst()
}

func (g *graph) longFirst() bool {
	return !g.rolling() && g.stretches[0].weeks() >= g.model.LeftOutFrom
}

func (g *graph) visit(k key) int32 {
	if i, ok := g.byKey[k]; ok {
		return i
	}
	i := int32(len(g.nodes))
	g.nodes = append(g.nodes, node{key: k, stretch: g.stretchOf(int(k.t))})
	g.byKey[k] = i
	g.byWeek[k.t] = append(g.byWeek[k.t], i)
	return i
}

// stretchOf returns the stretch whose training week comes next after t weeks.
func (g *graph) stretchOf(t int) int {
	for i, st := range g.stretches {
		if t < st.hi {
			return i
		}
	}
	return len(g.stretches)
}

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
		for w := 1; w <= longest && int(n.t)+w <= st.hi; w++ {
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
		return (kind == iR) == r.recover
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
	next, ok := g.ends(k, b, p)
	if !ok || !g.lasts(k, b, p, next) || g.tuneUpIn(b, p) {
		return
	}
	after, charge, ok := g.follow(k, b, next)
	if !ok {
		return
	}
	after.ordinal, after.kept = p.ordinal, p.kept
	e := edge{kind: uint8(b.kind), weeks: int16(b.weeks), total: int16(b.total), charge: charge, flow: g.flowOf(b)}
	e.listed = b.weeks > 0 || g.done > 0 && g.listedAtOnce()
	e.to = g.visit(after)
	g.nodes[i].edges = append(g.nodes[i].edges, e)
}

// follow returns the key after block b and what the block is charged.
func (g *graph) follow(k key, b step, next int) (after key, charge float64, ok bool) {
	after = key{t: int16(next), last: uint8(b.kind), hSeen: k.hSeen, hWeeks: k.hWeeks}
	r, st := &g.rows[b.stretch], g.stretches[b.stretch]
	charge = g.model.preference(b.kind, b.total)
	if b.kind == iH {
		after.hSeen = g.minds(b.stretch)
		if r.mostH > 0 {
			after.hWeeks += uint8(b.weeks)
			ok = int(after.hWeeks) <= r.mostH || g.pinnedH()
			if !ok {
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
	after.shortS = b.kind == iS && before == iH && b.total < r.between
	if r.shape != nil {
		after.pos = k.pos + 1
	}
	if b.at+b.weeks == st.hi {
		if r.needH && !after.hSeen {
			return after, 0, false
		}
		if b.stretch == 0 && g.longFirst() && !after.hSeen {
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
