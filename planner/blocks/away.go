package blocks

import (
	"slices"

	"blockbell/planner"
)

// Days of a time away and what they change (common practice): under awayLeast
// nothing; from awayBar no peaking begins or goes on in the first barWeeks weeks back,
// counted in days, from awayBase none in the first baseWeeks, unless the meet is less than awayNear days
// off; from awayEnds the block that ran is over.
const (
	awayLeast = 7
	awayBar   = 14
	awayEnds  = 28
	awayBase  = 56
	awayNear  = 35
	barWeeks  = 2
	baseWeeks = 4
)

// awayDays is how many days of a training week make it a week away.
const awayDays = 4

// Limits of what a person may tell.
const (
	maxAway     = 30
	longestAway = 2 * 366
)

// text is the time away in words, in quotation marks.
func (a Away) text() string {
	return "\"" + a.From.Long() + " to " + a.To.Long() + "\""
}

func (a Away) days() int { return a.From.DaysUntil(a.To) + 1 }

// checkAway refuses a time away that is none, or too long to plan around.
func checkAway(a Away) error {
	switch {
	case a.From.IsZero() || a.To < a.From:
		return planner.Errorf(planner.Invalid, "Give the first and the last day away.", "a time away from %s to %s has no days", a.From.Long(), a.To.Long())
	case a.days() > longestAway:
		return planner.Errorf(planner.Invalid, "Give the first two years of it, and plan again then.", "a time away from %s to %s is longer than two years", a.From.Long(), a.To.Long())
	}
	return nil
}

// spans joins times away that overlap or follow each other, and leaves out those
// that change nothing.
func spans(told []Away) []Away {
	all := slices.Clone(told)
	slices.SortFunc(all, func(a, b Away) int { return int(a.From - b.From) })
	var joined []Away
	for _, a := range all {
		if n := len(joined); n > 0 && a.From <= joined[n-1].To.AddDays(1) {
			joined[n-1].To = max(joined[n-1].To, a.To)
			continue
		}
		joined = append(joined, a)
	}
	return slices.DeleteFunc(joined, func(a Away) bool { return a.days() < awayLeast })
}

// covers tells whether enough days of the week that begins on d, up to last, are
// away.
func (a Away) covers(d, last planner.Date) bool {
	from, to := max(a.From, d), min(a.To, d.AddDays(6), last)
	return from.DaysUntil(to)+1 >= awayDays
}

// weekAway returns which week of a time away, from 0, the week that begins on d
// is, and which time away; false where it is a training week.
func weekAway(all []Away, d, last planner.Date, ws planner.Weekday) (week int, a Away, ok bool) {
	for _, a := range all {
		if !a.covers(d, last) {
			continue
		}
		first := a.From.OnOrBefore(ws)
		if !a.covers(first, first.AddDays(6)) {
			first = first.AddDays(7)
		}
		return max(0, first.DaysUntil(d)/7), a, true
	}
	return 0, Away{}, false
}

// endRunning ends a running block that a time away of 28 days or more has cut:
// what was done before it joins the history, what was done since is a block of its
// own.
func (s *season) endRunning() {
	for _, a := range s.spans {
		run := s.Running
		if run == nil || a.days() < awayEnds || a.From > s.Today || a.To < run.Start {
			continue
		}
		if n := s.weeksDone(run.Start, min(a.From, s.Today)); n > 0 {
			s.History = append(slices.Clone(s.History), Past{Kind: run.Kind, Weeks: n})
		}
		s.Running = nil
		if back := a.To.AddDays(1); s.weeksDone(back, s.Today) > 0 {
			s.Running = &Running{Kind: run.Kind, Start: back}
		}
		s.endedAway = append(s.endedAway, endedAway{run.Kind, a})
	}
}

// endedAway is a running block that ended with a time away.
type endedAway struct {
	kind planner.BlockKind
	away Away
}

// weeksDone counts the training weeks begun in [from, to) that were trained.
func (s *season) weeksDone(from, to planner.Date) (n int) {
	ws := s.Rules.WeekStart
	for d := from.OnOrAfter(ws); d < to; d = d.AddDays(7) {
		if _, _, away := weekAway(s.spans, d, d.AddDays(6), ws); !away {
			n++
		}
	}
	return n
}

// splits are the times away that end a stretch: those of 28 days and more that are
// not over, and one that covers the day of the plan where no block runs.
func (s *season) splits() (out []Away) {
	for _, a := range s.spans {
		if a.To >= s.Today && (a.days() >= awayEnds || a.From <= s.Today && s.Running == nil) {
			out = append(out, a)
		}
	}
	return out
}

// bar marks the training weeks in which the rules of return forbid peaking: those
// that begin in the first days back.
func (s *season) bar() {
	s.barred = make([]bool, len(s.weeks))
	for _, a := range s.spans {
		n := 0
		switch days := a.days(); {
		case days >= awayBase:
			n = baseWeeks
		case days >= awayBar:
			n = barWeeks
		default:
			continue
		}
		back := a.To.AddDays(1)
		if meet := s.nextGoal(back); meet.IsZero() || back.DaysUntil(meet) < awayNear {
			continue
		}
		for t, d := range s.weeks {
			// A training week may begin up to three days before the first day back.
			if d > a.From && d < back.AddDays(7*n) {
				s.barred[t] = true
			}
		}
	}
}

// nextGoal is the first main meet, or the closing test day, on or after d.
func (s *season) nextGoal(d planner.Date) planner.Date {
	for _, st := range s.stretches {
		if goal := st.end.AddDays(1); st.kind != leaving && goal >= d {
			return goal
		}
	}
	return 0
}

// lastBarred is how many weeks of a stretch lie up to the last one in which peaking
// is forbidden.
func (s *season) lastBarred(st stretch) int {
	for t := st.hi - 1; t >= st.lo; t-- {
		if s.barred[t] {
			return t + 1 - st.lo
		}
	}
	return 0
}

// barredPeak tells whether block b peaks in a week that is too soon after a time
// away.
func (s *season) barredPeak(b step) bool {
	return b.kind == iP && b.weeks > 0 && slices.Contains(s.barred[b.at:b.at+b.weeks], true)
}
