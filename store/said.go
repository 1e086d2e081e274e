package store

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Of a message that was logged a digest of what it says is kept among the events
// handled, which set it put right, and which day's weighing it wrote, so that an edit
// that changes nothing changes nothing. Never its words.
const (
	saidPrefix  = "said"
	rightPrefix = "right"
	massPrefix  = "mass"
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

// KeepWeighing keeps that a message of the lifter wrote the weighing of a day just now.
func (t *Tx) KeepWeighing(author planner.LifterID, message string, day planner.Date, now time.Time) error {
	if message == "" {
		return nil
	}
	_, err := t.FreshEvent(fmt.Sprintf("%s/%d/%s/%s/%d", massPrefix, author, message, day, now.UnixMilli()), now)
	return err
}

// DropWeighing forgets the weighing that a message of the lifter wrote, where nothing
// was written over it since, and returns it.
func (t *Tx) DropWeighing(author planner.LifterID, message string) (gone Bodyweight, had bool, err error) {
	keys, err := t.keys(massPrefix, author, message)
	if err != nil || len(keys) == 0 {
		return gone, false, err
	}
	for _, k := range keys {
		text, at, _ := strings.Cut(k, "/")
		day, err := planner.ParseDate(text)
		if err != nil {
			return gone, false, err
		}
		rows, err := t.q.Bodyweights(t.ctx, sqlgen.BodyweightsParams{LifterID: author, FirstDay: column.Day(day), LastDay: column.Day(day)})
		if err != nil {
			return gone, false, err
		}
		if len(rows) == 1 && strconv.FormatInt(rows[0].WrittenMs.UnixMilli(), 10) == at {
			gone = Bodyweight{day, rows[0].MassG}
			if had, err = t.DropBodyweight(author, day); err != nil {
				return gone, false, err
			}
		}
	}
	return gone, had, t.forgetKeys(massPrefix, author, message)
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
	for _, prefix := range []string{saidPrefix, rightPrefix, massPrefix} {
		err := t.q.ForgetEventsBetween(t.ctx, sqlgen.ForgetEventsBetweenParams{
			First: fmt.Sprintf("%s/%d/", prefix, author), Behind: fmt.Sprintf("%s/%d0", prefix, author),
		})
		if err != nil {
			return err
		}
	}
	return t.q.ForgetSaidAbout(t.ctx, fmt.Sprintf("%s/%%/%d/%%", saidPrefix, author))
}
