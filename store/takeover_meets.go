package store

import (
	"slices"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/sqlgen"
)

// JoinedMeet is an entry that account and placeholder both had, as the account had it
// and as it was filled in from the placeholder's.
type JoinedMeet struct {
	Before, Filled planner.Meet
	Place          Roster // the placeholder's place there
	Had            Roster // the account's
}

// joinMeets lets plans, places and reviews of a meet that both had point to the
// account's entry, and fills in what the account has not told of it: an entry that was
// made, or closes, would be missed otherwise.
func (t *Tx) joinMeets(from, to planner.LifterID, o *Takeover) error {
	left, err := t.Meets(from)
	if err != nil {
		return err
	}
	own, err := t.Meets(to)
	if err != nil {
		return err
	}
	o.Twice = slices.Clone(left)
	for _, p := range left {
		i := slices.IndexFunc(own, func(m planner.Meet) bool { return m.Date == p.Date && strings.EqualFold(m.Name, p.Name) })
		if i < 0 {
			continue
		}
		j := JoinedMeet{Before: own[i], Filled: filledMeet(own[i], p)}
		if j.Place, err = t.Roster(p.ID); err != nil {
			return err
		}
		if j.Had, err = t.Roster(own[i].ID); err != nil {
			return err
		}
		if err := t.SaveMeet(j.Filled, o.At); err != nil {
			return err
		}
		o.Joined = append(o.Joined, j)
	}
	if err := t.q.PlanMeetsToOwn(t.ctx, sqlgen.PlanMeetsToOwnParams{RealID: to, FromID: from}); err != nil {
		return err
	}
	if err := t.q.RostersToOwn(t.ctx, sqlgen.RostersToOwnParams{RealID: to, FromID: from}); err != nil {
		return err
	}
	return t.q.ReviewsToOwn(t.ctx, sqlgen.ReviewsToOwnParams{RealID: to, FromID: from})
}

// filledMeet fills in what an entry does not tell from another of the same meet.
func filledMeet(m, p planner.Meet) planner.Meet {
	fill(&m.RuleSet, p.RuleSet)
	fill(&m.Class, p.Class)
	fill(&m.Qualifying, p.Qualifying)
	fill(&m.EntryCloses, p.EntryCloses)
	fill(&m.Place, p.Place)
	fill(&m.Zone, p.Zone)
	if p.Handler != m.Lifter {
		fill(&m.Handler, p.Handler)
	}
	fill(&m.Entered, p.Entered)
	if !m.ResultEntered {
		m.ResultTotal, m.ResultEntered = p.ResultTotal, p.ResultEntered
	}
	return m
}

// meetParted takes out of an entry what was filled in, where it still stands.
func (t *Tx) meetParted(account planner.LifterID, j JoinedMeet, now time.Time) error {
	all, err := t.Meets(account)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(all, func(m planner.Meet) bool { return m.ID == j.Before.ID })
	if i < 0 {
		return nil // dropped since
	}
	m, f, b := all[i], j.Filled, j.Before
	empty(&m.RuleSet, f.RuleSet, b.RuleSet)
	empty(&m.Class, f.Class, b.Class)
	empty(&m.Qualifying, f.Qualifying, b.Qualifying)
	empty(&m.EntryCloses, f.EntryCloses, b.EntryCloses)
	empty(&m.Place, f.Place, b.Place)
	empty(&m.Zone, f.Zone, b.Zone)
	empty(&m.Handler, f.Handler, b.Handler)
	empty(&m.Entered, f.Entered, b.Entered)
	if m.ResultTotal == f.ResultTotal {
		m.ResultTotal, m.ResultEntered = b.ResultTotal, b.ResultEntered
	}
	if err := t.SaveMeet(m, now); err != nil {
		return err
	}
	if place, err := t.Roster(m.ID); err != nil || place != j.Place || j.Had != (Roster{}) {
		return err
	}
	return t.SaveRoster(m.ID, Roster{})
}

// placeBack gives a placeholder's entry its place again.
func (o Takeover) placeBack(t *Tx, old, id planner.MeetID) error {
	for i, p := range o.Twice {
		if p.ID != old {
			continue
		}
		for _, j := range o.Joined {
			if j.Before.Date == o.Twice[i].Date && strings.EqualFold(j.Before.Name, p.Name) && j.Place != (Roster{}) {
				return t.SaveRoster(id, j.Place)
			}
		}
	}
	return nil
}
