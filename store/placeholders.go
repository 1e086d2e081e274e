package store

import (
	"fmt"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Placeholder is a lifter whom a captain added before they joined.
type Placeholder struct {
	Lifter planner.LifterID
	Claims planner.LifterID // who says to be this lifter; 0: nobody yet
	Made   time.Time
}

// placeholderMark begins the handles of placeholders. No account has one like it:
// platforms and the terminal allow no colon in theirs.
const placeholderMark = "placeholder:"

// AddPlaceholder adds a lifter who has no account and returns the number. l.ID and
// l.Handle are ignored.
func (t *Tx) AddPlaceholder(l planner.Lifter, now time.Time) (planner.LifterID, error) {
	last, err := t.q.LastHandleNumber(t.ctx)
	if err != nil {
		return 0, err
	}
	for n := last + 1; ; n++ {
		l.Handle = fmt.Sprint(placeholderMark, n)
		if _, taken, err := t.LifterByHandle(l.Handle); err != nil || !taken {
			break
		}
	}
	id, err := t.AddLifter(l, now)
	if err != nil {
		return 0, err
	}
	return id, t.q.AddPlaceholder(t.ctx, sqlgen.AddPlaceholderParams{LifterID: id, MadeMs: column.At(now)})
}

// IsPlaceholder tells whether a lifter has no account. It looks at the handle alone.
func IsPlaceholder(l planner.Lifter) bool { return strings.HasPrefix(l.Handle, placeholderMark) }

// Placeholders lists all of them.
func (t *Tx) Placeholders() ([]Placeholder, error) {
	rows, err := t.q.Placeholders(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Placeholder) Placeholder { return Placeholder{r.LifterID, r.ByID.ID(), r.MadeMs.Time} }), nil
}

// Placeholder returns one of them; false where the lifter is none.
func (t *Tx) Placeholder(id planner.LifterID) (Placeholder, bool, error) {
	r, err := t.q.Placeholder(t.ctx, id)
	if absent(err) {
		return Placeholder{}, false, nil
	}
	return Placeholder{id, r.ByID.ID(), r.MadeMs.Time}, err == nil, err
}

// WardsOf lists the placeholders that a coach speaks for: those with that coach, and
// for a captain also those without one and those whose coach has left.
func (t *Tx) WardsOf(coach planner.LifterID, captain bool) ([]planner.Lifter, error) {
	yes := int64(0)
	if captain {
		yes = 1
	}
	rows, err := t.q.WardsOf(t.ctx, sqlgen.WardsOfParams{CoachID: column.Lifter(coach), Captain: yes})
	return each(rows, lifter), err
}

// Claim notes who says to be a placeholder (0: nobody); false where there is no such
// placeholder.
func (t *Tx) Claim(id, by planner.LifterID) (bool, error) {
	n, err := t.q.ClaimPlaceholder(t.ctx, sqlgen.ClaimPlaceholderParams{ByID: column.Lifter(by), LifterID: id})
	return n > 0, err
}
