package nudge

import (
	"fmt"
	"strings"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// findLongPeaking: a peaking block is past the lifter's limit, on the first day
// after it and then once a week. The limit counts training weeks, so odd days in
// front of the first one do not count. No block is alarmed about before its
// planned end, whatever its length: the plan said that much and why when it was
// agreed, so only a block that outlives its plan, because its meet moved or fell
// away, is news.
func findLongPeaking(s *search) {
	for i, b := range s.member.Season.Blocks {
		if b.Kind != planner.Peaking || b.Start > s.last {
			continue
		}
		first := max(s.pastLimit(i), b.End.AddDays(1))
		if first < s.first {
			first = first.AddDays((first.DaysUntil(s.first) + 6) / 7 * 7)
		}
		for day := first; s.near(day) && s.on(day).Index == i; day = day.AddDays(7) {
			week, _ := planner.WeekIn(b, day, s.facts.WeekStart, s.member.told())
			n := Nudge{Day: day, Index: i, Over: week - 1}
			s.add(n, blockObject(b), day, "over")
		}
	}
}

// pastLimit returns the first day on which peaking block i is past its limit.
func (s *search) pastLimit(i int) planner.Date {
	b := s.member.Season.Blocks[i]
	weeks := s.facts.limit(s.member, i, b.Start).Weeks
	day := b.Start.OnOrAfter(s.facts.WeekStart).AddDays(7 * weeks)
	for day <= s.last { // weeks away do not count
		if week, _ := planner.WeekIn(b, day, s.facts.WeekStart, s.member.told()); week > weeks {
			break
		}
		day = day.AddDays(7)
	}
	return day
}

// limit is the longest peaking that is usual for the member, in the equipment of
// the meet behind block i.
func (f *Facts) limit(m *Member, i int, on planner.Date) blocks.Limit {
	gear := planner.Raw
	if planned, ok := m.Season.MeetOf(m.Season.Blocks[i]); ok {
		for _, now := range m.Meets {
			if now.ID == planned.ID {
				gear = now.Equipment
			}
		}
	}
	rules := blocks.Rules{WeekStart: f.WeekStart, WomenShorter: f.WomenShorter}
	return blocks.PeakingLimitIn(m.Lifter, on, rules, gear)
}

// toldLong says how long the peaking has run, against what is usual and why; what is
// fading; what going on costs; and the ways out.
func (f *Facts) toldLong(n *Nudge) []string {
	limit := f.limit(n.Member, n.Index, n.block().Start)
	lines := append([]string{fmt.Sprintf("Day %d of peaking, week %d; your usual limit is %s (%s).",
		n.block().Start.DaysUntil(n.Day)+1-n.Member.daysAway(n.block().Start, n.Day), n.Over+1, render.Count(limit.Weeks, "week"), strings.Join(limit.Reasons, "; "))},
		f.fading(n)...)
	p, err := blocks.Build(f.fromHere(n))
	if err == nil && len(p.Blocks) > 0 {
		lines = append(lines, goingOn(n, p), ways(n, p))
	}
	return append(lines, "Talk it over with your coach; /season build lays it out.")
}
