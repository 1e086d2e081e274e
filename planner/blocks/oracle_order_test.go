package blocks

import (
	"strings"

	"blockbell/planner"
)

// order returns the kinds of a stretch, as letters.
func (o *oracle) order(plan []oBlock, stretch int) string {
	t := ""
	for _, b := range plan {
		if b.stretch == stretch {
			t += string(b.kind)
		}
	}
	return t
}

func has(plan []oBlock, stretch int, kind byte) bool {
	for _, b := range plan {
		if b.stretch == stretch && b.kind == kind {
			return true
		}
	}
	return false
}

// prescribed tells whether every run-up has the order that practice asks for by the
// weeks left.
func (o *oracle) prescribed(plan []oBlock) bool {
	if !o.lastPart().main {
		return o.shareOK(plan)
	}
	for i, s := range o.stretches {
		if s.main && s.gap == 0 && !o.prescribedIn(plan, i) {
			return false
		}
	}
	return true
}

func (o *oracle) prescribedIn(plan []oBlock, i int) bool {
	n := o.stretches[i].hi - o.stretches[i].lo
	if n == 0 {
		return true
	}
	want, needH, mustEnd := o.orderFor(i)
	if want == "" {
		return !needH || has(plan, i, 'H') || i == 0 && o.m.Start.Hypertrophy
	}
	return o.order(plan, i) == want && (!mustEnd || plan[0].to == 0 || o.endFixed(plan))
}

// orderFor is the order for a run-up: "" is any, perhaps with hypertrophy in it;
// mustEnd tells that the running block ends at once.
func (o *oracle) orderFor(i int) (want string, needH, mustEnd bool) {
	s := o.stretches[i]
	n := s.hi - s.lo
	novice := o.m.Level != planner.Advanced && o.m.Level != planner.Elite
	usual := ""
	switch {
	case n <= 6:
		usual = "P"
	case n <= 10:
		usual = "SP"
	case n <= 13 && novice:
		usual = "HSP"
	case n <= 13:
		usual = "SP"
	}
	run := o.run
	if i > 0 {
		run = 0
	}
	if usual == "SP" && o.anew(i) {
		usual = "HSP"
	}
	want, needH = usual, usual == ""
	switch {
	case run == 0:
	case run == 'R' && usual != "":
		want = "R" + usual
	case run == 'P' && (n < 3 || o.done+n <= s.limit+2):
		want, needH = "P", false
	case run == 'P' && n <= 6:
		want = "PSP"
	case run == 'P' && usual != "":
		want = "P" + usual
	case run == 'H' || run == 'S':
		needH, mustEnd = false, n <= 5
		switch {
		case n <= 5:
			want = string(run) + "P"
		case n < 14 && run == 'H':
			want = "HSP"
		case n < 14:
			want = "SP"
		}
	}
	return o.roomFor(want, run, n, o.lead(s), needH, mustEnd)
}

// roomFor puts strength before a peak that would come too soon after a time away or
// last longer than its bound, or lets the running block go on; forbidden
// hypertrophy is left out.
func (o *oracle) roomFor(want string, run byte, n, lead int, needH, mustEnd bool) (string, bool, bool) {
	open := func() {
		switch {
		case run != 0 && want == "P":
			want = "PSP"
		case want == "P" || want == "RP":
			want = want[:len(want)-1] + "SP"
		case len(want) == 2:
			mustEnd = false
		}
	}
	if lead > 0 {
		open()
	}
	if o.cap('H') == 0 {
		needH = false
		if want != "" && !(run == 'H') {
			want = strings.ReplaceAll(want, "H", "")
		}
	}
	rest := 0
	if want == "RP" {
		rest = max(0, 2-o.done)
	}
	if n-rest > o.cap('P') {
		open()
	}
	return want, needH, mustEnd
}

// endFixed tells whether a pin fixes the running block's length.
func (o *oracle) endFixed(plan []oBlock) bool {
	_, fixed := o.pinOn(plan[0], plan[:1])
	return fixed
}

// freeOrder tells whether the plan keeps the hard rules whatever its order.
func (o *oracle) freeOrder(plan []oBlock) bool {
	if !o.lastPart().main {
		return false
	}
	for i, s := range o.stretches {
		if s.main && s.gap == 0 && s.hi-s.lo < 3 && !o.prescribedIn(plan, i) {
			return false
		}
	}
	first := plan[0]
	if !first.running || !o.stretches[0].main || o.left() < 3 {
		return true
	}
	lo, _ := o.bounds(first.kind, 0)
	if first.kind == 'H' && len(plan) > 1 && plan[1].kind == 'P' {
		return false
	}
	_, fixed := o.pinOn(first, plan[:1])
	if fixed && first.kind == 'H' {
		lo = min(lo, 3)
	}
	if fixed && first.kind == 'R' {
		lo = min(lo, 1)
	}
	if first.kind == 'S' {
		lo = min(lo, 3)
	}
	return first.kind == 'P' || first.length >= lo
}

