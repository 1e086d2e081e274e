package nudge

import (
	"blockbell/planner"
)

// noticeDays is how long before a block's last day its end is told (common
// practice: long enough to say 'not yet', short enough to act on).
const noticeDays = 3

// waitDays are the days, counted from the one on which the next block should
// have begun, on which a lifter is reminded of a block that waits.
var waitDays = []struct {
	days int
	fact string
}{{0, "+0d"}, {2, "+2d"}, {5, "+5d"}}

// meetSteps are the days before a meet on which it is told.
var meetSteps = []struct {
	days int
	fact string
}{{56, "-8w"}, {28, "-4w"}, {14, "-2w"}, {7, "-1w"}, {1, "-1d"}}

// findEnds: a running block ends in three days. A block too short to have a day
// that far from its end is not told: it was told three days ago that it begins.
func findEnds(s *search) {
	for i, b := range s.member.Season.Blocks {
		day := b.End.AddDays(-noticeDays)
		if !s.near(day) || day < b.Start || s.on(day).Index != i {
			continue
		}
		s.add(Nudge{Day: day, Index: i}, blockObject(b), b.End, "-3d")
	}
}

// findBegins: a block begins today. Where the club wants to be asked, that is
// news only after a meet, when a block begins by itself; otherwise whoever began
// it knows. A block that begins with its taper leaves the word to the taper.
func findBegins(s *search) {
	for i, b := range s.member.Season.Blocks {
		if !s.near(b.Start) || b.TaperStart == b.Start || s.on(b.Start).Index != i {
			continue
		}
		if i > 0 && s.facts.Ask && !s.endsInMeet(i-1) {
			continue
		}
		s.add(Nudge{Day: b.Start, Index: i}, blockObject(b), b.Start, "+0d")
	}
}

// findWaiting: a block has ended, and the next one waits until somebody lets it
// begin. Who was away when it ended is asked on the first day back.
func findWaiting(s *search) {
	if !s.facts.Ask {
		return
	}
	for i, b := range s.member.Season.Blocks {
		for _, w := range waitDays {
			day := b.End.AddDays(1 + w.days)
			if !s.near(day) {
				continue
			}
			s.waits(i, day, w.fact)
		}
		last := b.End.AddDays(1 + waitDays[len(waitDays)-1].days)
		if back, was := s.member.returns(b.End.AddDays(1)); was && back > last && s.near(back) {
			s.waits(i, back, "back")
		}
	}
}

// waits adds that block i is over and another one waits, where that is so on a day.
func (s *search) waits(i int, day planner.Date, fact string) {
	b := s.member.Season.Blocks[i]
	if st := s.on(day); st.Index == i && st.Waiting > i && b.Kind != planner.Peaking {
		s.add(Nudge{Day: day, Index: i, Next: st.Waiting}, blockObject(b), b.End, fact)
	}
}

// findTapers: the taper of a running peaking block starts today, for a meet that
// still is on the day it was planned for.
func findTapers(s *search) {
	for i, b := range s.member.Season.Blocks {
		if b.TaperStart.IsZero() || !s.near(b.TaperStart) || s.member.meetMoved(i) || s.on(b.TaperStart).Index != i {
			continue
		}
		s.add(Nudge{Day: b.TaperStart, Index: i}, blockObject(b), b.TaperStart, "taper")
	}
}

// findMeets: a meet draws near, whether or not there is a plan for it.
func findMeets(s *search) {
	for _, m := range s.member.Meets {
		for _, step := range meetSteps {
			if day := m.Date.AddDays(-step.days); s.near(day) {
				s.add(Nudge{Day: day, Meet: m}, meetObject(m), m.Date, step.fact)
			}
		}
	}
}

// endsInMeet tells whether block i is a peaking block that ends the day before a
// meet.
func (s *search) endsInMeet(i int) bool {
	b := s.member.Season.Blocks[i]
	_, ok := s.member.Season.MeetOf(b)
	return ok && b.Kind == planner.Peaking
}

// meetMoved tells whether the meet that peaking block i was laid out for has left
// its day: moved, or dropped.
func (m *Member) meetMoved(i int) bool {
	planned, ok := m.Season.MeetOf(m.Season.Blocks[i])
	if !ok || m.Season.Blocks[i].Kind != planner.Peaking {
		return false
	}
	for _, now := range m.Meets {
		if now.ID == planned.ID {
			return now.Date != planned.Date
		}
	}
	return true
}
