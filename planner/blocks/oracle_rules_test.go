package blocks

import "blockbell/planner"

// best enumerates every legal plan and returns the best: of the prescribed order,
// unless another legal one is better by more than 0.003. ok is false where the
// rules, unloosened, leave no plan.
func (o *oracle) best() (f oFound, ok bool) {
	var rule, any oFound
	o.walk(nil, 0, func(plan []oBlock) {
		prescribed, free := o.prescribed(plan), o.freeOrder(plan)
		if !prescribed && !free {
			return
		}
		v := o.simulate(plan)
		rule.count++
		if prescribed && o.better(plan, v, rule) {
			rule.blocks, rule.value = append([]oBlock(nil), plan...), v
		}
		if free && o.better(plan, v, any) {
			any.blocks, any.value = append([]oBlock(nil), plan...), v
		}
	})
	n := rule.count
	if rule.blocks == nil || any.blocks != nil && any.value > rule.value+0.003 {
		rule = any
	}
	rule.count = n
	return rule, rule.blocks != nil
}

// walk visits every sequence of blocks that fills all weeks, keeps the pins and
// the lengths, and puts every kind only where it may stand.
func (o *oracle) walk(plan []oBlock, t int, visit func([]oBlock)) {
	if t == len(o.weeks) {
		if o.pinsKept(plan) {
			visit(plan)
		}
		return
	}
	i := 0
	for o.stretches[i].hi <= t {
		i++
	}
	s := o.stretches[i]
	if o.run != 0 && len(plan) == 0 {
		for to := 0; to <= o.left(); to++ {
			o.try(plan, oBlock{kind: o.run, length: o.done + to, to: to, running: true}, visit)
		}
		return
	}
	for _, k := range []byte("HSPR") {
		if !o.mayFollow(plan, k, i) {
			continue
		}
		from := t + 1
		if k == 'R' { // may be the odd days alone
			from = t
		}
		for to := from; to <= s.hi; to++ {
			o.try(plan, oBlock{kind: k, length: to - t, from: t, to: to, stretch: i}, visit)
		}
	}
}

func (o *oracle) try(plan []oBlock, b oBlock, visit func([]oBlock)) {
	next := b.to
	s := o.stretches[b.stretch]
	if b.from == s.lo && !b.running && b.kind != 'H' && o.anew(b.stretch) {
		return
	}
	atEnd := b.to == s.hi && b.to > b.from
	plan = append(plan[:len(plan):len(plan)], b)
	switch {
	case atEnd && s.main && b.kind != 'P':
		return
	case atEnd && s.leave && b.kind == 'P':
		return
	case atEnd && s.leave:
	case atEnd && !s.main && b.kind == 'P':
		_, fixed := o.pinOn(b, plan)
		if !s.test || b.length > 2 && !b.running && !fixed {
			return
		}
	case atEnd && !s.main && b.kind != 'S':
		return
	case atEnd && !o.gapOK(plan, b.stretch):
		return
	case b.kind == 'P' && !o.peakOK(b):
		return
	case !atEnd && b.kind == 'P' && b.to > b.from:
		st := o.peakStop(b, plan)
		if st == nil {
			return
		}
		next = st.nxt
	}
	if o.lengthOK(b, plan) && o.tuneUpsOK(b, plan) {
		o.walk(plan, next, visit)
	}
}

// peakOK tells whether peaking keeps off the weeks after a time away.
func (o *oracle) peakOK(b oBlock) bool {
	for t := b.from; t < b.to; t++ {
		if o.barred[t] {
			return false
		}
	}
	return true
}

// opens tells whether a run-up that would be all peaking has as little strength in
// front as the bound on peaking asks for.
func (o *oracle) opens(stretch int) bool {
	s := o.stretches[stretch]
	n := s.hi - s.lo
	if !s.main || s.gap > 0 || n <= o.cap('P') {
		return false
	}
	run := o.run
	if stretch > 0 {
		run = 0
	}
	if run == 'H' || run == 'S' {
		return n <= 5
	}
	switch run {
	case 'P':
		return n < 6 || o.done+n <= s.limit+2
	case 'R':
		return n <= 6 && n-max(0, 2-o.done) > o.cap('P')
	}
	return run == 0 && n <= 6
}

