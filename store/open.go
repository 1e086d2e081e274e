package store

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"time"

	lib "modernc.org/sqlite/lib"

	"blockbell/planner"
)

// World tells a database made for trying things out from one of a real club.
type World string

// The two worlds. A database belongs to the one it was made in for ever.
const (
	Terminal World = "terminal"
	Platform World = "platform"
)

// Options say what a database is opened for.
type Options struct {
	World World     // required
	Now   time.Time // kept as the moment of creation in a new database
}

// Open opens the database at path, makes it where there is none, and brings an
// older one up to date. The file is readable by its owner only, and so is a
// folder that Open makes for it. Only one process may have a database open this
// way: others get a Conflict that names the first one. A database of a newer
// program or of the other world is refused and left as it is.
func Open(ctx context.Context, path string, o Options) (*Store, error) {
	path, err := prepare(path)
	if err != nil {
		return nil, explain(path, err)
	}
	if o.World != Terminal && o.World != Platform {
		return nil, planner.Errorf(planner.Invalid, "", "a database needs a world, terminal or platform, not %q", o.World)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, explain(path, err)
	}
	lock, err := takeLock(path)
	if err != nil {
		return nil, explain(path, err)
	}
	s := &Store{path: path, lock: lock}
	if err := s.open(ctx, o); err != nil {
		s.abandon()
		return nil, explain(path, err)
	}
	return s, nil
}

// open does the part of Open that needs the lock.
func (s *Store) open(ctx context.Context, o Options) error {
	size, err := makeFile(s.path)
	if err != nil {
		return err
	}
	if err := plausible(s.path, size); err != nil {
		return err
	}
	if s.readers, err = connect(s.path, forReading, readerCount); err != nil {
		return err
	}
	var had label
	if size > 0 {
		// Look before touching: a newer or foreign file must stay as it is.
		if had, err = readLabel(ctx, s.readers); err != nil {
			return err
		}
		if err := had.acceptable(s.path, o.World); err != nil {
			return err
		}
	}
	if err := hide(s.path); err != nil {
		return err
	}
	if s.writer, err = connect(s.path, forWriting, 1); err != nil {
		return err
	}
	return s.upgrade(ctx, had, o)
}

// abandon closes whatever a failed Open had opened. What closing says is of no
// interest beside the error that made it necessary.
func (s *Store) abandon() {
	for _, db := range []*sql.DB{s.readers, s.writer} {
		if db != nil {
			db.Close()
		}
	}
	s.lock.release()
}

// OpenForReading opens a database without a lock and without changing anything,
// also while another process has it open. Its format must be the one this
// program writes.
func OpenForReading(ctx context.Context, path string) (*Store, error) {
	path, err := prepare(path)
	if err != nil {
		return nil, explain(path, err)
	}
	info, err := os.Stat(path)
	if err != nil {
		return nil, explain(path, err)
	}
	if err := plausible(path, info.Size()); err != nil {
		return nil, err
	}
	s := &Store{path: path}
	had, err := s.openReaders(ctx, forReading)
	if primary(err) == lib.SQLITE_CANTOPEN && atRest(path) {
		// A read-only disk has no room for the side files that reading beside a
		// writer needs; without a writer there is no need of them.
		had, err = s.openReaders(ctx, forReading+"&immutable=1")
	}
	if err == nil {
		err = had.current(path)
	}
	if err != nil {
		s.abandon()
		return nil, explain(path, err)
	}
	return s, nil
}

// openReaders connects for reading only and reads the label.
func (s *Store) openReaders(ctx context.Context, settings string) (label, error) {
	if s.readers != nil {
		s.readers.Close()
	}
	var err error
	if s.readers, err = connect(s.path, settings, readerCount); err != nil {
		return label{}, err
	}
	return readLabel(ctx, s.readers)
}
