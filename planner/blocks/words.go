package blocks

import (
	"fmt"

	"blockbell/planner"
)

// plural writes a count of weeks.
func plural(n int) string {
	if n == 0 {
		return "less than a week"
	}
	if n == 1 {
		return "1 week"
	}
	return fmt.Sprintf("%d weeks", n)
}

// screenName is a kind of block in words a first-year lifter knows.
func screenName(kind int) string {
	return [...]string{"muscle block (hypertrophy)", "strength block", "peaking", "recovery"}[kind]
}

// dress adds the reason and the taper to a block of stretch n.
func (s *season) dress(b planner.Block, n int, st step) planner.Block {
	meet := s.meetAfter(b)
	if b.Kind == planner.Peaking && !meet.Date.IsZero() {
		b.TaperStart = max(b.Start, meet.Date.AddDays(-s.taperDays(meet)))
	}
	b.Reason = s.reason(b, n, st, meet)
	return b
}

// meetAfter returns the meet on the day after the block, if any.
func (s *season) meetAfter(b planner.Block) planner.Meet { return s.days[b.End.AddDays(1)] }

// Length of the taper in days (common practice; surveys of raw lifters report 7
// to 10 days, interviews with elite lifters about 17).
const (
	taperNovice       = 7
	taperIntermediate = 11
	taperAdvanced     = 14
	taperElite        = 15
	taperBench        = 8
)

func (s *season) taperDays(m planner.Meet) int {
	l := s.Lifter
	heavy := l.Bodyweight > 105*planner.Kilogram || l.Bodyweight == 0 && mass(l) > 105*planner.Kilogram
	switch {
	case m.Event == planner.BenchOnly:
		return taperBench
	case heavy || s.model.Level == planner.Elite:
		return taperElite
	case s.model.Level == planner.Advanced:
		return taperAdvanced
	case s.model.Level == planner.Intermediate:
		return taperIntermediate
	}
	return taperNovice
}

// reason is the one sentence a tired lifter reads about a block.
func (s *season) reason(b planner.Block, n int, st step, meet planner.Meet) string {
	w := plural(b.Weeks)
	switch b.Kind {
	case planner.Hypertrophy:
		return "Muscle block (hypertrophy): " + w + " to build what the heavier work will use."
	case planner.Strength:
		return "Strength block: " + w + " to turn it into heavier sets."
	case planner.Recovery:
		return "Recovery: " + w + " of easy work after the meet, so that the next block begins fresh."
	}
	name := "the meet"
	if meet.Name != "" {
		name = meet.Name
	}
	if n > 0 && !s.rolling() && st.stretch == n {
		gap := s.stretches[n].days() + 1
		switch {
		case gap <= gapHold:
			return "Hold: keep what you have for " + name + "; two light sessions, nothing at 85 % or more."
		case gap <= gapOneWeek:
			return "Short peaking: 4-5 easy days, one session at 85-88 % 8-9 days out, then taper (ease off) again for " + name + "."
		}
	}
	if b.Weeks < 3 {
		return "Taper (easing off): little work, so that you are rested for " + name + "."
	}
	return "Peaking (heavy singles, less work): " + w + " to make your strength show on the day of " + name + "."
}

// relaxations says, from the blocks themselves, which rules the plan does not
// keep.
func (s *season) relaxations(f found) []string {
	out := append([]string(nil), s.relaxed...)
	for _, b := range f.steps {
		out = append(out, s.relaxedIn(b, f)...)
	}
	if len(out) == 0 && f.loosened != (loosening{}) {
		out = append(out, "Nothing fits within the usual order of blocks; this is the nearest to it.")
	}
	return out
}

// relaxedIn says what one block does not keep.
func (s *season) relaxedIn(b step, f found) (out []string) {
	strict := s.rows(loosening{})[b.stretch]
	name := screenName(b.kind)
	if least := strict.span[b.kind][0]; b.running && b.kind != iP && b.weeks == 0 && !strict.runShort && b.total < min(least, [...]int{4, 3, 0, 2}[b.kind]) {
		out = append(out, fmt.Sprintf("The running %s ends after %s, though that is short: the time left is needed.", name, plural(b.total)))
	}
	if b.kind == iP {
		lim := s.stretches[b.stretch].limit
		most := strict.span[iP][1]
		if b.running {
			most = strict.stretch
		}
		if b.total > most && b.weeks > 0 {
			out = append(out, fmt.Sprintf("Peaking lasts %s, above your limit of %d: there is no time for anything before it.", plural(b.total), lim))
		}
	}
	if b.stretch > 0 && f.loosened.wide && !b.running {
		if span := strict.span[b.kind]; b.weeks < span[0] || b.weeks > span[1] && b.kind != iP {
			out = append(out, fmt.Sprintf("Between the meets the %s lasts %s; usual is %d to %d.", name, plural(b.weeks), span[0], span[1]))
		}
	}
	if b.kind == iH || b.kind == iR {
		for _, t := range s.stops {
			if t.kind == planner.TuneUp && t.week >= b.at && t.week < b.at+b.weeks && f.loosened.tuneUp {
				out = append(out, fmt.Sprintf("The practice meet on %s falls into %s: lift it as a training day, without heavy attempts.", t.date.Short(), name))
			}
		}
	}
	return out
}