// shareOK is the share of hypertrophy in a cycle without a meet.
func (o *oracle) shareOK(plan []oBlock) bool {
	for _, p := range o.r.Pins {
		if p.Kind == planner.Hypertrophy {
			return true
		}
	}
	share := 40
	switch o.m.Level {
	case planner.Novice, planner.New:
		share = 55
	case planner.Intermediate:
		share = 50
	}
	h := 0
	for _, b := range plan {
		if b.kind == 'H' && b.stretch == len(o.stretches)-1 {
			h += b.to - b.from
		}
	}
	return h*100 <= share*(o.lastPart().hi-o.lastPart().lo)
}

// week is the training week in which a pinned day lies.
func (o *oracle) week(d planner.Date) int {
	if o.run != 0 && d == o.runStart {
		return -2
	}
	w := 0
	for i := range o.weeks {
		if o.weeks[i] <= d {
			w = i
		}
	}
	for _, a := range o.runs {
		if o.cuts(a) && d >= a.from && d <= a.to && !o.mainOn(d) { // the block after it
			w = 0
			for w < len(o.weeks) && o.weeks[w] < d {
				w++
			}
			return w
		}
	}
	for _, a := range o.runs { // so do odd days after a time away that ended blocks
		for i := range o.weeks {
			if o.cuts(a) && a.to < d && o.weeks[i] > a.to {
				w = max(w, i)
				break
			}
		}
	}
	for _, x := range o.r.Meets { // odd days after a main meet belong to what follows
		if x.Kind == planner.Main && x.Date < d {
			for i := range o.weeks {
				if o.weeks[i] > x.Date {
					w = max(w, i)
					break
				}
			}
		}
	}
	return w
}

func (o *oracle) mainOn(d planner.Date) bool {
	for _, x := range o.r.Meets {
		if x.Date == d {
			return true
		}
	}
	return false
}

// says tells whether a pin speaks of the last block of the plan so far.
func (o *oracle) says(p Pin, plan []oBlock) bool {
	last := len(plan) - 1
	if p.Ordinal == 0 && p.Start.IsZero() {
		return o.meant(p, plan) == last && (p.Weeks == 0 || p.Weeks == plan[last].length)
	}
	return o.fits(p, plan[last], last+1)
}

// meant is the place of the block that a pin without number and day is about: of its
// kind the one that runs, else the next; with no kind the first that is as long.
func (o *oracle) meant(p Pin, plan []oBlock) int {
	for i, b := range plan {
		if p.Kind == "" {
			if o.fits(p, b, i+1) {
				return i
			}
			continue
		}
		over := b.running && p.Weeks > 0 && (p.Weeks < o.done || b.kind == 'P' && b.to == 0 && p.Weeks != b.length)
		if letters[p.Kind] == b.kind && b.length > 0 && !over {
			return i
		}
	}
	return -1
}

func (o *oracle) fits(p Pin, b oBlock, number int) bool {
	at := b.from
	if b.running {
		at = -2
	}
	return (p.Ordinal == 0 || p.Ordinal == number) && (p.Kind == "" || letters[p.Kind] == b.kind) &&
		(p.Start.IsZero() || o.week(p.Start) == at) && (p.Weeks == 0 || p.Weeks == b.length)
}

// pinOn tells whether a pin speaks of the last block of the plan, and whether
// pins fix its length.
func (o *oracle) pinOn(b oBlock, plan []oBlock) (spoken, fixed bool) {
	for _, p := range o.r.Pins {
		if !o.says(p, plan) {
			continue
		}
		spoken = true
		fixed = fixed || p.Weeks > 0
		if p.Start.IsZero() {
			continue
		}
		fixed = fixed || b.to == o.stretches[b.stretch].hi
		for _, q := range o.r.Pins {
			fixed = fixed || !q.Start.IsZero() && o.week(q.Start) == b.to
		}
	}
	return spoken, fixed
}

// peakNamed tells whether a pin on peaking block b asks for peaking by name, or for
// the block that runs.
func (o *oracle) peakNamed(b oBlock, plan []oBlock) bool {
	for _, p := range o.r.Pins {
		if o.says(p, plan) && (p.Kind == planner.Peaking || b.running && (p.Ordinal == 1 || !p.Start.IsZero())) {
			return true
		}
	}
	return false
}

// pinsKept tells whether the whole plan keeps every pin.
func (o *oracle) pinsKept(plan []oBlock) bool {
	for _, p := range o.r.Pins {
		kept := false
		for i := range plan {
			kept = kept || o.says(p, plan[:i+1])
		}
		if !kept {
			return false
		}
	}
	return true
}
