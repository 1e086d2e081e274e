package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// NoteID identifies one note.
type NoteID int64

// Note is something that somebody did for a lifter, who is told of it in private.
type Note struct {
	ID     NoteID
	Lifter planner.LifterID
	By     planner.LifterID // 0: somebody who was erased
	What   string           // a sentence of the program's own, without names of people
	Undo   string           // name of what takes it back; empty: nothing does
	Args   json.RawMessage  // what Undo needs
	Made   time.Time
	Undone time.Time // zero: it stands
}

// AddNote keeps a note and returns its number; n.ID, Made and Undone are ignored.
func (t *Tx) AddNote(n Note, now time.Time) (NoteID, error) {
	id, err := t.q.AddNote(t.ctx, sqlgen.AddNoteParams{
		LifterID: n.Lifter, ByID: column.Lifter(n.By), What: n.What, Undo: n.Undo, ArgsJson: column.JSON(n.Args), MadeMs: column.At(now),
	})
	if dangling(err) {
		return 0, noLifter(n.Lifter)
	}
	return NoteID(id), err
}

// Note returns one note; NotFound where there is none with that number.
func (t *Tx) Note(id NoteID) (Note, error) {
	r, err := t.q.Note(t.ctx, int64(id))
	if absent(err) {
		return Note{}, planner.Errorf(planner.NotFound, "", "there is nothing to take back any more")
	}
	return note(r), err
}

// ForgetNotes deletes notes of exactly these words that cannot be taken back: what they
// say is no longer so.
func (t *Tx) ForgetNotes(what string) error { return t.q.ForgetNotes(t.ctx, what) }

// NotesSince returns what was done for a lifter from a moment on, oldest first.
func (t *Tx) NotesSince(lifter planner.LifterID, since time.Time) ([]Note, error) {
	rows, err := t.q.NotesSince(t.ctx, sqlgen.NotesSinceParams{LifterID: lifter, SinceMs: column.At(since)})
	if err != nil {
		return nil, err
	}
	return each(rows, note), nil
}

// UndoNote marks a note as taken back and tells whether that was the first time.
func (t *Tx) UndoNote(id NoteID, now time.Time) (bool, error) {
	n, err := t.q.UndoNote(t.ctx, sqlgen.UndoNoteParams{UndoneMs: column.At(now), ID: int64(id)})
	return n > 0, err
}

func note(r sqlgen.Note) Note {
	return Note{ID: NoteID(r.ID), Lifter: r.LifterID, By: r.ByID.ID(), What: r.What, Undo: r.Undo, Args: r.ArgsJson.Raw(),
		Made: r.MadeMs.Time, Undone: r.UndoneMs.Time}
}

// DayName names a day that is remembered of a lifter.
type DayName string

// The days that are remembered.
const (
	TrainedDay  DayName = "trained"  // a day on which the lifter was training without logging
	QuietDay    DayName = "quiet"    // the last day on which silence is not asked about
	LearningDay DayName = "learning" // since when a new lifter learns the lifts
)

// SetLifterDay remembers a day of a lifter; a later call replaces it.
func (t *Tx) SetLifterDay(lifter planner.LifterID, name DayName, day planner.Date) error {
	err := t.q.SetLifterDay(t.ctx, sqlgen.SetLifterDayParams{LifterID: lifter, Name: string(name), Day: column.Day(day)})
	if dangling(err) {
		return noLifter(lifter)
	}
	return err
}

// LifterDays returns the days that are remembered of a lifter.
func (t *Tx) LifterDays(lifter planner.LifterID) (map[DayName]planner.Date, error) {
	rows, err := t.q.LifterDays(t.ctx, lifter)
	if err != nil {
		return nil, err
	}
	days := make(map[DayName]planner.Date, len(rows))
	for _, r := range rows {
		days[DayName(r.Name)] = r.Day.Date()
	}
	return days, nil
}

// LastLogged returns the latest day on which a lifter logged a set; zero where
// nothing was ever logged.
func (t *Tx) LastLogged(lifter planner.LifterID) (planner.Date, error) {
	day, err := t.q.LastLogged(t.ctx, lifter)
	if absent(err) {
		return 0, nil
	}
	return day.Date(), err
}
