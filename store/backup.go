package store

import (
	"context"
	"errors"
	"os"

	"blockbell/planner"
)

// Check reads the whole database and returns an error for a person where it is
// damaged or where a row refers to one that does not exist. It takes seconds for
// a large club.
func (s *Store) Check(ctx context.Context) error {
	return s.View(ctx, func(t *Tx) error {
		var verdict string
		if err := t.tx.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&verdict); err != nil {
			return err
		}
		if verdict != "ok" {
			return damaged(s.path, errors.New(verdict))
		}
		rows, err := t.tx.QueryContext(ctx, `PRAGMA foreign_key_check`)
		if err != nil {
			return err
		}
		defer rows.Close()
		if rows.Next() {
			return damaged(s.path, errors.New("a row refers to one that does not exist"))
		}
		return rows.Err()
	})
}

// forCopying lets a connection write into another file, but not into the
// database itself.
const forCopying = shared + "&mode=ro"

// Backup writes a compact copy of the database to a new file while others read
// and write. The copy appears under its name only when it is complete, checked
// and on the disk. Conflict where the file exists.
func (s *Store) Backup(ctx context.Context, to string) error {
	if _, err := os.Stat(to); err == nil {
		return planner.Errorf(planner.Conflict, "Name a new file.", "%s exists already", to)
	}
	part := to + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, os.ErrNotExist) {
		return explain(to, err)
	}
	if err := s.copyTo(ctx, part); err != nil {
		os.Remove(part)
		return explain(to, err)
	}
	return explain(to, os.Rename(part, to))
}

// copyTo writes the copy, flushes it to the disk and checks it.
func (s *Store) copyTo(ctx context.Context, part string) error {
	// Made before it is filled, so that nobody else can read it at any time.
	f, err := os.OpenFile(part, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer f.Close()
	db, err := connect(s.path, forCopying, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, part); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	c, err := OpenForReading(ctx, part)
	if err != nil {
		return err
	}
	defer c.Close()
	return c.Check(ctx)
}

func damaged(path string, cause error) *planner.Error {
	e := planner.Errorf(planner.Invalid, "Stop the program, keep the file, and go back to the newest backup.",
		"the database %s is damaged", path)
	e.Cause = cause
	return e
}
