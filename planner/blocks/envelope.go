package blocks

import "math"

// fewLabels is a number of labels below which looking for more to drop costs
// more than it saves.
const fewLabels = 6

// envelope drops the labels of a node that no single other one drops, but all
// others together do.
//
// Proof. Label x beats z by at least h(a) = y_x - y_z + a (gap_x - gap_z) + the
// least of g (e_x - e_z), whatever g. Where h(a) > tie for some x at every a in
// [aLo, aHi], each continuation has an x that leads to a plan better than the one
// through z by more than a tie, and z cannot be the answer. The values of a that
// x leaves to z are a half line, so those left by all are an interval, and z goes
// when it is empty. All labels are judged against the full set: for one pair of
// factors the best label, and each within a tie of it, is beaten by none.
func (g *graph) envelope(n *node) {
	if len(n.labels) < fewLabels {
		return
	}
	left := make([]int32, 0, len(n.labels))
	for _, i := range n.labels {
		if g.hasRoom(n, i) {
			left = append(left, i)
		}
	}
	n.labels = left
}

// hasRoom tells whether some factor a is left to label i.
func (g *graph) hasRoom(n *node, i int32) bool {
	z := &g.search.arena[i]
	lo, hi := n.aLo, n.aHi
	for _, j := range n.labels {
		if j == i {
			continue
		}
		x := &g.search.arena[j]
		f := x.e - z.e
		c := x.y - z.y + math.Min(n.gLo*f, n.gHi*f)
		switch d := x.gap - z.gap; {
		case d > 0:
			hi = math.Min(hi, (tie-c)/d)
		case d < 0:
			lo = math.Max(lo, (tie-c)/d)
		case c > tie:
			return false
		}
		if lo > hi {
			return false
		}
	}
	return true
}
