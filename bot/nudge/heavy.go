package nudge

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// Making is how a member's weeks are made, as far as nudges rest on it.
type Making struct {
	Own      bool // trains by own weeks: nothing is prescribed, so nothing of it is told
	Training store.Training
	// Tables are the kinds of block whose weeks are the club's own: their easy and
	// heavy days are not the planner's.
	Tables map[planner.BlockKind]bool
}

// loadMaking reads how the member's weeks are made.
func (m *Member) loadMaking(tx *store.Tx) (err error) {
	if m.Making.Training, err = tx.Training(m.Lifter.ID); err != nil {
		return err
	}
	club, err := tx.Club()
	if err != nil {
		return err
	}
	weeks := m.Making.Training.Weeks
	if weeks == "" {
		weeks = club.Weeks
	}
	m.Making.Own = weeks == store.OwnWeeks
	if weeks != store.ClubWeeks {
		return nil
	}
	m.Making.Tables = map[planner.BlockKind]bool{}
	for _, k := range []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery} {
		if _, m.Making.Tables[k], err = tx.ClubWeek(k); err != nil {
			return err
		}
	}
	return nil
}

// told are the times away that the member told, as weeks are counted by.
func (m *Member) told() (all []planner.Away) {
	for _, a := range m.Aways {
		all = append(all, planner.Away{From: a.From, To: a.To})
	}
	return all
}

// findDeloads: an easy week begins today.
func findDeloads(s *search) {
	if s.member.Making.Own {
		return
	}
	for _, e := range load.Deloads(s.member.Season.Blocks, s.member.Lifter, s.facts.WeekStart, s.member.told()) {
		if !s.near(e.From) || s.member.away(e.From) {
			continue
		}
		at := s.on(e.From)
		if at.Index < 0 || at.Overdue > 0 || !at.Block.Contains(e.From) || s.member.Making.Tables[at.Block.Kind] {
			continue
		}
		s.add(Nudge{Day: e.From, Index: at.Index}, blockObject(at.Block), e.From, "deload")
	}
}

// peakReach is how many days before a meet the last heavy days lie at most.
const peakReach = 20

// heavyPercent is what counts as heavy: nothing of that weight is planned once the
// last heavy day of a lift is over (common practice).
const heavyPercent = 85

// Heavy is the last heavy day of lifts before a meet.
type Heavy struct {
	Day   planner.Date
	Lifts []planner.Lift
}

// findLastHeavy: the last heavy sessions before the meet that a running peaking block
// leads to begin today. They are told together, on the day of the first one: a
// message for each would use up what a lifter is told in a week.
func findLastHeavy(s *search) {
	if s.member.Making.Own || s.member.Making.Tables[planner.Peaking] {
		return
	}
	for i, b := range s.member.Season.Blocks {
		if b.Kind != planner.Peaking || s.last < b.End.AddDays(-peakReach) || s.first > b.End || s.member.meetMoved(i) {
			continue
		}
		if _, ok := s.member.Season.MeetOf(b); !ok {
			continue
		}
		all := s.lastHeavy(b)
		if len(all) == 0 || !s.near(all[0].Day) || s.on(all[0].Day).Index != i || s.member.away(all[0].Day) {
			continue
		}
		s.add(Nudge{Day: all[0].Day, Index: i, Heavy: all}, blockObject(b), all[0].Day, "heavy")
	}
}

// lastHeavy lays out the last weeks of a peaking block and finds the last day with
// heavy work of each lift, in order. Percents do not hang on the maxes, so any will
// do.
func (s *search) lastHeavy(b planner.Block) (all []Heavy) {
	r := load.Request{
		Lifter: s.member.Lifter, WeekStart: s.facts.WeekStart, Season: s.member.Season.Blocks, Block: b, Meets: s.member.Meets,
		Training: s.member.Making.Training.Weekdays, Supervised: s.member.Making.Training.Supervised, Estimates: map[planner.Lift]load.Estimate{},
		Previous: &load.Plan{}, Aways: s.member.told(),
	}
	if s.member.Making.Training.Cautious {
		r.Version = load.Cautious
	}
	for _, l := range planner.CompetitionLifts() {
		r.Estimates[l] = load.Estimate{Kg: 100, SD: 1, Source: load.Trend}
	}
	last := map[planner.Lift]planner.Date{}
	for day := max(b.Start, b.End.AddDays(-peakReach).OnOrBefore(s.facts.WeekStart)); day <= b.End; day = day.OnOrBefore(s.facts.WeekStart).AddDays(7) {
		r.Today = day
		p, err := load.Week(r)
		if err != nil {
			return nil // a calendar that no week can be made of has no heavy days to tell
		}
		for _, d := range p.Days {
			for _, w := range d.Work {
				if w.Lift.Competition() && w.Variant == "" && w.Percent >= heavyPercent {
					last[w.Lift] = d.Date
				}
			}
		}
	}
	for _, l := range planner.CompetitionLifts() {
		day, ok := last[l]
		if !ok {
			continue
		}
		if at := slices.IndexFunc(all, func(h Heavy) bool { return h.Day == day }); at >= 0 {
			all[at].Lifts = append(all[at].Lifts, l)
			continue
		}
		all = append(all, Heavy{day, []planner.Lift{l}})
	}
	slices.SortFunc(all, func(a, b Heavy) int { return int(a.Day) - int(b.Day) })
	return all
}

// toldDeload says that an easy week begins, and why it is no lost one.
func (n *Nudge) toldDeload(today planner.Date) []string {
	return []string{
		"Your easy week (deload) " + onDay("starts", "started", n.Day, today) + ".",
		"About half the sets, a little lighter, more left: what you built comes through when you are rested.",
		"Your days: /week.",
	}
}

// toldHeavy says when each lift is heavy for the last time before the meet.
func (n *Nudge) toldHeavy() []string {
	m, _ := n.Member.Season.MeetOf(n.block())
	var days []string
	for _, h := range n.Heavy {
		var names []string
		for _, l := range h.Lifts {
			names = append(names, string(l))
		}
		when := h.Day.Short()
		if h.Day == n.Day {
			when = "today"
		}
		days = append(days, render.List(names)+" "+when)
	}
	return []string{
		fmt.Sprintf("Last heavy days before %s, %s: %s.", called(m.Name), m.Date.Short(), strings.Join(days, ", ")),
		"Do them as planned and leave it there: until the meet strength no longer grows, but freshness does.",
		"Spotter or safety bars, collars closed. Your sets: /today.",
	}
}
