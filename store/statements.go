package store

import (
	"context"
	"database/sql/driver"
	"strings"

	"modernc.org/sqlite"
)

// named begins every statement of the generated queries. There are a few hundred
// of them and no more, so a connection can keep each one it has planned. Planning
// anew took a third of the time of an answer.
const named = "-- name: "

// connector makes connections that keep their statements.
type connector struct{ driver.Connector }

// newConnector is for a database with its settings, as a URL.
func newConnector(name string) (driver.Connector, error) {
	c, err := sqlite.NewConnector(name)
	return connector{c}, err
}

// Connect opens one connection.
func (c connector) Connect(ctx context.Context) (driver.Conn, error) {
	opened, err := c.Connector.Connect(ctx)
	if err != nil {
		return nil, err
	}
	return &connection{bare: opened.(bare), kept: map[string]statement{}}, nil
}

// bare is what a connection of the driver can do and database/sql asks for.
type bare interface {
	driver.Conn
	driver.ConnBeginTx
	driver.ConnPrepareContext
	driver.ExecerContext
	driver.QueryerContext
	driver.Pinger
	driver.SessionResetter
	driver.Validator
}

// statement is a prepared one.
type statement interface {
	driver.Stmt
	driver.StmtExecContext
	driver.StmtQueryContext
}

// connection keeps the statements it has prepared. database/sql never uses one from
// two goroutines at once.
type connection struct {
	bare
	kept map[string]statement // those not in use now
}

// Unwrap returns the driver's own connection.
func (c *connection) Unwrap() driver.Conn { return c.bare }

// Close ends the statements and the connection.
func (c *connection) Close() error {
	for _, s := range c.kept {
		_ = s.Close()
	}
	clear(c.kept)
	return c.bare.Close()
}

// keeps tells whether a statement comes again and again.
func keeps(query string) bool {
	return strings.HasPrefix(query, named) || query == begin || query == beginWriting || query == commit || query == rollback
}

// take returns a prepared statement that nobody else uses until it is given back.
func (c *connection) take(ctx context.Context, query string) (statement, error) {
	if s, ok := c.kept[query]; ok {
		delete(c.kept, query)
		return s, nil
	}
	s, err := c.bare.PrepareContext(ctx, query)
	if err != nil {
		return nil, err
	}
	return s.(statement), nil
}

// give takes a statement back. A statement that was used inside itself was prepared
// twice, and one of the two is enough.
func (c *connection) give(query string, s statement) error {
	if _, twice := c.kept[query]; twice {
		return s.Close()
	}
	c.kept[query] = s
	return nil
}

// ExecContext runs a statement that returns no rows.
func (c *connection) ExecContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Result, error) {
	if !keeps(query) {
		return c.bare.ExecContext(ctx, query, args)
	}
	s, err := c.take(ctx, query)
	if err != nil {
		return nil, err
	}
	r, err := s.ExecContext(ctx, args)
	if closed := c.give(query, s); err == nil {
		err = closed
	}
	return r, err
}

// QueryContext runs a statement that returns rows.
func (c *connection) QueryContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Rows, error) {
	if !keeps(query) {
		return c.bare.QueryContext(ctx, query, args)
	}
	s, err := c.take(ctx, query)
	if err != nil {
		return nil, err
	}
	r, err := s.QueryContext(ctx, args)
	if err != nil {
		_ = c.give(query, s)
		return nil, err
	}
	return &rows{r, c, query, s}, nil
}

// rows give their statement back when they are closed.
type rows struct {
	driver.Rows
	from  *connection
	query string
	using statement
}

// Close resets the statement for its next use.
func (r *rows) Close() error {
	err := r.Rows.Close()
	if r.using != nil {
		if given := r.from.give(r.query, r.using); err == nil {
			err = given
		}
		r.using = nil
	}
	return err
}
