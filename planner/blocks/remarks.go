package blocks

import (
	"fmt"
	"strings"

	"blockbell/planner"
)

// relaxations says, from the blocks themselves, which rules the plan does not
// keep.
func (s *season) relaxations(f found) []string {
	out := append([]string(nil), s.relaxed...)
	for _, b := range f.steps {
		out = append(out, s.relaxedIn(b, f)...)
	}
	out = append(out, s.soonAfterAway(f)...)
	if len(out) == 0 && f.loosened != (loosening{}) {
		why := s.because(func(o loosening) bool { return o != loosening{} }, "the calendar leaves no plan within it")
		out = append(out, "The order of blocks is not the usual one: "+why+".")
	}
	return out
}

// relaxedIn says what one block does not keep.
func (s *season) relaxedIn(b step, f found) (out []string) {
	strict := s.rows(loosening{})[b.stretch]
	name := screenName(b.kind)
	if least := strict.span[b.kind][0]; b.running && b.kind != iP && b.weeks == 0 && !strict.runShort && b.total < min(least, [...]int{4, 3, 0, 2}[b.kind]) {
		out = append(out, fmt.Sprintf("The running %s ends after %s, though that is short: %s.", name, plural(b.total),
			s.because(func(o loosening) bool { return o.short }, "the weeks left are needed for what comes next")))
	}
	if b.running && b.kind == iS && b.weeks > 0 && b.total > strict.span[iS][1] && !f.g.pinningOf(0, f.steps).fixed {
		out = append(out, fmt.Sprintf("The running strength block goes on to the test, %s in all: %s.", plural(b.total),
			s.because(func(o loosening) bool { return o.past }, "the time until then is too short for a muscle block and strength after it")))
	}
	if b.kind == iP && !s.isGap(b.stretch) {
		lim := s.stretches[b.stretch].limit
		most := strict.span[iP][1]
		if b.running {
			most = strict.stretch
		}
		if b.total > most && b.weeks > 0 && !f.g.askedPeak(f.steps, b) {
			out = append(out, fmt.Sprintf("Peaking lasts %s, above your limit of %d: %s.", plural(b.total), lim, s.whyPast(b)))
		}
	}
	if s.isGap(b.stretch) {
		out = append(out, s.pastInGap(b, f)...)
		if f.loosened.wide.has(b.stretch) {
			out = append(out, s.unusualInGap(b, f)...)
		}
	}
	if b.kind == iH || b.kind == iR {
		for _, t := range s.stops {
			if w, in := s.holds(b, t); t.kind == planner.TuneUp && in && f.loosened.tuneUp && !(b.kind == iH && w >= firstWeeks) {
				out = append(out, fmt.Sprintf("The practice meet on %s falls into %s: lift it as a training day, without heavy attempts.", t.date.Short(), name))
			}
		}
	}
	return out
}

// whyPast says why peaking block b passes its limit where only the calendar is to
// blame: pins and bounds that would make it do so are refused.
func (s *season) whyPast(b step) string {
	st := s.stretches[b.stretch]
	n, meet := plural(st.weeks()), s.meetName(st)
	switch {
	case b.running:
		return fmt.Sprintf("it runs already, and the %s until %s are too few to build again and peak anew", n, meet)
	case b.weeks == st.weeks():
		return fmt.Sprintf("with %s left until %s all of them are for peaking (common practice)", n, meet)
	}
	return fmt.Sprintf("the %s until %s hold no other order of blocks", n, meet)
}

// practiceInMuscle says that a practice meet lies late in a muscle block.
func (s *season) practiceInMuscle(steps []step) (out []string) {
	for _, b := range steps {
		for _, t := range s.stops {
			if w, in := s.holds(b, t); t.kind == planner.TuneUp && in && b.kind == iH && w >= firstWeeks {
				out = append(out, fmt.Sprintf("The practice meet on %s falls into week %d of the muscle block: lift it from training, without heavy third attempts.", t.date.Short(), w+1))
			}
		}
	}
	return out
}