// remarks says what a lifter should know beside the blocks.
func (s *season) remarks(f found, p Plan) []string {
	out := append([]string(nil), s.notes...)
	if s.Lifter.PlannedLevel() == planner.New {
		out = append(out, "New lifters first learn the lifts for 8-12 weeks; this plan is that of a novice, for when that is done.")
	}
	if odd := s.Today.DaysUntil(s.Today.OnOrAfter(s.Rules.WeekStart)); odd > 0 && odd < 4 && s.Running == nil && len(s.weeks) > 0 {
		out = append(out, fmt.Sprintf("The days before %s are free: start when you like.", s.weeks[0].Short()))
	}
	if f.rule != nil {
		out = append(out, fmt.Sprintf("Another order of blocks than usual for %s: it is %.1f %% better than the usual one.",
			plural(s.stretches[0].weeks()), 100*(f.objective-f.rule.objective)))
	}
	if s.jumpsIn(f.steps) {
		out = append(out, "Peaking begins at once: first week at 80-85 %.")
	}
	out = append(out, s.gapNotes(f.steps)...)
	if f.g.pins != nil && len(s.pins) > 0 {
		out = append(out, "This plan keeps what the coach pinned.")
	}
	if s.limit.Weeks > 8 && !s.rolling() {
		out = append(out, fmt.Sprintf("Peaking may last up to %d weeks for you; above 8 weeks watch that muscle work is kept.", s.limit.Weeks))
	}
	return out
}

// jumpsIn tells whether peaking comes first, or straight after hypertrophy.
func (s *season) jumpsIn(steps []step) bool {
	for i, b := range steps {
		if b.kind != iP || b.running || b.stretch > 0 {
			continue
		}
		return i == 0 || steps[i-1].kind == iH
	}
	return false
}

// gapNotes warns of peaks that add up or pass the limit between two meets.
func (s *season) gapNotes(steps []step) (out []string) {
	peak := make([]int, len(s.stretches))
	for _, b := range steps {
		if b.kind == iP {
			peak[b.stretch] = b.total
		}
	}
	for i := 1; i < len(s.stretches); i++ {
		st := s.stretches[i]
		meet := st.end.AddDays(1)
		if st.days()+1 < gapAddsPeaks && peak[i]+peak[i-1] > st.limit {
			out = append(out, fmt.Sprintf("Peaking before %s and the meet before it adds up to %s, above your limit of %d: keep muscle work in.",
				meet.Short(), plural(peak[i]+peak[i-1]), st.limit))
			continue
		}
		if peak[i] > st.limit {
			out = append(out, fmt.Sprintf("Peaking before %s lasts %s, above your limit of %d: the gap between the meets leaves nothing better.",
				meet.Short(), plural(peak[i]), st.limit))
		}
	}
	return out
}

// binding says in plain words which rule closes a direction of the boundary
// before step j.
func (s *season) binding(f found, j int, b Boundary) string {
	if j < 1 || b.Earlier != nil && b.Later != nil {
		return ""
	}
	if b.Earlier == nil {
		if t := s.closed(f, j-1, j); t != "" {
			return t
		}
	}
	if b.Later == nil {
		if t := s.closed(f, j, j-1); t != "" {
			return t
		}
	}
	return "The order of the blocks and the meets leave no other week."
}

// closed says why block short cannot lose a week or block long cannot gain one.
func (s *season) closed(f found, short, long int) string {
	r := f.g.rows[f.steps[short].stretch]
	a, z := f.steps[short], f.steps[long]
	switch {
	case len(s.pins) > 0 && (f.g.speaksOf(short, f.steps) || f.g.speaksOf(long, f.steps)):
		return "The coach has pinned it."
	case a.running && a.weeks == 0:
		return "The weeks already done stay."
	case a.total <= r.span[a.kind][0] || a.kind == iS && a.total <= r.between:
		return fmt.Sprintf("The %s is at its shortest, %s.", screenName(a.kind), plural(a.total))
	case z.total >= r.span[z.kind][1]:
		return fmt.Sprintf("The %s is at its longest, %s.", screenName(z.kind), plural(z.total))
	case z.kind == iH && r.mostH > 0:
		return fmt.Sprintf("Without a meet at most %s of hypertrophy in this cycle.", plural(r.mostH))
	case len(s.stops) > 0:
		return "A practice meet or test day stands in the way."
	}
	return ""
}

// speaksOf tells whether a pin speaks of step i.
func (g *graph) speaksOf(i int, steps []step) bool {
	b := steps[i]
	at := b.at
	if b.running {
		at = runningStart
	}
	for _, p := range g.pins {
		if (p.ordinal == i+1 || p.ordinal == 0) && p.fits(b.kind, at, b.total) {
			return true
		}
	}
	return false
}
