package nudge

import (
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// Coming is something that will be told, as far as can be known today.
type Coming struct {
	Kind  Kind
	At    time.Time // when, at the hour of its place
	Place Place
	What  string // in words
	Off   bool   // switched off
}

// Upcoming lists what a lifter will be told in a span of time: what falls due in
// it by today's plan and calendar. What was put off or is held back for another
// reason comes later than it says.
func Upcoming(tx *store.Tx, lifter planner.LifterID, from, to time.Time) ([]Coming, error) {
	f, err := loadOnly(tx, []planner.LifterID{lifter})
	if err != nil {
		return nil, err
	}
	past := newPast(tx)
	var all []Coming
	for _, n := range Due(f, from, to) {
		off, err := past.switchedOff(n)
		if err != nil {
			return nil, err
		}
		all = append(all, Coming{Kind: n.Kind, At: n.Due, Place: n.Place, What: f.summary(n), Off: off})
	}
	return all, nil
}

// summary is a nudge in one line.
func (f *Facts) summary(n Nudge) string {
	line, _, _ := strings.Cut(f.told(&n, n.Day), "\n")
	return line
}
