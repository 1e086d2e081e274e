package store

import (
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// handleKey is the form in which handles are compared: lower case, without @.
func handleKey(handle string) string {
	return strings.ToLower(strings.TrimPrefix(strings.TrimSpace(handle), "@"))
}

// Lifters returns all members in the order in which they joined.
func (t *Tx) Lifters() ([]planner.Lifter, error) {
	rows, err := t.q.Lifters(t.ctx)
	if err != nil {
		return nil, err
	}
	return each(rows, lifter), nil
}

// Lifter returns one member; NotFound where there is none with that number.
func (t *Tx) Lifter(id planner.LifterID) (planner.Lifter, error) {
	r, err := t.q.Lifter(t.ctx, id)
	if absent(err) {
		return planner.Lifter{}, noLifter(id)
	}
	if err != nil {
		return planner.Lifter{}, err
	}
	return lifter(r), nil
}

// LifterByHandle finds a member by the name the chat knows, whatever its case
// and with or without @.
func (t *Tx) LifterByHandle(handle string) (planner.Lifter, bool, error) {
	type key struct{ handle string }
	l, err := recall(t, key{handleKey(handle)}, func() (planner.Lifter, error) {
		r, err := t.q.LifterByHandle(t.ctx, handleKey(handle))
		return lifter(r), err
	})
	if absent(err) {
		return planner.Lifter{}, false, nil
	}
	return l, err == nil, err
}

// AddLifter adds a member and returns the new number; l.ID is ignored. Conflict
// where the handle is taken.
func (t *Tx) AddLifter(l planner.Lifter, now time.Time) (planner.LifterID, error) {
	p := lifterColumns(l, now)
	id, err := t.q.AddLifter(t.ctx, sqlgen.AddLifterParams{
		Handle: p.Handle, HandleKey: p.HandleKey, Name: p.Name, Captain: p.Captain, CoachID: p.CoachID,
		TrainingGroup: p.TrainingGroup, Category: p.Category, BornDay: p.BornDay, BodyweightG: p.BodyweightG,
		ClassLimitG: p.ClassLimitG, ClassPlus: p.ClassPlus, Level: p.Level, Zone: p.Zone, Unit: p.Unit, Days: p.Days,
		SquatG: p.SquatG, BenchG: p.BenchG, DeadliftG: p.DeadliftG, Nudges: p.Nudges, LongBlocks: p.LongBlocks,
		HasCompeted: p.HasCompeted, BenchStyle: p.BenchStyle, DeadliftStyle: p.DeadliftStyle, JoinedMs: column.At(now), ChangedMs: p.ChangedMs,
	})
	if taken(err) {
		return 0, planner.Errorf(planner.Conflict, "", "@%s is a member already", p.HandleKey)
	}
	if dangling(err) {
		return 0, noLifter(l.Coach)
	}
	return id, err
}

// SaveLifter replaces everything known about the member l.ID.
func (t *Tx) SaveLifter(l planner.Lifter, now time.Time) error {
	p := lifterColumns(l, now)
	n, err := t.q.SaveLifter(t.ctx, p)
	switch {
	case taken(err):
		return planner.Errorf(planner.Conflict, "", "@%s is another member already", p.HandleKey)
	case dangling(err):
		return noLifter(l.Coach)
	case err == nil && n == 0:
		return noLifter(l.ID)
	}
	return err
}

// LifterPublic tells whether the member may be named where everybody reads; it
// is so until somebody says otherwise.
func (t *Tx) LifterPublic(id planner.LifterID) (bool, error) {
	ok, err := t.q.LifterPublic(t.ctx, id)
	if absent(err) {
		return false, noLifter(id)
	}
	return ok, err
}

// SetLifterPublic says whether the member may be named where everybody reads.
func (t *Tx) SetLifterPublic(id planner.LifterID, ok bool) error {
	n, err := t.q.SetLifterPublic(t.ctx, sqlgen.SetLifterPublicParams{PublicOk: ok, ID: id})
	if err == nil && n == 0 {
		return noLifter(id)
	}
	return err
}

func noLifter(id planner.LifterID) *planner.Error {
	return planner.Errorf(planner.NotFound, "", "nobody in the club has the number %d", id)
}

func lifter(r sqlgen.Lifter) planner.Lifter {
	return planner.Lifter{
		ID: r.ID, Handle: r.Handle, Name: r.Name, Captain: r.Captain, Coach: r.CoachID.ID(), Group: r.TrainingGroup,
		Category: planner.Category(r.Category), Born: r.BornDay.Date(), Bodyweight: r.BodyweightG,
		Class: planner.Class{Limit: r.ClassLimitG, Plus: r.ClassPlus}, Level: planner.Level(r.Level),
		Zone: r.Zone, Unit: planner.Unit(r.Unit), Days: int(r.Days), Squat: r.SquatG, Bench: r.BenchG,
		Deadlift: r.DeadliftG, Nudges: planner.Where(r.Nudges), LongBlocks: r.LongBlocks, HasCompeted: r.HasCompeted,
		BenchStyle: planner.BenchStyle(r.BenchStyle), DeadliftStyle: planner.DeadliftStyle(r.DeadliftStyle),
	}
}

func lifterColumns(l planner.Lifter, now time.Time) sqlgen.SaveLifterParams {
	return sqlgen.SaveLifterParams{
		Handle: strings.TrimPrefix(strings.TrimSpace(l.Handle), "@"), HandleKey: handleKey(l.Handle), Name: l.Name,
		Captain: l.Captain, CoachID: column.Lifter(l.Coach), TrainingGroup: l.Group, Category: string(l.Category),
		BornDay: column.Day(l.Born), BodyweightG: l.Bodyweight, ClassLimitG: l.Class.Limit, ClassPlus: l.Class.Plus,
		Level: string(l.Level), Zone: l.Zone, Unit: string(l.Unit), Days: int64(l.Days), SquatG: l.Squat,
		BenchG: l.Bench, DeadliftG: l.Deadlift, Nudges: string(l.Nudges), LongBlocks: l.LongBlocks,
		HasCompeted: l.HasCompeted, BenchStyle: string(l.BenchStyle), DeadliftStyle: string(l.DeadliftStyle), ChangedMs: column.At(now), ID: l.ID,
	}
}

// each turns rows of the database into values of the program.
func each[R, V any](rows []R, to func(R) V) []V {
	values := make([]V, len(rows))
	for i, r := range rows {
		values[i] = to(r)
	}
	return values
}
