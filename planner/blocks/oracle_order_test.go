package blocks

import "blockbell/planner"

// order returns the kinds of the first stretch, as letters.
func (o *oracle) order(plan []oBlock) string {
	t := ""
	for _, b := range plan {
		if b.stretch == 0 {
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

// prescribed tells whether the first stretch has the order that practice asks
// for by the weeks left.
func (o *oracle) prescribed(plan []oBlock) bool {
	n, got := o.left(), o.order(plan)
	if !o.stretches[0].main {
		return o.shareOK(plan)
	}
	if n == 0 {
		return true
	}
	novice := o.m.Level != planner.Advanced && o.m.Level != planner.Elite
	usual := "" // any order with hypertrophy
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
	switch o.run {
	case 0:
		return got == usual || usual == "" && (has(plan, 0, 'H') || o.m.Start.Hypertrophy)
	case 'H':
		if n <= 5 {
			return got == "HP" && (plan[0].to == 0 || o.endFixed(plan))
		}
		return n >= 14 || got == "HSP"
	case 'S':
		if n <= 5 {
			return got == "SP" && (plan[0].to == 0 || o.endFixed(plan))
		}
		return n >= 14 || got == "SP"
	case 'R':
		return got == "R"+usual || usual == "" && (has(plan, 0, 'H') || o.m.Start.Hypertrophy)
	}
	limit := o.stretches[0].limit
	switch {
	case n < 3 || o.done+n <= limit+2:
		return got == "P"
	case n <= 6:
		return got == "PSP"
	}
	return got == "P"+usual || usual == "" && (has(plan, 0, 'H') || o.m.Start.Hypertrophy)
}

// endFixed tells whether a pin fixes the running block's length.
func (o *oracle) endFixed(plan []oBlock) bool {
	_, fixed := o.pinOn(plan[0], plan[:1])
	return fixed
}

// freeOrder tells whether the plan keeps the hard rules whatever its order.
func (o *oracle) freeOrder(plan []oBlock) bool {
	if !o.stretches[0].main || o.left() < 3 {
		return false
	}
	first := plan[0]
	if !first.running {
		return true
	}
	lo, _ := o.bounds(first.kind, 0)
	if first.kind == 'H' && len(plan) > 1 && plan[1].kind == 'P' {
		return false
	}
	_, fixed := o.pinOn(first, plan[:1])
	if fixed && first.kind == 'H' {
		lo = 3
	}
	if fixed && first.kind == 'R' {
		lo = 1
	}
	if first.kind == 'S' {
		lo = 3
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
	return total(plan, 'H')*100 <= share*len(o.weeks)
}

// week is the training week in which a pinned day lies.
func (o *oracle) week(d planner.Date) int {
	if o.r.Running != nil && d == o.r.Running.Start {
		return -2
	}
	w := 0
	for i := range o.weeks {
		if o.weeks[i] <= d {
			w = i
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

func (o *oracle) says(p Pin, b oBlock, number int) bool {
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
		if !o.says(p, b, len(plan)) {
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

// pinsKept tells whether the whole plan keeps every pin.
func (o *oracle) pinsKept(plan []oBlock) bool {
	for _, p := range o.r.Pins {
		kept := false
		for i, b := range plan {
			kept = kept || o.says(p, b, i+1)
		}
		if !kept {
			return false
		}
	}
	return true
}
