package nudge

import (
	"strings"
	"time"

	"blockbell/planner"
)

// A nudge that was told, or could not be told, may come again under a key of its
// own: because the lifter asked to be reminded, because the person takes no direct
// messages, or because its post could not be delivered on its day.

// move gives a nudge another day at its place. It keeps the last day on which it
// is worth saying, and tells false where that would be too late.
func (f *Facts) move(n Nudge, day planner.Date) (Nudge, bool) {
	n.Due = f.hour(n.Member, n.Place, day)
	n.Until = n.Last.AddDays(1).Midnight(f.zone(n.Member, n.Place))
	return n, n.Due.Before(n.Until)
}

// reminder is the nudge on the civil day on which the snooze ends, at that day's
// hour: 'tomorrow' means tomorrow's message, whatever time the button was pressed.
// A reminder is the lifter's own affair, so it is never said by name.
func (f *Facts) reminder(n Nudge, until time.Time) (Nudge, bool) {
	day := planner.DateOf(until.In(n.Member.Zone))
	if n.Place == Named {
		n.Place = Counted
		if n.Member.Lifter.Nudges == planner.Direct {
			n.Place = Directly
		}
	}
	n.Key += again + day.String()
	return f.move(n, day)
}

// again marks the key of a reminder.
const again = "/again-"

// isReminder tells whether a key is that of a nudge the lifter asked to be told
// again.
func isReminder(key string) bool { return strings.Contains(key, again) }

// counted is a nudge that could not reach the person directly, as one of those
// that the next club post counts without a name.
func (f *Facts) counted(n Nudge) (Nudge, bool) {
	n.Place, n.Key = Counted, n.Key+"/counted"
	return f.next(n)
}

// late is a nudge whose post could not be delivered on its day.
func (f *Facts) late(n Nudge) (Nudge, bool) {
	n.Key += "/late"
	return f.next(n)
}

// next moves a nudge to the first hour of its place after it was due.
func (f *Facts) next(n Nudge) (Nudge, bool) {
	due := n.Due
	day := planner.DateOf(due.In(f.zone(n.Member, n.Place)))
	if n, ok := f.move(n, day); ok && n.Due.After(due) {
		return n, true
	}
	return f.move(n, day.AddDays(1))
}
