package blocks

import (
	"slices"

	"blockbell/planner"
)

// longestGain is the longest plan for which a gain is told, in weeks: beyond a
// year the model's rates mean nothing.
const longestGain = 52

// answer makes the plan for a person from the found one.
func (s *season) answer(f found) Plan {
	p := Plan{Meets: s.meets, Marks: s.marks, Model: s.model, Limit: s.limit}
	p.Blocks = s.blocks(f.steps)
	p.Parts = s.model.Objective(p.Blocks, p.Marks)
	p.Objective = p.Parts.Total
	p.LeftOut = s.leftOut(p.Blocks)
	p.LeftOutWhy = s.whyLeftOut(f, p)
	p.SetBy = s.setBy(f, p.Blocks)
	p.Relaxed = s.relaxations(f)
	p.Notes = s.remarks(f, p)
	p.Boundaries = s.boundaries(f, p)
	p.RunnersUp = s.runnersUp(f, p.Objective)
	s.addGains(&p)
	return p.withoutNils()
}

// withoutNils makes empty lists of missing ones, so that they read as [] and not
// as null.
func (p Plan) withoutNils() Plan {
	p.Blocks = append([]planner.Block{}, p.Blocks...)
	p.Meets = append([]planner.SeasonMeet{}, p.Meets...)
	p.LeftOut = append([]planner.BlockKind{}, p.LeftOut...)
	p.LeftOutWhy = append([]string{}, p.LeftOutWhy...)
	p.SetBy = append([]Setter{}, p.SetBy...)
	p.Relaxed = append([]string{}, p.Relaxed...)
	p.Notes = append([]string{}, p.Notes...)
	p.Boundaries = append([]Boundary{}, p.Boundaries...)
	p.RunnersUp = append([]Alternative{}, p.RunnersUp...)
	p.MeetGains = append([]MeetGain{}, p.MeetGains...)
	p.Model.Away = append([]AwayWeek{}, p.Model.Away...)
	return p
}

// blocks puts dates on the steps.
func (s *season) blocks(steps []step) []planner.Block {
	var list []planner.Block
	i := 0
	for n, st := range s.stretches {
		if st.weeks() == 0 {
			list = s.addShort(list, n, st)
			continue
		}
		from := st.start
		for ; i < len(steps) && steps[i].stretch == n; i++ {
			b := steps[i]
			if b.running {
				if b.weeks == 0 && !s.listedAtOnce() || b.total == 0 {
					continue
				}
				from = s.Running.Start
			}
			block := planner.Block{Kind: kindOf[b.kind], Start: from, End: s.lastDay(b), Weeks: b.total}
			list = append(list, s.dress(block, n, b))
			from = block.End.AddDays(1)
			if b.kind == iP && b.next < st.hi && b.weeks > 0 {
				from = from.AddDays(1) // the tune-up or test day
			}
		}
	}
	return list
}

// addShort adds what lies in a stretch without a training week: the running
// peaking block's last days, or a few days of taper.
func (s *season) addShort(list []planner.Block, n int, st stretch) []planner.Block {
	running := n == 0 && s.Running != nil
	if st.days() <= 0 || st.kind == leaving && !running {
		return list
	}
	if st.kind == leaving {
		b := planner.Block{Kind: s.Running.Kind, Start: s.Running.Start, End: st.end, Weeks: s.done}
		return append(list, s.dress(b, n, step{kind: index(b.Kind), stretch: n}))
	}
	b := planner.Block{Kind: planner.Peaking, Start: st.start, End: st.end}
	if running && s.Running.Kind == planner.Peaking {
		b.Start, b.Weeks = s.Running.Start, s.done
	}
	return append(list, s.dress(b, n, step{kind: iP, stretch: n}))
}

// lastDay is the day before what follows the step: the next block, or a meet.
func (s *season) lastDay(b step) planner.Date {
	t := b.at + b.weeks
	if t == s.stretches[b.stretch].hi {
		return s.stretches[b.stretch].end
	}
	if b.kind == iP && b.weeks > 0 {
		for _, p := range s.stops {
			if p.before == t && p.next == b.next {
				return p.date.AddDays(-1)
			}
		}
	}
	return s.weeks[t].AddDays(-1)
}

