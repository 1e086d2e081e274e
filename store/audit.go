package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// AuditEntry is one change that somebody made for another, or to the club.
type AuditEntry struct {
	By    planner.LifterID // 0: the program, or somebody erased
	Gone  bool             // done by somebody who has left and is erased
	About planner.LifterID // 0: the club
	What  string
	At    time.Time
}

// Audit keeps who changed what. what is the program's own wording, never a
// member's message.
func (t *Tx) Audit(by, about planner.LifterID, what string, now time.Time) error {
	err := t.q.AddAudit(t.ctx, sqlgen.AddAuditParams{
		ByID: column.Lifter(by), AboutID: column.Lifter(about), What: what, AtMs: column.At(now),
	})
	if dangling(err) {
		return planner.Errorf(planner.NotFound, "", "member %d or %d does not exist", by, about)
	}
	return err
}

// AuditTrail returns the last entries, newest first.
func (t *Tx) AuditTrail(limit int) ([]AuditEntry, error) { return t.AuditTrailOf(0, limit, 0) }

// AuditTrailOf returns entries about one member, newest first, without the newest
// skip of them; 0 asks for those about everybody.
func (t *Tx) AuditTrailOf(about planner.LifterID, limit, skip int) ([]AuditEntry, error) {
	var rows []sqlgen.Audit
	var err error
	if about == 0 {
		rows, err = t.q.AuditTrail(t.ctx, sqlgen.AuditTrailParams{Limit: int64(limit), Offset: int64(skip)})
	} else {
		rows, err = t.q.AuditTrailOf(t.ctx, sqlgen.AuditTrailOfParams{AboutID: column.Lifter(about), Limit: int64(limit), Offset: int64(skip)})
	}
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Audit) AuditEntry {
		return AuditEntry{By: r.ByID.ID(), Gone: r.ByGone, About: r.AboutID.ID(), What: r.What, At: r.AtMs.Time}
	}), nil
}
