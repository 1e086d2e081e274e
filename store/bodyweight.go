package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Bodyweight is what a lifter weighed on a day.
type Bodyweight struct {
	Day  planner.Date
	Mass planner.Grams
}

// AddBodyweight keeps a weighing; a later one of the same day replaces it. Mass
// lies between 20 and 400 kg.
func (t *Tx) AddBodyweight(lifter planner.LifterID, day planner.Date, mass planner.Grams, now time.Time) error {
	err := t.q.AddBodyweight(t.ctx, sqlgen.AddBodyweightParams{
		LifterID: lifter, Day: column.Day(day), MassG: mass, WrittenMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// Bodyweights returns the weighings from one day to another, both included.
func (t *Tx) Bodyweights(lifter planner.LifterID, from, to planner.Date) ([]Bodyweight, error) {
	rows, err := t.q.Bodyweights(t.ctx, sqlgen.BodyweightsParams{
		LifterID: lifter, FirstDay: column.Day(from), LastDay: column.Day(to),
	})
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Bodyweight) Bodyweight { return Bodyweight{r.Day.Date(), r.MassG} }), nil
}
