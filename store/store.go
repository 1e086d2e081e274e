package store

import (
	"context"
	"database/sql"
	"errors"

	lib "modernc.org/sqlite/lib"

	"blockbell/planner"
	"blockbell/store/internal/sqlgen"
)

// Store is one open database. It is safe for use by many goroutines.
type Store struct {
	path    string
	writer  *sql.DB // one connection; nil where the database is open for reading only
	readers *sql.DB
	lock    *lockFile
	memory  memory
}

// Tx is one transaction. It lives as long as the function it was given to and
// belongs to that function's goroutine.
type Tx struct {
	ctx context.Context
	tx  transaction
	q   *sqlgen.Queries

	memory *memory // of the store; nil in a View
	turn   uint64  // that the transaction is of
}

// Update runs do in one write transaction. It commits when do returns nil; any
// error, a panic or the end of ctx undoes everything. The error of do comes back
// as it is; errors of the disk come back as *planner.Error.
func (s *Store) Update(ctx context.Context, do func(*Tx) error) error {
	if s.writer == nil {
		return planner.Errorf(planner.Forbidden, "", "the database %s is open for reading only", s.path)
	}
	return explain(s.path, within(ctx, s.writer, beginWriting, s.memory.commits, func(t transaction) error {
		turn, _ := s.memory.now() // nobody else can commit now
		return do(&Tx{ctx: ctx, tx: t, q: sqlgen.New(t), memory: &s.memory, turn: turn})
	}))
}

// ErrWriteInView says that something wanted to write inside a View.
var ErrWriteInView = errors.New("store: a View cannot write")

// View runs do on one snapshot of the database: what others write meanwhile
// stays out of sight. Writing inside it fails with ErrWriteInView.
func (s *Store) View(ctx context.Context, do func(*Tx) error) error {
	return s.readError(within(ctx, s.readers, begin, func(bool) {}, func(t transaction) error {
		return do(&Tx{ctx: ctx, tx: t, q: sqlgen.New(t)})
	}))
}

// readError explains an error of reading.
func (s *Store) readError(err error) error {
	if primary(err) == lib.SQLITE_READONLY {
		return errors.Join(ErrWriteInView, err)
	}
	return explain(s.path, err)
}

// Path returns the file the store lives in.
func (s *Store) Path() string { return s.path }

// Close ends all connections, folds the write-ahead log into the file and gives
// the lock back. A Store cannot be used afterwards.
func (s *Store) Close() error {
	var errs []error
	errs = append(errs, s.readers.Close())
	if s.writer != nil {
		// Last, so that the connection that may write is the one that tidies up.
		errs = append(errs, s.writer.Close())
	}
	errs = append(errs, s.lock.release())
	return explain(s.path, errors.Join(errs...))
}
