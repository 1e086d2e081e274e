package store

import (
	"context"
	"sync"

	"blockbell/store/internal/sqlgen"
)

// remembered is how many rows and lists are kept in memory at most: a club of a
// hundred needs about five for each lifter.
const remembered = 2000

// memory keeps what was read and is still so. One process has the database (the lock
// file sees to it), so every commit passes here.
type memory struct {
	mu sync.Mutex
	// turn counts commits twice: it is odd while one is under way, when nobody can
	// tell whether a reader sees the old state or the new.
	turn uint64
	rows map[any]any // true in this turn
}

// commits is called before and after each commit, whether it succeeds or not. A
// commit that may have changed what is kept empties the memory.
func (m *memory) commits(forget bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.turn++
	if forget {
		clear(m.rows)
	}
}

// now returns the turn, and false while a commit is under way.
func (m *memory) now() (turn uint64, settled bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.turn, m.turn%2 == 0
}

// find returns what is kept of a turn.
func (m *memory) find(turn uint64, key any) (any, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.turn != turn {
		return nil, false
	}
	v, ok := m.rows[key]
	return v, ok
}

// keep keeps what was read in a turn, unless the turn is over.
func (m *memory) keep(turn uint64, key, value any) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.turn != turn || len(m.rows) >= remembered {
		return
	}
	if m.rows == nil {
		m.rows = map[any]any{}
	}
	m.rows[key] = value
}

// recall returns what is remembered, or reads it and remembers it. The key must name
// the query and its arguments. A View, which may be of an earlier state, and a
// transaction that changed such rows itself only read.
func recall[V any](t *Tx, key any, read func() (V, error)) (V, error) {
	if t.memory == nil || t.tx.touched != nil && *t.tx.touched {
		return read()
	}
	if v, ok := t.memory.find(t.turn, key); ok {
		return v.(V), nil
	}
	v, err := read()
	if err == nil {
		t.memory.keep(t.turn, key, v)
	}
	return v, err
}

// Glance is a View for what is asked often: rows that are remembered are not read
// again. do sees one state of the database, and what was committed
// before Glance was called is in it. To make sure of that do is run once more, as a
// View, when something was committed meanwhile; so it must have no effect but its
// result.
func (s *Store) Glance(ctx context.Context, do func(*Tx) error) error {
	turn, settled := s.memory.now()
	if !settled {
		return s.View(ctx, do)
	}
	err := s.glance(ctx, turn, do)
	// No commit began between the two looks at the turn, so every row read between
	// them, from the database or from memory, is of the same state.
	if now, _ := s.memory.now(); now != turn {
		return s.View(ctx, do)
	}
	return err
}

// glance runs do without a transaction.
func (s *Store) glance(ctx context.Context, turn uint64, do func(*Tx) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	t := transaction{on: s.readers}
	return s.readError(do(&Tx{ctx: ctx, tx: t, q: sqlgen.New(t), memory: &s.memory, turn: turn}))
}
