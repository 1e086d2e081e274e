package store

import (
	"context"
	"database/sql"
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"

	"modernc.org/sqlite"
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

// readerCount is the number of connections for reading. More than one per core
// gained nothing when it was measured on two cores.
const readerCount = 2

// shared is what every connection is opened with. It stands in the connection
// string because a setting made once on a pool reaches one connection only.
// FULL makes each commit survive a power cut.
const shared = "_synchronous=FULL&_busy_timeout=5000&_foreign_keys=on&_dqs=0&_defensive=1&_error_rc=1" +
	"&_pragma=temp_store(MEMORY)&_pragma=cache_size(-8000)&_pragma=trusted_schema(0)"

const (
	forWriting = shared + "&_journal_mode=WAL&_txlock=immediate"
	forReading = shared + "&mode=ro&_query_only=1"
)

// safeLocks makes SQLite use locks that belong to the open file. With ordinary
// POSIX locks any code of this process that opens and closes the database file
// would silently drop them, and another process could then delete the
// write-ahead log under us.
var safeLocks = sync.OnceValue(func() error {
	_, err := sqlite.OFDLocking(true)
	return err
})

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

// prepare makes the path absolute and the locks safe.
func prepare(path string) (string, error) {
	if path == "" {
		return "", planner.Errorf(planner.Invalid, "Name a file.", "a database needs a path")
	}
	if err := safeLocks(); err != nil {
		return path, err
	}
	full, err := filepath.Abs(path)
	if err != nil {
		return path, err
	}
	return full, nil
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

// makeFile makes the file where there is none, for its owner only, and returns
// its size. SQLite gives its side files the mode of the file.
func makeFile(path string) (int64, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// hide takes a file that others may read from their eyes.
func hide(path string) error {
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() == 0o600 {
		return err
	}
	return os.Chmod(path, 0o600)
}

// smallestDatabase is the least size of a file with anything in it: one page of
// the smallest kind. SQLite takes a shorter file for an empty one and writes
// over it.
const smallestDatabase = 512

// plausible refuses files too short to be a database.
func plausible(path string, size int64) error {
	if size > 0 && size < smallestDatabase {
		return notADatabase(path)
	}
	return nil
}

// connect makes a pool of at most n connections to the file.
func connect(path, settings string, n int) (*sql.DB, error) {
	// The file: form is needed: on a plain name part of the settings is ignored.
	name := url.URL{Scheme: "file", OmitHost: true, Path: path, RawQuery: settings}
	db, err := sql.Open("sqlite", name.String())
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db, nil
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

// atRest tells whether no process has the database open or left it unfinished.
func atRest(path string) bool {
	for _, side := range []string{"-wal", "-shm"} {
		if _, err := os.Stat(path + side); !errors.Is(err, os.ErrNotExist) {
			return false
		}
	}
	return true
}
