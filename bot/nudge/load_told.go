package nudge

import (
	"time"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// loadTold reads what was told by or done for the member, and what waits for the
// member as a coach.
func (m *Member) loadTold(tx *store.Tx) (err error) {
	if m.LastLogged, err = tx.LastLogged(m.Lifter.ID); err != nil {
		return err
	}
	days, err := tx.LifterDays(m.Lifter.ID)
	if err != nil {
		return err
	}
	m.Trained, m.Quiet = days[store.TrainedDay], days[store.QuietDay]
	aways, err := tx.Aways(m.Lifter.ID)
	if err != nil {
		return err
	}
	for _, a := range aways {
		m.Aways = append(m.Aways, Away{a.From, a.To})
	}
	for _, load := range []func(*store.Tx) error{m.loadDone, m.loadTrends, m.loadRecent, m.loadFeeling} {
		if err := load(tx); err != nil {
			return err
		}
	}
	if err := m.loadPapers(tx); err != nil {
		return err
	}
	return m.loadAsked(tx)
}

func (m *Member) loadDone(tx *store.Tx) error {
	notes, err := tx.NotesSince(m.Lifter.ID, time.UnixMilli(0))
	for _, n := range notes {
		by, err := nameOf(tx, n.By)
		if err != nil {
			return err
		}
		done := Done{ID: int64(n.ID), What: n.What, By: by, At: n.Made}
		if isLate(n) {
			m.Late = append(m.Late, done)
			continue
		}
		m.Done = append(m.Done, done)
	}
	return err
}

// loadAsked reads the plans that wait for the member: those of lifters the member
// coaches, and for a captain those of lifters without a coach.
func (m *Member) loadAsked(tx *store.Tx) error {
	waiting, err := tx.WaitingApprovals()
	for _, a := range waiting {
		l, err := tx.Lifter(a.Lifter)
		if err != nil {
			return err
		}
		here, coached, err := present(tx, l)
		if err != nil {
			return err
		}
		mine := l.Coach == m.Lifter.ID || !coached && m.Lifter.Captain
		if here && a.Wants == store.CoachDecides && mine && l.ID != m.Lifter.ID {
			m.Asked = append(m.Asked, Asked{Plan: int64(a.Plan), Lifter: render.Called(l), At: a.Asked})
		}
	}
	return err
}

// present tells whether a lifter is still in the club, and whether they have a coach
// of their own who is.
func present(tx *store.Tx, l planner.Lifter) (here, coached bool, err error) {
	_, left, err := tx.Left(l.ID)
	if err != nil || l.Coach == 0 {
		return !left, false, err
	}
	_, gone, err := tx.Left(l.Coach)
	return !left, !gone, err
}

// nameOf is what a member is called; empty for one who was erased.
func nameOf(tx *store.Tx, id planner.LifterID) (string, error) {
	if id == 0 {
		return "", nil
	}
	l, err := tx.Lifter(id)
	return render.Called(l), err
}