// peakStop returns the tune-up or test day whose eve is the last day of b.
func (o *oracle) peakStop(b oBlock, plan []oBlock) *oStop {
	for i := range o.stops {
		st := &o.stops[i]
		if st.before != b.to || st.nxt >= o.stretches[b.stretch].hi {
			continue
		}
		_, fixed := o.pinOn(b, plan)
		if st.kind == planner.TuneUp && !st.near && (b.length >= 3 || b.running || fixed) ||
			st.kind == planner.Test && (b.length <= 2 || b.running || fixed) {
			return st
		}
	}
	return nil
}

func (o *oracle) mayFollow(plan []oBlock, k byte, stretch int) bool {
	var last *oBlock
	if len(plan) > 0 {
		last = &plan[len(plan)-1]
	}
	if last == nil || last.stretch != stretch {
		return (k == 'R') == o.stretches[stretch].rest
	}
	switch last.kind {
	case 'H':
		return k == 'S' || k == 'P' && (last.running && o.left() <= 5 && o.stretches[0].main || o.cap('S') == 0)
	case 'S':
		if _, fixed := o.pinOn(*last, plan); k == 'H' && last.length < 4 && o.beforeThat(plan) == 'H' && !fixed {
			return false // at least 4 between two
		}
		return k == 'H' || k == 'P'
	case 'P':
		return k == 'H' || k == 'S'
	}
	short := stretch == 0 && o.stretches[0].main && o.left() <= 6 || o.stretches[stretch].gap > 0 && o.stretches[stretch].gap < 98
	return k == 'H' || k == 'S' || k == 'P' && short
}

// beforeThat is the kind before the last block of the plan.
func (o *oracle) beforeThat(plan []oBlock) byte {
	if n := len(plan); n > 1 && plan[n-2].stretch == plan[n-1].stretch {
		return plan[n-2].kind
	}
	if plan[0].running && len(plan) == 1 {
		return o.before
	}
	return 0
}

// left is the number of training weeks before the first main meet.
func (o *oracle) left() int { return o.stretches[0].hi }

// bounds returns the least and most weeks of a kind that has not begun.
func (o *oracle) bounds(kind byte, stretch int) (lo, hi int) {
	s := o.stretches[stretch]
	n := s.hi - s.lo
	switch kind {
	case 'H':
		lo, hi = 4, 12
		if o.m.Level == planner.Novice || o.m.Level == planner.New {
			hi = 8
		}
		if o.r.Lifter.LongBlocks {
			hi = 16
		}
		if !s.main && !s.leave {
			hi = 8
			if o.r.Lifter.LongBlocks {
				hi = 10
			}
		}
	case 'S':
		lo, hi = 3, 16
		if n >= 14 {
			lo = 4
		}
		if !s.main && !s.leave {
			lo = min(lo, n)
		}
	case 'P':
		lo, hi = 3, s.limit
		if s.gap == 0 && !s.leave && n < 3 {
			lo, hi = n, max(n, hi)
		}
	case 'R':
		lo, hi = 1, 2
		if planner.Age(o.r.Lifter.Born, o.r.Today) >= 60 {
			lo = 2
		}
	}
	if s.gap > 0 {
		lo, hi = o.gapBounds(kind, stretch, lo, hi)
	}
	if lead := o.lead(s); lead > 0 {
		if kind == 'P' && lead < n {
			lo = min(lo, n-lead)
		}
		if kind == 'S' && n <= 6 {
			lo = min(lo, lead)
		}
	}
	if kind == 'S' && o.cap('H') == 0 {
		hi = max(hi, o.withoutMuscle(stretch))
	}
	lo, hi = min(lo, o.cap(kind)), min(hi, o.cap(kind))
	if kind == 'S' && o.opens(stretch) {
		lo = 1
	}
	return lo, hi
}

