package store

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/sqlgen"
)

// Of a message that was logged a digest of what it says is kept among the events
// handled, and which set it put right, so that an edit that changes nothing changes
// nothing. Never its words.
const (
	saidPrefix  = "said"
	rightPrefix = "right"
)

// KeepSaid keeps the digests of what a message of the lifter says, one for each of
// those it speaks of (0: the author), in the place of what was kept of it before.
func (t *Tx) KeepSaid(author planner.LifterID, message string, digests map[planner.LifterID]string, now time.Time) error {
	if message == "" {
		return nil
	}
	if err := t.forgetKeys(saidPrefix, author, message); err != nil {
		return err
	}
	for about, digest := range digests {
		if _, err := t.FreshEvent(fmt.Sprintf("%s/%d/%s/%d/%s", saidPrefix, author, message, about, digest), now); err != nil {
			return err
		}
	}
	return nil
}

// Said returns the digests that KeepSaid kept last; none where nothing was kept, or
// too long ago.
func (t *Tx) Said(author planner.LifterID, message string) (map[planner.LifterID]string, error) {
	keys, err := t.keys(saidPrefix, author, message)
	said := map[planner.LifterID]string{}
	for _, k := range keys {
		about, digest, _ := strings.Cut(k, "/")
		id, err := strconv.ParseInt(about, 10, 64)
		if err != nil {
			return nil, err
		}
		said[planner.LifterID(id)] = digest
	}
	return said, err
}

// KeepRight keeps which set a message of the lifter corrected or removed.
func (t *Tx) KeepRight(author planner.LifterID, message string, s planner.Set, now time.Time) error {
	if message == "" {
		return nil
	}
	_, err := t.FreshEvent(fmt.Sprintf("%s/%d/%s/%s/%d", rightPrefix, author, message, s.Day, s.Seq), now)
	return err
}

// RightOf tells whether a message of the lifter corrected or removed sets, and whether
// this one was the only one.
func (t *Tx) RightOf(author planner.LifterID, message string, s planner.Set) (some, this bool, err error) {
	keys, err := t.keys(rightPrefix, author, message)
	return len(keys) > 0, len(keys) == 1 && keys[0] == fmt.Sprintf("%s/%d", s.Day, s.Seq), err
}

// keys returns what is kept of a message under a prefix.
func (t *Tx) keys(prefix string, author planner.LifterID, message string) ([]string, error) {
	first := fmt.Sprintf("%s/%d/%s/", prefix, author, message)
	all, err := t.q.EventsBetween(t.ctx, sqlgen.EventsBetweenParams{First: first, Behind: first[:len(first)-1] + "0"}) // 0 comes after the stroke
	for i := range all {
		all[i] = strings.TrimPrefix(all[i], first)
	}
	return all, err
}

func (t *Tx) forgetKeys(prefix string, author planner.LifterID, message string) error {
	first := fmt.Sprintf("%s/%d/%s", prefix, author, message)
	return t.q.ForgetEventsBetween(t.ctx, sqlgen.ForgetEventsBetweenParams{First: first + "/", Behind: first + "0"})
}

// forgetSaid forgets what the messages of a lifter said, and what others said of them.
func (t *Tx) forgetSaid(author planner.LifterID) error {
	for _, prefix := range []string{saidPrefix, rightPrefix} {
		err := t.q.ForgetEventsBetween(t.ctx, sqlgen.ForgetEventsBetweenParams{
			First: fmt.Sprintf("%s/%d/", prefix, author), Behind: fmt.Sprintf("%s/%d0", prefix, author),
		})
		if err != nil {
			return err
		}
	}
	return t.q.ForgetSaidAbout(t.ctx, fmt.Sprintf("%s/%%/%d/%%", saidPrefix, author))
}
