package blocks

import "fmt"

// means tells whether a pin with neither number nor day can speak of block b, the first
// of its kind so far: a coach who fixes the length of a kind means the block that runs,
// where it is of that kind, else the next. What has run for longer already is not meant,
// nor running peaking that ends for want of a meet, nor odd days without a training week.
func (g *graph) means(p pin, b step) bool {
	switch {
	case p.kind < 0:
		return true
	case p.kind != b.kind || b.total == 0:
		return false
	case !b.running || p.weeks == 0:
		return true
	}
	return p.weeks >= g.done && (b.kind != iP || b.weeks > 0 || p.weeks == b.total)
}

// whichFixed says which block a pin on a kind means, where the plan has more of them.
func (s *season) whichFixed(f found) (out []string) {
	for _, p := range s.pins {
		if p.ordinal > 0 || p.start != -1 || p.kind < 0 || p.weeks == 0 || blocksOfKind(f.steps, p.kind) < 2 {
			continue
		}
		which := "the one that runs"
		for _, b := range f.steps {
			if b.kind != p.kind || !f.g.means(p, b) {
				continue
			}
			if !b.running {
				which = "the one from " + s.weeks[b.at].Long()
			}
			out = append(out, fmt.Sprintf("The %s of %s that is fixed by hand is %s.", screenName(p.kind), plural(p.weeks), which))
			break
		}
	}
	return out
}

// blocksOfKind counts the blocks of a kind that have training weeks.
func blocksOfKind(steps []step, kind int) (n int) {
	for _, b := range steps {
		if b.kind == kind && b.total > 0 {
			n++
		}
	}
	return n
}
