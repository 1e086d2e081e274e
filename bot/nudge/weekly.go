package nudge

import (
	"context"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// Weekly is a post of the club's own: once a week, on its day at the club's hour.
// What is not posted within daytime of it is left out that week.
type Weekly struct {
	Name    string // stands in its key, for example "digest"
	Day     time.Weekday
	Channel string
	// Make writes the post. It is false where there is nothing to tell this week.
	Make func(tx *store.Tx, now time.Time) (chat.Message, bool, error)
}

// key names the post of one day.
func (w Weekly) key(day planner.Date) string { return "club/" + w.Name + "/" + day.String() }

// reasonNothing is why a weekly post was left out.
const reasonNothing = "nothing to tell"

// weekly lists the posts that the club has each week.
func (r *Runner) weekly(tx *store.Tx) ([]Weekly, store.Club, *time.Location, error) {
	if r.Weekly == nil {
		return nil, store.Club{}, nil, nil
	}
	club, err := tx.Club()
	if err != nil {
		return nil, club, nil, err
	}
	all, err := r.Weekly(tx)
	return all, club, zone(club.Zone, time.UTC), err
}

// dueWeekly lists the weekly posts that are due at now and were neither queued nor
// left out.
func (r *Runner) dueWeekly(tx *store.Tx, now time.Time) ([]Weekly, planner.Date, error) {
	all, club, loc, err := r.weekly(tx)
	if err != nil || len(all) == 0 {
		return nil, 0, err
	}
	day := planner.DateOf(now.In(loc))
	opens := day.At(loc, club.Hour, club.Minute)
	var due []Weekly
	for _, w := range all {
		if day.Weekday() != w.Day || now.Before(opens) || !now.Before(opens.Add(daytime)) {
			continue
		}
		_, known, err := tx.KnownFact(w.key(day))
		if err != nil {
			return nil, day, err
		}
		if !known {
			due = append(due, w)
		}
	}
	return due, day, nil
}

// sayWeekly queues the weekly posts that are due.
func (r *Runner) sayWeekly(ctx context.Context, now time.Time) error {
	var due []Weekly
	err := r.Store.View(ctx, func(tx *store.Tx) (err error) { due, _, err = r.dueWeekly(tx, now); return err })
	if err != nil || len(due) == 0 {
		return err
	}
	return r.Store.Update(ctx, func(tx *store.Tx) error {
		due, day, err := r.dueWeekly(tx, now)
		if err != nil {
			return err
		}
		for _, w := range due {
			if err := w.queue(tx, day, now); err != nil {
				return err
			}
		}
		return nil
	})
}

func (w Weekly) queue(tx *store.Tx, day planner.Date, now time.Time) error {
	fact := store.Fact{Key: w.key(day), Kind: w.Name, Due: now}
	m, some, err := w.Make(tx, now)
	if err != nil {
		return err
	}
	if !some {
		return tx.SkipFacts([]store.Fact{fact}, reasonNothing, now)
	}
	post, err := Announcement(fact.Key, w.Channel, m, now)
	if err != nil {
		return err
	}
	_, err = tx.QueuePost(post, []store.Fact{fact}, now)
	return err
}

// nextWeekly offers the instants at which weekly posts fall due.
func (r *Runner) nextWeekly(tx *store.Tx, after, tick time.Time, best *earliest) error {
	due, _, err := r.dueWeekly(tx, tick)
	if err != nil {
		return err
	}
	if len(due) > 0 {
		best.offer(tick)
	}
	all, club, loc, err := r.weekly(tx)
	if err != nil {
		return err
	}
	for _, w := range all {
		for day := planner.DateOf(after.In(loc)).OnOrAfter(w.Day); ; day = day.AddDays(7) {
			if opens := day.At(loc, club.Hour, club.Minute); opens.After(after) {
				best.offer(opens)
				break
			}
		}
	}
	return nil
}
