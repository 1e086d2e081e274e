package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Takeover is what came to an account from the placeholder it turned out to be.
type Takeover struct {
	At          time.Time
	Placeholder planner.Lifter  // as it was
	Before      planner.Lifter  // the account as it was
	Agreed      PlanID          // the placeholder's agreed plan; 0: none
	Twice       []planner.Meet  // meets that the account had already, as the placeholder had them
	Joined      []JoinedMeet    // the same, as the account had them
	Came        map[string]Keys // by what was moved
}

// Keys name rows of one table, each as a JSON array of the columns that tell the rows
// of one lifter apart.
type Keys []json.RawMessage

// TakeOver moves everything that was kept for a placeholder to the account, and
// erases the placeholder. What the account has told itself stays: profile and days
// are filled in only where nothing is told, a meet of the same name and day stays the
// account's and is filled in likewise, and a plan that it has agreed to goes on; the
// placeholder's is then kept among the versions. by is who confirmed that both are one
// person.
func (t *Tx) TakeOver(from, to, by planner.LifterID, now time.Time) error {
	p, err := t.Lifter(from)
	if err != nil {
		return err
	}
	l, err := t.Lifter(to)
	if err != nil {
		return err
	}
	o := Takeover{At: now, Placeholder: p, Before: l, Came: map[string]Keys{}}
	if err := t.SaveLifter(filledFrom(l, p), now); err != nil {
		return err
	}
	for _, move := range []func(from, to planner.LifterID, o *Takeover) error{t.movePlans, t.moveSets, t.moveRows, t.joinMeets} {
		if err := move(from, to, &o); err != nil {
			return err
		}
	}
	if err := t.eraseLifter(from, false); err != nil {
		return err
	}
	came, err := json.Marshal(o)
	if err != nil {
		return err
	}
	return t.q.SaveTakeover(t.ctx, sqlgen.SaveTakeoverParams{LifterID: to, ByID: column.Lifter(by), CameJson: column.JSON(came), AtMs: column.At(now)})
}

// Takeover returns the last one of an account that can still be taken back; false
// where there is none.
func (t *Tx) Takeover(account planner.LifterID) (Takeover, bool, error) {
	r, err := t.q.Takeover(t.ctx, account)
	if absent(err) {
		return Takeover{}, false, nil
	}
	if err != nil {
		return Takeover{}, false, err
	}
	var o Takeover
	err = json.Unmarshal(r.CameJson, &o)
	o.At = r.AtMs.Time
	return o, err == nil, err
}

// ForgetTakeovers forgets what came with those up to a moment: they stand.
func (t *Tx) ForgetTakeovers(before time.Time) error {
	return t.q.DropTakeoversBefore(t.ctx, column.At(before))
}

// filledFrom fills in what a lifter has not told.
func filledFrom(l, p planner.Lifter) planner.Lifter {
	fill(&l.Squat, p.Squat)
	fill(&l.Bench, p.Bench)
	fill(&l.Deadlift, p.Deadlift)
	fill(&l.Bodyweight, p.Bodyweight)
	fill(&l.Category, p.Category)
	fill(&l.Born, p.Born)
	fill(&l.Class, p.Class)
	fill(&l.Level, p.Level)
	fill(&l.Group, p.Group)
	fill(&l.Days, p.Days)
	fill(&l.BenchStyle, p.BenchStyle)
	fill(&l.DeadliftStyle, p.DeadliftStyle)
	fill(&l.HasCompeted, p.HasCompeted)
	fill(&l.LongBlocks, p.LongBlocks)
	if p.Coach != l.ID {
		fill(&l.Coach, p.Coach)
	}
	return l
}

// fill sets a value that is not told.
func fill[T comparable](to *T, from T) {
	var none T
	if *to == none {
		*to = from
	}
}

