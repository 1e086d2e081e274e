package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// FactState is what became of a reason to speak.
type FactState string

// A fact is planned with its post, and ends as sent or skipped.
const (
	FactPlanned FactState = "planned"
	FactSent    FactState = "sent"
	FactSkipped FactState = "skipped"
)

// Fact is one reason to speak unasked. Its key makes it be spoken once.
type Fact struct {
	Key    string           // lifter/kind/object/fact
	Lifter planner.LifterID // 0: the club's own
	Kind   string
	Due    time.Time
	State  FactState
	Reason string // why it was skipped
	Post   string // key of the post that tells it; empty where none does
}

// KnownFact returns the fact with that key, if the ledger has it.
func (t *Tx) KnownFact(key string) (Fact, bool, error) {
	r, err := t.q.KnownFact(t.ctx, key)
	if absent(err) {
		return Fact{}, false, nil
	}
	if err != nil {
		return Fact{}, false, err
	}
	return fact(r), true, nil
}

// SkipFacts keeps facts that will not be told, with the reason. Facts known
// already stay as they are.
func (t *Tx) SkipFacts(facts []Fact, reason string, now time.Time) error {
	for _, f := range facts {
		f.State, f.Reason, f.Post = FactSkipped, reason, ""
		if err := t.addFact(f, now); err != nil {
			return err
		}
	}
	return nil
}

// Facts returns a lifter's last facts, the one due last first; lifter 0 asks for
// the club's own.
func (t *Tx) Facts(lifter planner.LifterID, limit int) ([]Fact, error) {
	rows, err := t.q.Facts(t.ctx, sqlgen.FactsParams{LifterID: column.Lifter(lifter), Limit: int64(limit)})
	if err != nil {
		return nil, err
	}
	return each(rows, fact), nil
}

// addFact inserts a fact unless the key is known.
func (t *Tx) addFact(f Fact, now time.Time) error {
	err := t.q.AddFact(t.ctx, sqlgen.AddFactParams{
		Key: f.Key, LifterID: column.Lifter(f.Lifter), Kind: f.Kind, DueMs: column.At(f.Due), State: string(f.State),
		Reason: f.Reason, PostKey: column.Text(f.Post), ChangedMs: column.At(now),
	})
	if dangling(err) {
		return noLifter(f.Lifter)
	}
	return err
}

// settleFacts ends the planned facts of a post.
func (t *Tx) settleFacts(post string, state FactState, reason string, now time.Time) error {
	return t.q.SettleFacts(t.ctx, sqlgen.SettleFactsParams{
		State: string(state), Reason: reason, ChangedMs: column.At(now), PostKey: column.Text(post),
	})
}

func fact(r sqlgen.Fact) Fact {
	return Fact{
		Key: r.Key, Lifter: r.LifterID.ID(), Kind: r.Kind, Due: r.DueMs.Time, State: FactState(r.State),
		Reason: r.Reason, Post: string(r.PostKey),
	}
}
