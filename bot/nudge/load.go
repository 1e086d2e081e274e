package nudge

import (
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// Load reads the facts of the club, with all its members.
func Load(tx *store.Tx) (Facts, error) {
	lifters, err := tx.Lifters()
	if err != nil {
		return Facts{}, err
	}
	return loadThese(tx, lifters)
}

// loadOnly reads the facts of the club with some of its members.
func loadOnly(tx *store.Tx, ids []planner.LifterID) (Facts, error) {
	var lifters []planner.Lifter
	for _, id := range ids {
		l, err := tx.Lifter(id)
		if err != nil {
			return Facts{}, err
		}
		lifters = append(lifters, l)
	}
	return loadThese(tx, lifters)
}

func loadThese(tx *store.Tx, lifters []planner.Lifter) (Facts, error) {
	club, err := tx.Club()
	if err != nil {
		return Facts{}, err
	}
	f := Facts{
		Zone: zone(club.Zone, time.UTC), Hour: club.Hour, Minute: club.Minute, Channel: club.NudgeChannel,
		WeekStart: club.WeekStart, WomenShorter: club.WomenShorter, Ask: club.Advance == store.AdvanceAsk,
	}
	for _, l := range lifters {
		m, err := member(tx, l, f.Zone)
		if err != nil {
			return Facts{}, err
		}
		f.Members = append(f.Members, m)
	}
	return f, nil
}

func member(tx *store.Tx, l planner.Lifter, club *time.Location) (Member, error) {
	m := Member{Lifter: l, Zone: zone(l.Zone, club), Absent: store.IsPlaceholder(l)}
	var err error
	if m.Public, err = tx.LifterPublic(l.ID); err != nil {
		return m, err
	}
	if m.Times, err = tx.NudgeTimes(l.ID); err != nil {
		return m, err
	}
	if m.Meets, err = tx.Meets(l.ID); err != nil {
		return m, err
	}
	if err := m.loadTold(tx); err != nil {
		return m, err
	}
	if err := m.loadMaking(tx); err != nil {
		return m, err
	}
	plan, ok, err := tx.AgreedPlan(l.ID)
	if err != nil || !ok {
		return m, err
	}
	m.Plan, m.Agreed, m.Season, m.Detail = int64(plan.ID), plan.Agreed, plan.Season, plan.Detail
	return m, nil
}

// zone loads a zone by name, or another where the name is empty or not in this
// machine's zone table: names were checked when they were set.
func zone(name string, otherwise *time.Location) *time.Location {
	if name == "" {
		return otherwise
	}
	if loc, err := time.LoadLocation(name); err == nil {
		return loc
	}
	return otherwise
}
