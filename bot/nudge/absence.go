package nudge

import "blockbell/planner"

// Absence says what becomes of a kind of nudge on a day on which its lifter is away.
type Absence string

// A kind is told all the same, since others rest on it or a date runs out; held back
// only while nobody knows until when the lifter is away; or told on no day away, since
// it is about training.
const (
	ToldAway Absence = "told"
	OpenAway Absence = "until known"
	NotAway  Absence = "not"
)

// Away is a time without training that was told; a zero last day: not back yet.
type Away struct{ From, To planner.Date }

// on is the time away that a day lies in.
func (m *Member) on(day planner.Date) (Away, bool) {
	for _, a := range m.Aways {
		if a.From <= day && (a.To.IsZero() || day <= a.To) {
			return a, true
		}
	}
	return Away{}, false
}

// away tells whether the member said to be away on a day.
func (m *Member) away(day planner.Date) bool {
	_, away := m.on(day)
	return away
}

// gone tells whether the member is away on a day and nobody knows until when.
func (m *Member) gone(day planner.Date) bool {
	a, away := m.on(day)
	return away && a.To.IsZero()
}

// A time away of longAway days takes longBack days to come back from (common practice:
// three weeks after four to eight weeks off).
const longAway, longBack = 28, 21

// longGone tells whether the member was away for long and has hardly trained since.
func (m *Member) longGone(today planner.Date) bool {
	for _, a := range m.Aways {
		to := a.To
		if to.IsZero() || to > today {
			to = today
		}
		if a.From <= today && a.From.DaysUntil(to) >= longAway && to.DaysUntil(today) <= longBack {
			return true
		}
	}
	return false
}

// silent tells whether a kind is not told on a day, because the member is away.
func (m *Member) silent(s Spec, day planner.Date) bool {
	switch s.Away {
	case NotAway:
		return m.away(day)
	case OpenAway:
		return m.gone(day)
	}
	return false
}

// returns tells the first day back from the time away that takes a day in; false where
// none does, or nobody knows it yet.
func (m *Member) returns(day planner.Date) (back planner.Date, was bool) {
	a, away := m.on(day)
	for ; away && !a.To.IsZero(); a, away = m.on(back) {
		back = a.To.AddDays(1)
	}
	return back, !back.IsZero() && !away
}

// daysAway counts the days from one to another, both included, on which the member was
// away.
func (m *Member) daysAway(from, to planner.Date) (n int) {
	for d := from; d <= to; d++ {
		if m.away(d) {
			n++
		}
	}
	return n
}
