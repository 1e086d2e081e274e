package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// AuditEntry is one change that somebody made for another, or to the club.
type AuditEntry struct {
	By    planner.LifterID // 0: the program
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
func (t *Tx) AuditTrail(limit int) ([]AuditEntry, error) {
	rows, err := t.q.AuditTrail(t.ctx, int64(limit))
	if err != nil {
		return nil, err
	}
	return each(rows, func(r sqlgen.Audit) AuditEntry {
		return AuditEntry{By: r.ByID.ID(), About: r.AboutID.ID(), What: r.What, At: r.AtMs.Time}
	}), nil
}
