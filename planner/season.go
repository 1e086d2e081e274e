package planner

// SeasonMeet is a meet as it stood when a season was agreed.
type SeasonMeet struct {
	ID   MeetID   `json:"id"`
	Name string   `json:"name"`
	Date Date     `json:"date"`
	Kind MeetKind `json:"kind"`
}

// Season is an agreed plan as it runs: its blocks, the meets it was laid out
// for, and the day on which each block really began.
type Season struct {
	Blocks []Block
	Meets  []SeasonMeet
	// Begun runs parallel to Blocks: the day a person let the block begin.
	// It matters only where the club wants to be asked; zero means not yet.
	Begun []Date
}

// Standing is where a lifter stands in a season on one day.
type Standing struct {
	Index   int // of the running block in Blocks; -1 when none runs
	Block   Block
	Day     int // day of the block, 1 on its first day
	Week    int // training week of the block, from 1, weeks away left out (WeekIn)
	Weeks   int // training weeks of the block, weeks away left out
	Overdue int // days since the block should have ended; 0 when in time
	// Waiting is the index of the block that the plan has reached while the
	// running one waits for somebody to end it; -1 where nothing waits. Behind a
	// peaking block whose meet was moved nothing waits: it needs a new plan.
	Waiting int
	// WaitingWeek is the week in which that block would be by plan.
	WaitingWeek int
	Next        int // index of the block after the running one; -1 when it is the last
}

// On tells where the lifter stands today. With ask, a block begins only when
// somebody said so (Begun); otherwise on its date. meets are the lifter's meets
// as they stand now: a peaking block whose meet was moved later or dropped goes
// on until a new plan is agreed. A main meet ends every block planned before it,
// begun or not, and no block runs on its day. Where the last block has ended, none
// runs, whatever waited. Weeks of the given times away are no weeks of a block.
func (s Season) On(today Date, weekStart Weekday, ask bool, meets []Meet, away []Away) Standing {
	i := s.running(today, ask, meets)
	if i < 0 {
		return Standing{Index: -1, Waiting: -1, Next: -1}
	}
	b := s.Blocks[i]
	st := Standing{Index: i, Block: b, Waiting: -1, Next: -1}
	st.Day = b.Start.DaysUntil(today) + 1
	st.Week, st.Weeks = WeekIn(b, today, weekStart, away)
	st.Overdue = max(0, b.End.DaysUntil(today))
	if i+1 < len(s.Blocks) {
		st.Next = i + 1
	}
	if by := At(s.Blocks, today); by > i && s.awaited(by, today, meets) < 0 {
		st.Waiting = by
		st.WaitingWeek, _ = WeekIn(s.Blocks[by], today, weekStart, away)
	}
	return st
}

// running returns the index of the block that runs today, or -1.
func (s Season) running(today Date, ask bool, meets []Meet) int {
	last := -1
	for i, b := range s.Blocks {
		if b.Start <= today {
			last = i
		}
	}
	if last < 0 || s.isMeetDay(today, meets) {
		return -1
	}
	held := s.awaited(last, today, meets)
	if held >= 0 {
		last = held
	}
	first := s.behindMeets(today, meets)
	if last < first {
		return -1
	}
	if ask {
		last = s.begunUpTo(last, first)
	}
	b := s.Blocks[last]
	switch {
	case today <= b.End:
		return last
	case b.Kind == Peaking:
		if s.meetGone(b, today, meets) {
			return last
		}
	case ask && (held >= 0 || today <= s.Blocks[len(s.Blocks)-1].End):
		return last // it waits for its successor
	}
	return -1
}

// awaited returns the last block before by whose meet was moved to a day still to
// come, so that it goes on although the date of its successor has come; or -1.
func (s Season) awaited(by int, today Date, meets []Meet) int {
	for i := by - 1; i >= 0; i-- {
		if s.awaitsMeet(s.Blocks[i], today, meets) {
			return i
		}
	}
	return -1
}

// awaitsMeet tells whether b is a peaking block whose meet was moved to a day
// still to come.
func (s Season) awaitsMeet(b Block, today Date, meets []Meet) bool {
	m, ok := s.MeetOf(b)
	if !ok || b.Kind != Peaking {
		return false
	}
	now, stands := m.now(meets)
	return stands && now.Date > today
}

// isMeetDay tells whether today is a day for lifting a total, by the meets as they
// stand now: of a main meet, or of any that a block was laid out to end before.
func (s Season) isMeetDay(today Date, meets []Meet) bool {
	for _, m := range meets {
		if m.Date == today && m.Kind == Main {
			return true
		}
	}
	for _, m := range s.Meets {
		if now, stands := m.now(meets); stands && now.Date == today && s.ends(m) {
			return true
		}
	}
	return false
}

// behindMeets returns the index of the first block that no meet has ended yet, by
// the meets as they stand now; len(Blocks) when the last one has come.
func (s Season) behindMeets(today Date, meets []Meet) int {
	first := 0
	for _, m := range s.Meets {
		if now, stands := m.now(meets); !stands || now.Date > today || !s.ends(m) {
			continue
		}
		for i, b := range s.Blocks {
			if b.End < m.Date {
				first = max(first, i+1)
			}
		}
	}
	return first
}

// ends tells whether the blocks before m end with it: it is a main meet, or a
// peaking block was laid out to end before it.
func (s Season) ends(m SeasonMeet) bool {
	if m.Kind == Main {
		return true
	}
	for _, b := range s.Blocks {
		if b.Kind == Peaking && b.End.AddDays(1) == m.Date {
			return true
		}
	}
	return false
}

// begunUpTo returns the last block at or before i that somebody let begin, at
// least first: the first block of a season begins with the agreement, and the
// block after a meet needs no permission, for its predecessor ended with the meet.
func (s Season) begunUpTo(i, first int) int {
	for ; i > first; i-- {
		if i < len(s.Begun) && !s.Begun[i].IsZero() {
			return i
		}
	}
	return first
}

// MeetOf returns the meet that block b was laid out to end before.
func (s Season) MeetOf(b Block) (SeasonMeet, bool) {
	for _, m := range s.Meets {
		if b.End.AddDays(1) == m.Date {
			return m, true
		}
	}
	return SeasonMeet{}, false
}

// meetGone tells whether the meet behind b is no longer on the day it was
// planned for: moved later, or dropped.
func (s Season) meetGone(b Block, today Date, meets []Meet) bool {
	m, ok := s.MeetOf(b)
	if !ok {
		return false
	}
	now, stands := m.now(meets)
	return !stands || now.Date > today
}

// now returns the meet as it stands now; false where it was dropped.
func (m SeasonMeet) now(meets []Meet) (Meet, bool) {
	for _, now := range meets {
		if now.ID == m.ID {
			return now, true
		}
	}
	return Meet{}, false
}
