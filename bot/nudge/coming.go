package nudge

import (
	"strings"
	"time"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// Coming is something that will be told, as far as can be known today.
type Coming struct {
	Kind  Kind
	At    time.Time // when the post that tells it is made
	Place Place
	What  string // in words
	Body  bool   // rests on a bodyweight or a check-in
}

// Upcoming lists what a lifter will be told from a moment on up to another, in order:
// just what the Runner would post if nobody did anything meanwhile and every post
// arrived. Quiet days, a pause, the week's budget and all else that holds nudges back
// are reckoned with.
func Upcoming(tx *store.Tx, lifter planner.LifterID, from, to time.Time) ([]Coming, error) {
	f, err := loadOnly(tx, []planner.LifterID{lifter})
	if err != nil {
		return nil, err
	}
	past := newPast(tx)
	past.ahead = &ahead{facts: map[string]store.Fact{}, posts: map[string]bool{}}
	var all []Coming
	for at := from.UTC(); ; {
		next := earliest{until: to.UTC()}
		if err := past.search(f, at, at.Truncate(time.Minute).Add(time.Minute), &next); err != nil || !next.found {
			return all, err
		}
		at = next.at
		p, err := past.plan(f, at)
		if err != nil {
			return nil, err
		}
		past.ahead.imagine(p)
		for _, d := range p.drafts {
			all = append(all, f.coming(d, at)...)
		}
	}
}

// coming lists what one post tells.
func (f *Facts) coming(d draft, at time.Time) (all []Coming) {
	for i := range d.nudges {
		n := &d.nudges[i]
		all = append(all, Coming{Kind: n.Kind, At: at, Place: n.Place, What: f.summary(n, d.slot.day), Body: specs[n.Kind].Body})
	}
	return all
}

// summary is a nudge in one line that says what it is about, on the day on which it
// is told.
func (f *Facts) summary(n *Nudge, day planner.Date) string {
	line, rest, _ := strings.Cut(f.told(n, day), "\n")
	if n.Kind == Openers || n.Kind == Checklist || n.Kind == WeighIn { // they begin with the meet alone
		next, _, _ := strings.Cut(rest, "\n")
		line += " " + next
	}
	if n.Ward.ID != 0 {
		return forWards([]string{called(render.Called(n.Ward))}) + line
	}
	return line
}
