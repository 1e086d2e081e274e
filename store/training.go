package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Training is how one lifter trains.
type Training struct {
	Weeks      Weeks             // empty: as the club
	Weekdays   []planner.Weekday // Sunday first; empty: spread over the week by the number of days
	Cautious   bool              // the careful version, chosen without a reason
	Supervised bool              // a coach vouches for a lifter under 18
}

// Training returns how a lifter trains; the zero value where nothing was set.
func (t *Tx) Training(lifter planner.LifterID) (Training, error) {
	type key struct{ lifter planner.LifterID }
	return recall(t, key{lifter}, func() (Training, error) {
		r, err := t.q.Training(t.ctx, lifter)
		if absent(err) {
			return Training{}, nil
		}
		return Training{Weeks(r.Weeks), weekdays(r.Weekdays), r.Cautious, r.Supervised}, err
	})
}

// weekdays reads one bit a weekday.
func weekdays(bits int64) (days []planner.Weekday) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if bits&(1<<d) != 0 {
			days = append(days, d)
		}
	}
	return days
}

// SaveTraining keeps how a lifter trains.
func (t *Tx) SaveTraining(lifter planner.LifterID, tr Training) error {
	bits := int64(0)
	for _, d := range tr.Weekdays {
		bits |= 1 << d
	}
	err := t.q.SaveTraining(t.ctx, sqlgen.SaveTrainingParams{
		LifterID: lifter, Weeks: string(tr.Weeks), Weekdays: bits, Cautious: tr.Cautious, Supervised: tr.Supervised,
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Gym returns the club's bar and discs; the zero value where nothing was set.
func (t *Tx) Gym() (load.Gym, error) {
	type key struct{}
	return recall(t, key{}, func() (load.Gym, error) {
		r, err := t.q.Gym(t.ctx)
		if absent(err) {
			return load.Gym{}, nil
		}
		g := load.Gym{Unit: planner.Unit(r.Unit), Bar: r.BarG, Collars: r.CollarsG}
		for into, text := range map[any]column.JSON{&g.Discs: r.DiscsJson, &g.Missing: r.MissingJson} {
			if err == nil && len(text) > 0 { // nothing is kept as null
				err = json.Unmarshal(text, into)
			}
		}
		return g, err
	})
}

// SaveGym keeps the club's bar and discs.
func (t *Tx) SaveGym(g load.Gym) error {
	discs, err := json.Marshal(g.Discs)
	if err != nil {
		return err
	}
	missing, err := json.Marshal(g.Missing)
	if err != nil {
		return err
	}
	return t.q.SaveGym(t.ctx, sqlgen.SaveGymParams{
		Unit: string(g.Unit), BarG: g.Bar, CollarsG: g.Collars, DiscsJson: discs, MissingJson: missing,
	})
}

// ClubWeek returns the club's own week for a kind of block in its text form, and
// false where it has none.
func (t *Tx) ClubWeek(kind planner.BlockKind) (string, bool, error) {
	r, err := t.q.ClubWeek(t.ctx, string(kind))
	if absent(err) {
		return "", false, nil
	}
	return r.Lines, err == nil, err
}

// SaveClubWeek keeps the club's own week for a kind of block.
func (t *Tx) SaveClubWeek(kind planner.BlockKind, lines string, now time.Time) error {
	return t.q.SaveClubWeek(t.ctx, sqlgen.SaveClubWeekParams{Kind: string(kind), Lines: lines, SetMs: column.At(now)})
}

// DropClubWeek forgets it and tells whether there was one.
func (t *Tx) DropClubWeek(kind planner.BlockKind) (bool, error) {
	n, err := t.q.DropClubWeek(t.ctx, string(kind))
	return n > 0, err
}