// leftOut lists the kinds that the whole plan does without, the running block and
// what was finished before it included. Without a main meet nothing is peaked for.
func (s *season) leftOut(blocks []planner.Block) []planner.BlockKind {
	seen := s.underWay()
	seen[planner.Peaking] = seen[planner.Peaking] || s.rolling()
	for _, b := range blocks {
		seen[b.Kind] = true
	}
	var out []planner.BlockKind
	for _, k := range kindOf[:iR] {
		if !seen[k] {
			out = append(out, k)
		}
	}
	return out
}

// underWay tells which kinds the run-up under way has had: the running block and
// what was finished before it since the last peak, recovery or time away.
func (s *season) underWay() map[planner.BlockKind]bool {
	seen := map[planner.BlockKind]bool{}
	if s.Running == nil {
		return seen
	}
	seen[s.Running.Kind] = true
	if s.Running.Kind == planner.Recovery {
		return seen
	}
	past := s.recent()
	for i := len(past) - 1; i >= 0; i-- {
		k := past[i].Kind
		if k != planner.Hypertrophy && k != planner.Strength {
			break
		}
		seen[k] = true
	}
	return seen
}

// addGains fills in the gains of a plan of at most a year.
func (s *season) addGains(p *Plan) {
	trace := s.model.trace(p.Blocks, p.Marks)
	goal := -1
	for i, m := range p.Marks {
		if s.after[i] > longestGain {
			continue
		}
		if m.Kind == planner.Main {
			goal = i
		}
		whole, sharp, strength := s.model.gain(s.model.told(m.Kind, trace[i]))
		regained := s.model.regained(s.model.told(m.Kind, trace[i]))
		p.MeetGains = append(p.MeetGains, MeetGain{Date: m.Date, Percent: whole, Sharpening: sharp, Strength: strength, Regained: regained})
	}
	if s.rolling() {
		goal = len(p.Marks) - 1
	}
	if len(s.weeks) > longestGain || goal < 0 {
		return
	}
	whole, sharp, strength := s.model.gain(s.model.told(p.Marks[goal].Kind, trace[goal]))
	p.GainPercent, p.SharpeningPercent, p.StrengthPercent = &whole, &sharp, &strength
	ends, beyond := s.gainEnds(p.Blocks, goal)
	p.GainLow, p.GainHigh = &ends.Low, &ends.High
	if regained := s.model.regained(s.model.told(p.Marks[goal].Kind, trace[goal])); regained > 0 {
		p.RegainedPercent, p.BeyondLow, p.BeyondHigh = &regained, &beyond.Low, &beyond.High
	}
}

// told is what of x the gain at a meet is told from: a test day weighs strength
// alone, so there expression stands as on the day of the plan.
func (m Model) told(kind planner.MeetKind, x State) State {
	if kind == planner.Test {
		x.E = m.Start.E
	}
	return x
}

// runnersUp returns up to two plans that differ from the found one and from each
// other, each the best of its kind.
func (s *season) runnersUp(f found, objective float64) []Alternative {
	var list []Alternative
	for _, steps := range s.otherShapes(f) {
		blocks := s.blocks(steps)
		score := s.model.Objective(blocks, s.marks).Total
		list = append(list, Alternative{Blocks: blocks, Objective: score, CostPercent: 100 * max(0, objective-score)})
	}
	return list
}

// otherShapes are the steps of up to two plans of another shape, best first. Where only
// days are left, steps can differ that lay out the same blocks: those are no other plan.
func (s *season) otherShapes(f found) (list [][]step) {
	avoid, seen := [][]step{f.steps}, s.blocks(f.steps)
	for len(avoid) < 3 {
		p, ok := s.newGraph(f.g.o, avoid...).best()
		if !ok || slices.Equal(s.blocks(p.steps), seen) {
			break
		}
		list, avoid = append(list, p.steps), append(avoid, p.steps)
	}
	return list
}
