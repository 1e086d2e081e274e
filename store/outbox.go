package store

import (
	"encoding/json"
	"slices"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// PostState is how far a post has come.
type PostState string

// A post is planned, claimed by the one that is sending it, and ends as sent or
// dead.
const (
	PostPlanned PostState = "planned"
	PostClaimed PostState = "claimed"
	PostSent    PostState = "sent"
	PostDead    PostState = "dead"
)

// OutPost is one message to be posted unasked.
type OutPost struct {
	Key          string
	Channel      string
	Person       string // handle, for a direct message
	Body         json.RawMessage
	Due          time.Time
	State        PostState
	Attempts     int       // claims so far
	ClaimedUntil time.Time // end of the claim's lease; zero unless claimed
	Ref          string    // where it stands once sent
	Reason       string    // why it was delayed or given up
	Facts        []string  // keys of the facts it tells, in order
}

// QueuePost puts a post and the facts it tells into the ledger in one go and
// returns true; where a post with that key exists it does nothing and returns
// false. Facts known already are left out.
func (t *Tx) QueuePost(p OutPost, facts []Fact, now time.Time) (bool, error) {
	n, err := t.q.QueuePost(t.ctx, sqlgen.QueuePostParams{
		Key: p.Key, Channel: p.Channel, Person: p.Person, BodyJson: column.JSON(p.Body), DueMs: column.At(p.Due),
		QueuedMs: column.At(now),
	})
	if err != nil || n == 0 {
		return false, err
	}
	for _, f := range facts {
		f.State, f.Reason, f.Post = FactPlanned, "", p.Key
		if err := t.addFact(f, now); err != nil {
			return false, err
		}
	}
	return true, nil
}

// ClaimPosts takes up to limit posts that are due, or whose former claim ran out
// without a confirmation, earliest first. Until now+lease nobody else gets them;
// the lease must be longer than a request may take.
func (t *Tx) ClaimPosts(now time.Time, lease time.Duration, limit int) ([]OutPost, error) {
	rows, err := t.q.ClaimPosts(t.ctx, sqlgen.ClaimPostsParams{
		UntilMs: column.At(now.Add(lease)), NowMs: column.At(now), Most: int64(limit),
	})
	if err != nil {
		return nil, err
	}
	posts := each(rows, post)
	for i := range posts {
		if posts[i].Facts, err = t.q.FactsOfPost(t.ctx, column.Text(posts[i].Key)); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(posts, func(a, b OutPost) int { // RETURNING promises no order
		if c := a.Due.Compare(b.Due); c != 0 {
			return c
		}
		return strings.Compare(a.Key, b.Key)
	})
	return posts, nil
}

// ConfirmPost says that a post stands at ref; its facts are sent. Confirming
// twice is harmless; Conflict where it was given up, NotFound where it is unknown.
func (t *Tx) ConfirmPost(key, ref string, now time.Time) error {
	n, err := t.q.SettlePost(t.ctx, sqlgen.SettlePostParams{
		State: string(PostSent), Ref: ref, SettledMs: column.At(now), Key: key,
	})
	if err != nil {
		return err
	}
	if n == 0 {
		return t.settledAs(key, PostSent)
	}
	return t.settleFacts(key, FactSent, "", now)
}

// DelayPost gives a claim back: the post is due again at until. The reason is
// kept.
func (t *Tx) DelayPost(key string, until time.Time, reason string) error {
	n, err := t.q.DelayPost(t.ctx, sqlgen.DelayPostParams{DueMs: column.At(until), Reason: reason, Key: key})
	if err == nil && n == 0 {
		return t.settledAs(key, PostPlanned)
	}
	return err
}

// BuryPost gives a post up for good; its facts are skipped with the reason.
// Burying twice is harmless; Conflict where it was sent.
func (t *Tx) BuryPost(key, reason string, now time.Time) error {
	n, err := t.q.SettlePost(t.ctx, sqlgen.SettlePostParams{
		State: string(PostDead), Reason: reason, SettledMs: column.At(now), Key: key,
	})
	if err != nil {
		return err
	}
	if n == 0 {
		return t.settledAs(key, PostDead)
	}
	return t.settleFacts(key, FactSkipped, reason, now)
}

// settledAs is nil where the post is in that state already, and otherwise says
// why it cannot get there.
func (t *Tx) settledAs(key string, want PostState) error {
	r, err := t.q.Post(t.ctx, key)
	if absent(err) {
		return planner.Errorf(planner.NotFound, "", "the ledger has no post %q", key)
	}
	if err != nil || PostState(r.State) == want {
		return err
	}
	return planner.Errorf(planner.Conflict, "", "the post %q is %s already", key, r.State)
}

func post(r sqlgen.Post) OutPost {
	return OutPost{
		Key: r.Key, Channel: r.Channel, Person: r.Person, Body: r.BodyJson.Raw(), Due: r.DueMs.Time,
		State: PostState(r.State), Attempts: int(r.Attempts), ClaimedUntil: r.ClaimedUntilMs.Time, Ref: r.Ref,
		Reason: r.Reason,
	}
}
