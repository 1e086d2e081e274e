package nudge

import (
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
	"blockbell/store"
)

const (
	// afresh is how many days of a block pass before a halt of the block before is
	// told again: a change of work is the first way out, and needs that long to show
	// (common practice).
	afresh = 28
	// readFresh is how many days a reading speaks of today.
	readFresh = 28
	// tooNear is how many days before a meet nothing more can be built, so that a word
	// about a halt would only worry (common practice).
	tooNear = 21
	// afterMeet is how many days after a meet nobody is held to anything.
	afterMeet = 14
)

// Stall is a lift whose log was read as standing still or falling.
type Stall struct {
	Lift    planner.Lift
	Verdict strength.Verdict
	Reason  string       // one plain sentence with its numbers
	First   planner.Date // when it was first read so
	Read    planner.Date // when it was last read
}

// LiftOff is a lift that is off the plan from From to the day before Until.
type LiftOff struct {
	Lift        planner.Lift
	From, Until planner.Date
}

// loadTrends reads what the log last said of the member's lifts.
func (m *Member) loadTrends(tx *store.Tx) error {
	all, err := tx.Readings(m.Lifter.ID)
	if err != nil {
		return err
	}
	for _, r := range all {
		if !r.Stalled.IsZero() {
			m.Stalls = append(m.Stalls, Stall{r.Lift, r.Verdict, r.Reason, r.Stalled, r.Day})
		}
	}
	off, err := tx.AllLiftsOff(m.Lifter.ID)
	for _, o := range off {
		m.LiftsOff = append(m.LiftsOff, LiftOff{o.Lift, o.From, o.Until})
	}
	return err
}

// off tells whether a lift is off the plan on a day.
func (m *Member) off(l planner.Lift, day planner.Date) bool {
	for _, o := range m.LiftsOff {
		if o.Lift == l && o.From <= day && day < o.Until {
			return true
		}
	}
	return false
}

// easyWeeks are the member's easy weeks, none where the weeks are their own.
func (s *search) easyWeeks() []load.Easy {
	if s.member.Making.Own {
		return nil
	}
	return load.Deloads(s.member.Season.Blocks, s.member.Lifter, s.facts.WeekStart, s.member.told())
}

// spared tells whether nothing is said on a day about how training goes: away, in an
// easy week, easing off, recovering, or after a meet.
func (s *search) spared(day planner.Date, at planner.Standing, easy []load.Easy) bool {
	if at.Index < 0 || at.Block.Kind == planner.Recovery || s.member.away(day) {
		return true
	}
	if taper := at.Block.TaperStart; !taper.IsZero() && day >= taper {
		return true
	}
	for _, e := range easy {
		if e.From <= day && day <= e.To {
			return true
		}
	}
	for _, m := range s.member.Meets {
		if since := m.Date.DaysUntil(day); since >= 0 && since <= afterMeet {
			return true
		}
	}
	return false
}

// findPlateaus: the log of a lift was read as standing still or falling. It is told
// the morning after, once for each lift and block.
func findPlateaus(s *search) {
	if len(s.member.Stalls) == 0 {
		return
	}
	easy := s.easyWeeks()
	for _, st := range s.member.Stalls {
		told := map[int]bool{}
		for day := st.First.AddDays(1); day <= min(st.Read.AddDays(readFresh), s.last); day++ {
			at := s.on(day)
			if at.Index < 0 || told[at.Index] || s.spared(day, at, easy) || s.member.off(st.Lift, day) || s.meetWithin(day, tooNear) {
				continue
			}
			b := s.member.Season.Blocks[at.Index]
			if st.First < b.Start && day < b.Start.AddDays(afresh) {
				continue
			}
			told[at.Index] = true
			if s.near(day) {
				s.add(Nudge{Day: day, Index: at.Index, Stall: st}, blockObject(b), b.Start, string(st.Lift))
			}
		}
	}
}

// meetWithin tells whether a main meet is at most so many days ahead.
func (s *search) meetWithin(day planner.Date, days int) bool {
	for _, m := range s.member.Meets {
		if left := day.DaysUntil(m.Date); m.Kind == planner.Main && left >= 0 && left <= days {
			return true
		}
	}
	return false
}
