package blocks

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"blockbell/planner"
)

// The second dynamic programme: every history to its end, week by week with the
// published update, nothing dropped on the way. Only a state that was reached by
// the same history is shared. It goes further than the enumeration of all requests,
// because it knows two calendars only: a fresh run-up, and two of them.

// history is one run-up that was lived through.
type history struct {
	x     State
	paid  float64 // preferences
	parts []byte  // kind and weeks in turn
}

func (h history) text() string {
	var t []string
	for i := 0; i < len(h.parts); i += 2 {
		t = append(t, fmt.Sprintf("%c%d", h.parts[i], h.parts[i+1]))
	}
	return strings.Join(t, " ")
}

// runUp is a calendar of n training weeks before a main meet, with recovery of one or
// two weeks in front or not.
type runUp struct {
	m     Model
	n     int
	limit int
	rest  bool
}

// each visits every history of the run-up from x: hypertrophy 4 to 12 weeks (novice
// 8), strength 4 to 16, peaking 3 to the limit, in order, with hypertrophy in it.
func (r runUp) each(x State, visit func(history)) {
	if !r.rest {
		r.lay(history{x: x}, 0, 0, false, visit)
		return
	}
	for w := 1; w <= 2; w++ {
		x = r.m.Week(x, planner.Recovery, w-1)
		r.lay(history{x: x, parts: []byte{'R', byte(w)}}, w, 'R', false, visit)
	}
}

func (r runUp) lay(h history, t int, last byte, seen bool, visit func(history)) {
	longest := 12
	if r.m.novice() {
		longest = 8
	}
	for k, kind := range kindOf[:3] {
		letter, lo, hi := "HSP"[k], 4, [...]int{longest, 16, r.limit}[k]
		if letter == 'P' {
			lo = max(3, r.n-t)
		}
		if letter == last || letter == 'H' && last == 'P' || letter == 'P' && (last != 'S' || !seen) {
			continue
		}
		x := h.x
		for w := 1; w <= min(hi, r.n-t); w++ {
			x = r.m.Week(x, kind, w-1)
			if w < lo {
				continue
			}
			d := float64(w)/r.m.L0[k] - 1
			next := history{x, h.paid + r.m.Kappa*d*d, append(h.parts[:len(h.parts):len(h.parts)], letter, byte(w))}
			switch {
			case letter == 'P':
				visit(next)
			case t+w < r.n:
				r.lay(next, t+w, letter, seen || letter == 'H', visit)
			}
		}
	}
}

func TestLongRunUpsMatchEveryHistory(t *testing.T) {
	t.Parallel()
	longest := 44
	if testing.Short() {
		longest = 30
	}
	for _, level := range trained {
		for n := 37; n <= longest; n += 7 {
			s, err := newSeason(fresh(level, n))
			if err != nil {
				t.Fatal(err)
			}
			s.weigh()
			got, _ := s.newGraph(loosening{}).best()
			best, count, found := math.Inf(-1), 0, history{}
			runUp{s.model, n, s.limit.Weeks, false}.each(s.model.Start.State, func(h history) {
				count++
				if v := h.x.S + h.x.E + s.model.Lambda*h.x.M - h.paid; v > best {
					best, found = v, h
				}
			})
			if text := lengths(s.blocks(got.steps)); math.Abs(got.objective-best) > sameValue || text != found.text() {
				t.Errorf("%s, %d weeks: %s %.12f, of %d histories %s %.12f", level, n, text, got.objective, count, found.text(), best)
			}
		}
	}
}

// TestTwoRunUpsMatchEveryHistory joins every history of the first run-up with every
// one of the second: what the second adds is affine in the state on the day of the
// first meet, and is taken from three runs of it.
func TestTwoRunUpsMatchEveryHistory(t *testing.T) {
	t.Parallel()
	first, second := 30, 32
	if testing.Short() {
		first, second = 18, 20
	}
	for _, level := range trained {
		s, err := newSeason(fresh(level, first, first+second))
		if err != nil {
			t.Fatal(err)
		}
		s.weigh()
		got, _ := s.newGraph(loosening{}).best()
		m := s.model
		var tails []tail
		runUp{m, second, s.stretches[1].limit, true}.each(State{}, func(h history) { tails = append(tails, m.tail(h)) })
		best, text, count := math.Inf(-1), "", 0
		runUp{m, first, s.stretches[0].limit, false}.each(m.Start.State, func(h history) {
			count++
			gap, base := h.x.M+h.x.C-h.x.S, 2*h.x.S+h.x.E+m.Lambda*h.x.M-h.paid
			for i := range tails {
				z := &tails[i]
				if v := base + z.add + z.byGap*gap + z.byE*h.x.E; v > best {
					best, text = v, h.text()+" "+z.text()
				}
			}
		})
		if plan := lengths(s.blocks(got.steps)); math.Abs(got.objective-best) > sameValue || plan != text {
			t.Errorf("%s: %s %.12f, of %d histories %s %.12f", level, plan, got.objective, count*len(tails), text, best)
		}
	}
}

// tail is what a second run-up adds to the objective by the state it begins with.
type tail struct {
	history
	add, byGap, byE float64
}

// tail runs the history from three states.
func (m Model) tail(h history) tail {
	value := func(x State) float64 {
		m0, s0 := x.M, x.S
		for i := 0; i < len(h.parts); i += 2 {
			kind := kindOf[strings.IndexByte("HSPR", h.parts[i])]
			for w := range int(h.parts[i+1]) {
				x = m.Week(x, kind, w)
			}
		}
		return x.S - s0 + x.E + m.Lambda*(x.M-m0) - h.paid
	}
	add := value(State{})
	return tail{h, add, value(State{M: 1}) - add, value(State{E: 1}) - add}
}
