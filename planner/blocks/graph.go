package blocks

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
	return g.rows[i].needH || i == g.main && g.longFirst()
}

func (g *graph) longFirst() bool {
	return g.main >= 0 && g.stretches[g.main].weeks() >= g.model.LeftOutFrom
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
