package nudge

import (
	"blockbell/planner"
)

// Silence is asked about once, in private, after silentDays without a set (common
// practice: about five missed sessions at four to five days a week). It is never
// taken for absence.
const (
	silentDays = 10
	// It is not asked so many days before and after a meet, when work is little and
	// rest is right.
	silentBefore, silentAfter = 10, 14
	// silentAhead is how many days before a time away that was told it is not asked.
	silentAhead = 3
	// deloadDays at the end of a block of at least deloadWeeks are its easy week.
	deloadDays, deloadWeeks = 7, 4
	// silentReach is how many days after the first a question that had to wait is
	// still worth asking.
	silentReach = 28
)

// findSilence: somebody who logs has logged nothing for a while, and nothing that
// was told explains it.
func findSilence(s *search) {
	seen, ok := s.member.lastSeen()
	if !ok {
		return
	}
	for day := seen.AddDays(silentDays); day <= seen.AddDays(silentDays+silentReach) && day <= s.last; day++ {
		if s.silenceExplained(day) {
			continue
		}
		if s.near(day) {
			s.add(Nudge{Day: day, Seen: s.member.LastLogged}, "sets", seen, "+10d")
		}
		return
	}
}

// lastSeen is the last day on which the member trained, was away, or said that all
// is well, in the plan that runs; false for who never logs, and without a plan.
func (m *Member) lastSeen() (planner.Date, bool) {
	if m.Plan == 0 || m.LastLogged.IsZero() || len(m.Season.Blocks) == 0 {
		return 0, false
	}
	seen := max(m.LastLogged, m.Trained)
	for _, b := range m.Season.Blocks {
		if b.Contains(planner.DateOf(m.Agreed)) {
			seen = max(seen, b.Start)
		}
	}
	for _, a := range m.Aways {
		if a.From <= seen.AddDays(silentDays+silentAhead) {
			seen = max(seen, a.To)
		}
	}
	return seen, true
}

// silenceExplained tells whether there is no reason to ask on a day: away, a meet
// near, an easy week, no block, or the member asked for quiet.
func (s *search) silenceExplained(day planner.Date) bool {
	m := s.member
	if day <= m.Quiet {
		return true
	}
	for _, a := range m.Aways {
		if a.From <= day.AddDays(silentAhead) && (a.To.IsZero() || day <= a.To) {
			return true
		}
	}
	for _, x := range m.Meets {
		if left := day.DaysUntil(x.Date); left <= silentBefore && left >= -silentAfter {
			return true
		}
	}
	at := s.on(day)
	switch {
	case at.Index < 0 || at.Block.Kind == planner.Recovery:
		return true
	case at.Block.Kind == planner.Peaking:
		return false
	}
	return at.Block.Weeks >= deloadWeeks && at.Block.DaysLeft(day) < deloadDays && at.Overdue == 0
}

// toldSilence asks.
func (n *Nudge) toldSilence() []string {
	return []string{
		"No sets of yours since " + n.Seen.Short() + ". Trained without logging, or away?",
		"I do not take silence for absence: nothing changes unless you say so.",
	}
}