// emptiedAgain takes out of a profile what was filled in, where it still stands.
func emptiedAgain(l planner.Lifter, o Takeover) planner.Lifter {
	p, b := o.Placeholder, o.Before
	empty(&l.Name, p.Name, b.Name)
	empty(&l.Squat, p.Squat, b.Squat)
	empty(&l.Bench, p.Bench, b.Bench)
	empty(&l.Deadlift, p.Deadlift, b.Deadlift)
	empty(&l.Bodyweight, p.Bodyweight, b.Bodyweight)
	empty(&l.Category, p.Category, b.Category)
	empty(&l.Born, p.Born, b.Born)
	empty(&l.Class, p.Class, b.Class)
	empty(&l.Level, p.Level, b.Level)
	empty(&l.Group, p.Group, b.Group)
	empty(&l.Days, p.Days, b.Days)
	empty(&l.BenchStyle, p.BenchStyle, b.BenchStyle)
	empty(&l.DeadliftStyle, p.DeadliftStyle, b.DeadliftStyle)
	empty(&l.HasCompeted, p.HasCompeted, b.HasCompeted)
	empty(&l.LongBlocks, p.LongBlocks, b.LongBlocks)
	empty(&l.Coach, p.Coach, b.Coach)
	return l
}

// empty puts a value back where it is still the one that was filled in.
func empty[T comparable](now *T, filled, before T) {
	if *now == filled {
		*now = before
	}
}

// TakeBack undoes the last takeover of an account and returns the placeholder that
// stands again. What the account has logged, planned or told since stays with it.
func (t *Tx) TakeBack(account planner.LifterID, now time.Time) (planner.LifterID, error) {
	o, has, err := t.Takeover(account)
	if err == nil && !has {
		err = planner.Errorf(planner.Conflict, "", "There is nothing to take back")
	}
	if err != nil {
		return 0, err
	}
	l, err := t.Lifter(account)
	if err != nil {
		return 0, err
	}
	if err := t.SaveLifter(emptiedAgain(l, o), now); err != nil {
		return 0, err
	}
	id, err := t.restored(o, account, now)
	if err != nil {
		return 0, err
	}
	if err := t.rowsBack(account, id, o); err != nil {
		return 0, err
	}
	if o.Agreed != 0 {
		if err := t.q.RestorePlan(t.ctx, int64(o.Agreed)); err != nil {
			return 0, err
		}
	}
	for _, m := range o.Twice {
		if err := t.meetBack(o, m, id, now); err != nil {
			return 0, err
		}
	}
	for _, j := range o.Joined {
		if err := t.meetParted(account, j, now); err != nil {
			return 0, err
		}
	}
	for _, l := range []planner.LifterID{id, account} {
		if err := t.q.CutPlanMeets(t.ctx, l); err != nil {
			return 0, err
		}
	}
	return id, t.q.DropTakeover(t.ctx, account)
}

// restored puts the placeholder down again as it was.
func (t *Tx) restored(o Takeover, account planner.LifterID, now time.Time) (planner.LifterID, error) {
	p := o.Placeholder
	if p.Coach != 0 {
		if _, err := t.Lifter(p.Coach); err != nil {
			p.Coach = 0
		}
	}
	if p.Coach == account {
		p.Coach = 0
	}
	return t.AddPlaceholder(p, now)
}

// meetBack enters a placeholder again in a meet that the account had too, and lets
// the placeholder's plans lead to it.
func (t *Tx) meetBack(o Takeover, m planner.Meet, id planner.LifterID, now time.Time) error {
	old := m.ID
	m.Lifter = id
	if m.Handler != 0 {
		if _, err := t.Lifter(m.Handler); err != nil {
			m.Handler = 0
		}
	}
	var err error
	if m.ID, err = t.AddMeet(m, now); err != nil {
		return err
	}
	if err := o.placeBack(t, old, m.ID); err != nil {
		return err
	}
	plans, err := t.Plans(id)
	for _, p := range plans {
		for _, x := range p.Season.Meets {
			if x.ID != 0 && x.Date == m.Date && x.Name == m.Name && x.ID != m.ID {
				old = x.ID
			}
		}
	}
	if err != nil {
		return err
	}
	return t.q.PlanMeetsTo(t.ctx, sqlgen.PlanMeetsToParams{NewMeet: column.Meet(m.ID), OldMeet: column.Meet(old), LifterID: id})
}
