package store

import (
	"context"
	"database/sql"
	"database/sql/driver"

	"blockbell/store/internal/sqlgen"
)

// How a transaction begins and ends. One that will write takes its place at once:
// one that began by reading could find the data changed when it comes to write.
const (
	begin        = "BEGIN"
	beginWriting = "BEGIN IMMEDIATE"
	commit       = "COMMIT"
	rollback     = "ROLLBACK"
)

// transaction runs statements on one connection, or outside any transaction on a
// whole pool. It stands in for sql.Tx, which
// starts a goroutine to watch the context for itself and two for every query; an
// answer asks about ten times and each is over in microseconds. Here the context
// is looked at before each statement and before the commit instead.
type transaction struct {
	on      sqlgen.DBTX
	touched *bool // set once rows may have changed that are remembered; nil where nothing can
}

// notes a statement that is about to run.
func (t transaction) notes(query string) {
	if t.touched != nil && !*t.touched && touches(query) {
		*t.touched = true
	}
}

// live is a context that nothing has to watch; an ended one stays as it is and
// makes the statement fail.
func live(ctx context.Context) context.Context {
	if ctx.Err() != nil {
		return ctx
	}
	return context.WithoutCancel(ctx)
}

// ExecContext runs a statement that returns no rows.
func (t transaction) ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error) {
	t.notes(query)
	return t.on.ExecContext(live(ctx), query, args...)
}

// PrepareContext prepares a statement for repeated use in this transaction.
func (t transaction) PrepareContext(ctx context.Context, query string) (*sql.Stmt, error) {
	t.notes(query)
	return t.on.PrepareContext(live(ctx), query)
}

// QueryContext runs a statement that returns rows.
func (t transaction) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	t.notes(query)
	return t.on.QueryContext(live(ctx), query, args...)
}

// QueryRowContext runs a statement that returns one row.
func (t transaction) QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row {
	t.notes(query)
	return t.on.QueryRowContext(live(ctx), query, args...)
}

// within runs do between opening and COMMIT on a connection of the pool. Any error,
// a panic or the end of ctx undoes everything. around is called before the commit
// and after it, whether it succeeded or not, with whether remembered rows may change.
func within(ctx context.Context, pool *sql.DB, opening string, around func(forget bool), do func(transaction) error) error {
	conn, err := pool.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	if _, err := conn.ExecContext(live(ctx), opening); err != nil {
		return err
	}
	t := transaction{on: conn, touched: new(bool)}
	kept := false
	defer func() {
		if !kept {
			undo(ctx, conn)
		}
	}()
	if err := do(t); err != nil {
		return err
	}
	around(*t.touched)
	defer around(*t.touched)
	_, err = conn.ExecContext(live(ctx), commit)
	kept = err == nil
	return err
}

// undo rolls back, also when the context is over. Where that fails, as after a full
// disk, on which the database has rolled back by itself, the connection is given up:
// nothing of a transaction outlives its connection.
func undo(ctx context.Context, conn *sql.Conn) {
	if _, err := conn.ExecContext(context.WithoutCancel(ctx), rollback); err != nil {
		_ = conn.Raw(func(any) error { return driver.ErrBadConn })
	}
}
