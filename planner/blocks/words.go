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

// named is a meet by its name, else its kind, with a day where one is given.
func named(m planner.Meet, day string) string {
	name := m.Name
	if name == "" {
		name = "the " + meetKind(m.Kind)
	}
	if day == "" {
		return name
	}
	return name + " on " + day
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
		if s.newlyBack(b.Start) {
			return "Strength block: " + w + " to use the muscle you have; lighter sets in the first four weeks back, heavier ones then."
		}
		return "Strength block: " + w + " of heavier sets, to use the muscle you have."
	case planner.Recovery:
		return "Recovery: " + w + " of easy work after the meet, so that the next block begins fresh."
	}
	if meet.Date.IsZero() {
		return "Peaking (heavy singles, less work): it ends here, because the meet it was for is too far off now."
	}
	name := "the meet"
	if meet.Name != "" {
		name = meet.Name
	}
	if s.isGap(n) && st.stretch == n {
		gap := s.gapDays(n)
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
