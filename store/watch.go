package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Unwatched lists, at most most of them, the lifters about whom something changed
// since Watch was last called for them, or for whom it was called at a later
// moment than now, as after a clock that was set wrong.
func (t *Tx) Unwatched(now time.Time, most int) ([]planner.LifterID, error) {
	return t.q.Unwatched(t.ctx, sqlgen.UnwatchedParams{NowMs: column.At(now), Most: int64(most)})
}

// Ripe lists the lifters whose next look has come.
func (t *Tx) Ripe(now time.Time) ([]planner.LifterID, error) {
	return t.q.Ripe(t.ctx, column.At(now))
}

// NextLook returns the earliest moment at which a lifter's look comes, among those
// that are not Unwatched; false where there is none.
func (t *Tx) NextLook() (time.Time, bool, error) {
	ms, err := t.q.NextLook(t.ctx)
	return time.UnixMilli(ms).UTC(), ms > 0, err
}

// Watch keeps when to look at a lifter next, worked out at now. Any change of the
// lifter's things undoes it.
func (t *Tx) Watch(lifter planner.LifterID, next, now time.Time) error {
	return t.q.LookAgain(t.ctx, sqlgen.LookAgainParams{NextMs: column.At(next), SeenMs: column.At(now), LifterID: lifter})
}

// KeepNudge says that a lifter wants a kind of nudge although some went
// unanswered before now.
func (t *Tx) KeepNudge(lifter planner.LifterID, kind string, now time.Time) error {
	err := t.q.KeepNudge(t.ctx, sqlgen.KeepNudgeParams{LifterID: lifter, Kind: kind, AtMs: column.At(now)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// NudgeKept returns when KeepNudge was last called for a kind; zero where never.
func (t *Tx) NudgeKept(lifter planner.LifterID, kind string) (time.Time, error) {
	at, err := t.q.NudgeKept(t.ctx, sqlgen.NudgeKeptParams{LifterID: lifter, Kind: kind})
	if absent(err) {
		return time.Time{}, nil
	}
	return at.Time, err
}

// FactsOfKind returns a lifter's last facts of one kind due at until or before,
// the one due last first.
func (t *Tx) FactsOfKind(lifter planner.LifterID, kind string, until time.Time, most int) ([]Fact, error) {
	rows, err := t.q.FactsOfKind(t.ctx, sqlgen.FactsOfKindParams{
		LifterID: column.Lifter(lifter), Kind: kind, UntilMs: column.At(until), Most: int64(most),
	})
	return each(rows, fact), err
}

// Told is a fact that a post told a lifter, or is about to.
type Told struct {
	Key  string
	Kind string
	Post string
	At   time.Time // when the post fell due
}

// ToldSince returns what a lifter was told by posts due after a moment, in order.
func (t *Tx) ToldSince(lifter planner.LifterID, since time.Time) ([]Told, error) {
	rows, err := t.q.ToldSince(t.ctx, sqlgen.ToldSinceParams{LifterID: column.Lifter(lifter), SinceMs: column.At(since)})
	return each(rows, func(r sqlgen.ToldSinceRow) Told {
		return Told{Key: r.Key, Kind: r.Kind, Post: string(r.PostKey), At: r.DueMs.Time}
	}), err
}

// ButtonUsed tells whether a lifter pressed the button with that token.
func (t *Tx) ButtonUsed(token string, lifter planner.LifterID) (bool, error) {
	n, err := t.q.ButtonUsed(t.ctx, sqlgen.ButtonUsedParams{Token: token, LifterID: lifter})
	return n > 0, err
}
