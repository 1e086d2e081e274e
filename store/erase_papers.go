package store

import (
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// eraseRosterWords takes a member out of what was told of places at meets.
func (t *Tx) eraseRosterWords(e eraser) error {
	rows, err := t.q.RosterWords(t.ctx)
	for _, r := range rows {
		clean := sqlgen.SaveRosterParams{MeetID: r.MeetID, Session: e.text(r.Session), Flight: e.text(r.Flight), Travel: e.text(r.Travel)}
		if clean == sqlgen.SaveRosterParams(r) {
			continue
		}
		if err := t.q.SaveRoster(t.ctx, clean); err != nil {
			return err
		}
	}
	return err
}

// eraseReviewWords takes a member out of what others said after a meet.
func (t *Tx) eraseReviewWords(e eraser) error {
	rows, err := t.q.ReviewWords(t.ctx)
	for _, r := range rows {
		well, next := e.text(r.Well), e.text(r.NextTime)
		if well == r.Well && next == r.NextTime {
			continue
		}
		if err := t.q.SetReviewWords(t.ctx, sqlgen.SetReviewWordsParams{Well: well, NextTime: next, MeetID: r.MeetID}); err != nil {
			return err
		}
	}
	return err
}

// eraseNoteWords takes a member out of what others were told was done.
func (t *Tx) eraseNoteWords(e eraser) error {
	rows, err := t.q.NoteWords(t.ctx)
	return eachText(e, rows, err, func(r sqlgen.NoteWordsRow) string { return r.What }, func(r sqlgen.NoteWordsRow, clean string) error {
		return t.q.SetNoteWords(t.ctx, sqlgen.SetNoteWordsParams{What: clean, ID: r.ID})
	})
}

// eraseTakeoverWords takes a member out of what would be put back elsewhere.
func (t *Tx) eraseTakeoverWords(e eraser) error {
	rows, err := t.q.TakeoverWords(t.ctx)
	return eachDocument(e, rows, err, func(r sqlgen.TakeoverWordsRow) column.JSON { return r.CameJson }, func(r sqlgen.TakeoverWordsRow, clean column.JSON) error {
		return t.q.SetTakeoverWords(t.ctx, sqlgen.SetTakeoverWordsParams{CameJson: clean, LifterID: r.LifterID})
	})
}