// longPeak is how many weeks of peaking pass without a warning (common practice).
const longPeak = 8

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
			plural(s.stretches[max(0, s.main)].weeks()), 100*(f.objective-f.rule.objective)))
	}
	if s.jumpsIn(f.steps) {
		out = append(out, "Peaking begins at once: first week at 80-85 %.")
	}
	out = append(out, s.pastLimit(f)...)
	out = append(out, s.closing()...)
	out = append(out, s.awayNotes()...)
	out = append(out, s.cutPeak(f)...)
	out = append(out, s.gapNotes(f)...)
	out = append(out, s.lifterNotes()...)
	out = append(out, s.missing(p.Blocks)...)
	out = append(out, s.practiceInMuscle(f.steps)...)
	if f.g.pins != nil && len(s.pins) > 0 {
		out = append(out, "This plan keeps what was fixed by hand.")
		out = append(out, s.whichFixed(f)...)
	}
	for _, b := range f.steps {
		if b.kind == iP && b.total > longPeak {
			out = append(out, fmt.Sprintf("Peaking of %d weeks is long: keep %s of the muscle work in it.", b.total, upkeepShare(s.old())))
		}
	}
	return out
}

// pastLimit notes a running peaking block that the rules let go on past its limit.
func (s *season) pastLimit(f found) []string {
	if len(f.steps) == 0 || !f.steps[0].running || f.steps[0].kind != iP || f.steps[0].weeks == 0 || f.g.askedPeak(f.steps, f.steps[0]) {
		return nil
	}
	b := f.steps[0]
	over := b.total - s.limit.Weeks
	if over <= 0 || b.total > s.rows(loosening{})[b.stretch].stretch { // else it is told with what gave way
		return nil
	}
	return []string{fmt.Sprintf("Peaking goes on for %s past your limit of %d, because the meet is so near: keep muscle work in.", plural(over), s.limit.Weeks)}
}

// jumpsIn tells whether peaking comes first, or straight after hypertrophy.
func (s *season) jumpsIn(steps []step) bool {
	for i, b := range steps {
		if b.kind != iP || b.running || b.stretch != s.main {
			continue
		}
		return i == 0 || steps[i-1].stretch != b.stretch || steps[i-1].kind == iH
	}
	return false
}

// missing says which run-ups lack hypertrophy or strength, where there is more
// than one; of a single run-up the list of what the plan leaves out says it.
func (s *season) missing(blocks []planner.Block) (out []string) {
	for i, st := range s.stretches {
		if len(s.stretches) == 1 || st.days() <= 0 || st.kind == leaving {
			continue
		}
		seen := map[planner.BlockKind]bool{}
		if i == 0 {
			seen = s.underWay()
		}
		for _, b := range blocks {
			seen[b.Kind] = seen[b.Kind] || b.End >= st.start && b.End <= st.end
		}
		var lack []string
		for _, k := range []int{iH, iS} {
			if !seen[kindOf[k]] {
				lack = append(lack, "no "+screenName(k))
			}
		}
		if len(lack) > 0 {
			out = append(out, fmt.Sprintf("The run-up to %s has %s.", s.meetName(st), strings.Join(lack, " and ")))
		}
	}
	return out
}

// cutPeak says that the running peaking block ends at once, and why.
func (s *season) cutPeak(f found) []string {
	if steps := f.steps; !s.peaks() || len(steps) == 0 || !steps[0].running || steps[0].weeks > 0 {
		return nil
	}
	st := s.stretches[0]
	b, capped := s.capOn(iP)
	why := fmt.Sprintf("%s is still %s away, so there is time to build again and peak anew", s.meetName(st), plural(st.weeks()))
	switch {
	case s.main > 0:
		why = "there is no meet before the time away"
	case s.main < 0:
		why = "there is no meet that it could lead to"
	case f.g.pinningOf(0, f.steps).fixed:
		why = "so it is fixed by hand"
	case s.lastBarred(st) > 0:
		why = "so soon after the time away nobody peaks"
	case capped && s.done+st.weeks() > s.caps[iP]:
		why = "until " + s.meetName(st) + " it would last longer than the bound " + b.text() + " allows"
	}
	return []string{fmt.Sprintf("The running peaking ends now, after %s: %s.", plural(s.done), why)}
}