func (o *oracle) lengthOK(b oBlock, plan []oBlock) bool {
	lo, hi := o.bounds(b.kind, b.stretch)
	_, fixed := o.pinOn(b, plan)
	if b.to > b.from && b.length > o.cap(b.kind) && !(b.running && b.kind == 'P' && o.stretches[0].main && o.left() <= 3) {
		return false
	}
	if fixed {
		wide := map[byte][2]int{'H': {3, 26}, 'S': {3, 26}, 'P': {1, 13}, 'R': {1, 4}}[b.kind]
		lo = min(lo, wide[0])
		if b.kind != 'P' || o.peakNamed(b, plan) {
			hi = max(hi, wide[1])
		}
	}
	if b.running && o.left() == 0 {
		return true // no week is left: it ends
	}
	if s := o.stretches[b.stretch]; s.leave && b.to == s.hi {
		lo = min(lo, 1)
	}
	if b.running {
		return o.runningOK(b, lo, hi, fixed)
	}
	if b.kind == 'P' && b.length <= 2 && (b.to < o.stretches[b.stretch].hi || o.stretches[b.stretch].test) {
		lo = 1 // a taper for a test day; peakStop has looked
	}
	if b.kind == 'P' && !o.stretches[b.stretch].main && !fixed {
		hi = 2
	}
	return b.length >= lo && b.length <= hi
}

// runningOK: what runs may be cut where little time is left, and peaking goes on
// to a meet within two weeks of its limit or ends at once.
func (o *oracle) runningOK(b oBlock, lo, hi int, fixed bool) bool {
	ends := b.from == b.to
	if b.kind == 'P' {
		reach := o.stretches[0].limit + 2
		if !o.stretches[0].main {
			reach = max(reach, 0)
		}
		if o.stretches[0].main && o.left() < 3 {
			reach = max(reach, o.done+o.left())
		}
		if !(o.stretches[0].main && o.left() <= 3) {
			reach = min(reach, o.cap('P'))
		}
		if ends {
			return fixed || !o.stretches[0].main || !o.inReach(reach) || o.lead(o.stretches[0]) > 0
		}
		return b.length <= reach || fixed && b.length <= hi
	}
	if b.kind == 'S' {
		lo = min(lo, 3)
	}
	// The coach's table for little time left lets the block end short; the order
	// of kinds is looked at with the whole plan.
	atOnce := o.stretches[0].main && (o.left() <= 5 && b.kind != 'R' || o.left() <= 3)
	if ends {
		return b.length >= lo || atOnce
	}
	return b.length <= hi && b.length >= lo
}

func (o *oracle) inReach(weeks int) bool { return o.done+o.left() <= weeks }

// inBlock tells whether a tune-up lies in b, and in which of its weeks: before the
// first training week ahead it is in the last week of what runs.
func (o *oracle) inBlock(b oBlock, st oStop) (week int, ok bool) {
	if st.week < 0 {
		return b.length - (b.to - b.from) - 1, b.running
	}
	return b.length - (b.to - st.week), st.week >= b.from && st.week < b.to
}

func (o *oracle) tuneUpsOK(b oBlock, plan []oBlock) bool {
	if b.kind == 'S' || b.kind == 'P' {
		return true
	}
	spoken, _ := o.pinOn(b, plan)
	for _, st := range o.stops {
		w, in := o.inBlock(b, st)
		if st.kind == planner.TuneUp && in && !(b.kind == 'H' && (spoken || w >= 3)) {
			return false
		}
	}
	return true
}

// withoutMuscle is how long strength may last in a stretch in which muscle blocks are
// forbidden: what the longest peaking leaves.
func (o *oracle) withoutMuscle(stretch int) int {
	s := o.stretches[stretch]
	weeks := s.hi - s.lo
	if s.main {
		_, peak := o.bounds('P', stretch)
		weeks -= peak
	}
	if stretch == 0 && o.run == 'S' {
		weeks += o.done
	}
	return weeks
}
