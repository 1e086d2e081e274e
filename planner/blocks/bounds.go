package blocks

import (
	"fmt"

	"blockbell/planner"
)

// noCap is the cap of a kind that no bound speaks of.
const noCap = -1

// checkBound refuses a bound that no block could keep.
func checkBound(b Bound) error {
	k := index(b.Kind)
	switch {
	case k == iLayoff:
		return planner.Errorf(planner.Invalid, "Blocks are hypertrophy, strength, peaking and recovery.", "%q is not a kind of block", b.Kind)
	case b.Max < 0 || b.Max > maxWeeks:
		return planner.Errorf(planner.Invalid, "Give 0 for none of this kind, or the most weeks.", "a bound of %d weeks on %s: 0 to %d are possible", b.Max, b.Kind, maxWeeks)
	case b.Max > 0 && k != iR && b.Max < pinned[iS][0]:
		return planner.Errorf(planner.Invalid, "Give 0 to have none of this kind.", "a bound of %s on %s: no such block is shorter than %s", plural(b.Max), b.Kind, plural(pinned[iS][0]))
	}
	return nil
}

// readBounds takes the smallest bound of each kind.
func (s *season) readBounds() {
	s.caps = [4]int{noCap, noCap, noCap, noCap}
	for _, b := range s.Bounds {
		if k := index(b.Kind); s.caps[k] == noCap || b.Max < s.caps[k] {
			s.caps[k] = b.Max
		}
	}
}

// capOn returns the bound that caps a kind; false where none does.
func (s *season) capOn(kind int) (Bound, bool) {
	for _, b := range s.Bounds {
		if index(b.Kind) == kind && b.Max == s.caps[kind] {
			return b, true
		}
	}
	return Bound{}, false
}

// text is the bound in words, in quotation marks.
func (b Bound) text() string {
	source := b.Source
	if source == "" {
		source = "the coach"
	}
	if b.Max == 0 {
		return fmt.Sprintf("%q by %s", "no "+string(b.Kind), source)
	}
	return fmt.Sprintf("%q by %s", fmt.Sprintf("%s at most %s", b.Kind, plural(b.Max)), source)
}

// overCap tells whether a bound forbids block b. What has run already stands, and
// a bound never takes away the last peak: with 3 weeks to the meet or less running
// peaking goes on.
func (s *season) overCap(b step) bool {
	most := s.caps[b.kind]
	if most == noCap || b.weeks == 0 || b.total <= most {
		return false
	}
	return !(b.running && s.peaksOn())
}

// peaksOn tells whether running peaking goes on to the meet whatever a bound says.
func (s *season) peaksOn() bool {
	return s.peaks() && s.main == 0 && s.stretches[0].weeks() <= 3
}

// capRow brings the lengths and the order of stretch i under the bounds. A kind
// that is forbidden is left out of the order prescribed; where the cap on peaking
// is shorter than the weeks left, as little strength as fills them comes first.
func (s *season) capRow(r *row, i int) {
	for k, most := range s.caps {
		if most == noCap {
			continue
		}
		r.span[k][0] = min(r.span[k][0], most)
		r.span[k][1] = min(r.span[k][1], most)
		if most == 0 {
			s.leave(r, k, i)
		}
	}
	if s.caps[iH] == 0 {
		s.stretchStrength(r, i)
	}
	if s.caps[iP] != noCap && !(i == 0 && s.peaksOn()) {
		r.stretch = min(r.stretch, s.caps[iP])
		s.fillBeforePeak(r, i)
		if s.opensForStrength(i) {
			r.span[iS][0] = 1
		}
	}
}

// stretchStrength lets strength fill the weeks that no muscle block may have, so that
// peaking keeps its limit.
func (s *season) stretchStrength(r *row, i int) {
	n := s.stretches[i].weeks()
	if s.stretches[i].kind == planner.Main {
		n -= r.span[iP][1]
	}
	if s.runsIn(i) && s.Running.Kind == planner.Strength {
		n += s.done
	}
	most := max(r.span[iS][1], n)
	if s.caps[iS] != noCap {
		most = min(most, s.caps[iS])
	}
	r.span[iS][1] = most
}

// opensForStrength tells whether a run-up would be all peaking, for longer than its
// cap: then strength may be as short as it must be.
func (s *season) opensForStrength(i int) bool {
	st := s.stretches[i]
	n, most := st.weeks(), s.caps[iP]
	if st.kind != planner.Main || s.isGap(i) || n <= most || most == 0 {
		return false
	}
	if !s.runsIn(i) {
		return n <= onlyPeak
	}
	switch s.Running.Kind {
	case planner.Peaking:
		return n < onlyPeak || s.done+n <= st.limit+stretchPast
	case planner.Recovery:
		return n <= onlyPeak && n-max(0, longestR-s.done) > most
	}
	return n < onlyPeak
}

// leave takes a forbidden kind out of a row; the block that runs stays in front.
func (s *season) leave(r *row, kind, i int) {
	r.needH = r.needH && kind != iH
	r.anew = r.anew && kind != iH
	r.hToP = r.hToP || kind == iS
	r.rToP = r.rToP || kind == iS && s.caps[iH] == 0
	r.recover = r.recover && kind != iR
	var shape []int
	for j, k := range r.shape {
		if k != kind || i == 0 && j == 0 && s.Running != nil {
			shape = append(shape, k)
		}
	}
	r.shape = shape
}

// fillBeforePeak makes room in an order that leaves peaking more weeks than its
// cap: a running block may go on, else strength comes in between.
func (s *season) fillBeforePeak(r *row, i int) {
	n := len(r.shape)
	if n == 0 || r.shape[n-1] != iP || n > 2 || s.caps[iP] == 0 {
		return
	}
	others := 0
	if n == 2 && r.shape[0] == iR {
		others = r.span[iR][1]
		if s.runsIn(i) {
			others = max(0, others-s.done)
		}
	}
	if s.stretches[i].weeks()-others <= s.caps[iP] {
		return
	}
	runs := i == 0 && s.Running != nil
	switch {
	case runs && n == 2 && r.shape[0] != iR:
		r.runEnds = false
	case runs && n == 1: // running peaking: ends, then strength and a new peak
		r.shape = []int{iP, iS, iP}
	case n == 1 || r.shape[0] == iR:
		r.shape = append(append([]int{}, r.shape[:n-1]...), iS, iP)
		if s.isGap(i) {
			r.span[iS][0] = 1
		}
	}
}

// capped is a peaking limit under the bound on peaking.
func (s *season) capped(lim Limit) Limit {
	if most := s.caps[iP]; most > 0 && most < lim.Weeks {
		b, _ := s.capOn(iP)
		lim.Weeks = most
		lim.Reasons = append(lim.Reasons, "a bound: "+b.text())
	}
	return lim
}
