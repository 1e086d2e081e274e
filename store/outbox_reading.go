package store

import (
	"database/sql"
	"time"

	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Post returns a post of the outbox by its key, without the facts it tells.
func (t *Tx) Post(key string) (OutPost, bool, error) {
	r, err := t.q.Post(t.ctx, key)
	if absent(err) {
		return OutPost{}, false, nil
	}
	if err != nil {
		return OutPost{}, false, err
	}
	return post(r), true, nil
}

// PostsWaiting returns the posts that were not claimed yet and whose keys begin with a
// word and a slash, earliest first, without the facts they tell.
func (t *Tx) PostsWaiting(word string) ([]OutPost, error) {
	rows, err := t.q.PostsWaiting(t.ctx, sqlgen.PostsWaitingParams{First: word + "/", Behind: word + "0"}) // '0' follows '/'
	if err != nil {
		return nil, err
	}
	return each(rows, post), nil
}

// Undelivered counts, by channel, the posts that were given up for the given reason since
// a moment, or were tried and still wait.
func (t *Tx) Undelivered(reason string, since time.Time) (map[string]int, error) {
	rows, err := t.q.Undelivered(t.ctx, sqlgen.UndeliveredParams{Reason: reason, SinceMs: column.At(since)})
	posts := map[string]int{}
	for _, r := range rows {
		posts[r.Channel] = int(r.Posts)
	}
	return posts, err
}

// NextPost returns the earliest moment at which ClaimPosts would hand out a post,
// which may be past; false where nothing waits.
func (t *Tx) NextPost() (time.Time, bool, error) {
	const earliest = `SELECT min(max(due_ms, coalesce(claimed_until_ms, due_ms))) FROM posts
		WHERE state IN ('planned', 'claimed')`
	var ms sql.NullInt64
	if err := t.tx.QueryRowContext(t.ctx, earliest).Scan(&ms); err != nil {
		return time.Time{}, false, err
	}
	if !ms.Valid {
		return time.Time{}, false, nil
	}
	return time.UnixMilli(ms.Int64).UTC(), true, nil
}
