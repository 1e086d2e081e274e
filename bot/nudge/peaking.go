package nudge

import (
	"encoding/json"
	"fmt"
	"math"
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

// toldLong says how long the peaking has run, against what is usual and why, and
// what one more week costs.
func (f *Facts) toldLong(n *Nudge) []string {
	limit := f.limit(n.Member, n.Index, n.block().Start)
	lines := []string{
		fmt.Sprintf("Day %d of peaking; your usual limit is %s (%s).",
			n.block().Start.DaysUntil(n.Day)+1-n.Member.daysAway(n.block().Start, n.Day), render.Count(limit.Weeks, "week"), strings.Join(limit.Reasons, "; ")),
	}
	var fades []string
	if single, muscle, ok := n.drift(); ok {
		fades = append(fades, fmt.Sprintf("By our model another week costs about %.1f %% of muscle; %s.", math.Abs(muscle), move(single)))
	}
	if short := f.upkeep(n); short != "" {
		fades = append(fades, short)
	}
	if len(fades) > 0 {
		lines = append(lines, strings.Join(fades, " "))
	}
	return append(lines, strings.TrimSpace(f.ways(n)+" Talk it over with your coach; /season build lays it out."))
}

// move says what a week does to the single, in percent.
func move(percent float64) string {
	if math.Abs(percent) < 0.05 {
		return "the single stays about where it is"
	}
	return fmt.Sprintf("the single moves by about %+.1f %%", percent)
}

// drift returns what one more week of peaking does after the weeks run so far, in
// percent: the change of the single, and of muscle, which is falling. It follows
// the plan's blocks through the planner's model from the day of the plan. It is
// false where the plan does not tell its model.
func (n *Nudge) drift() (single, muscle float64, ok bool) {
	m := model(n.Member.Detail)
	if m == nil {
		return 0, 0, false
	}
	before := m.Start.State
	for _, b := range n.Member.Season.Blocks[:n.Index+1] {
		if b.End < m.Start.Date {
			continue
		}
		done, weeks := 0, b.Weeks
		if b.Start < m.Start.Date && m.Start.Block == b.Kind {
			done = m.Start.Week
		}
		if b == n.block() {
			weeks = n.Over
		}
		for w := done; w < weeks; w++ {
			before = m.Week(before, b.Kind, w)
		}
	}
	after := m.Week(before, planner.Peaking, n.Over)
	return percent(after.S + after.E - before.S - before.E), percent(after.M - before.M), true
}

// percent turns a difference of logarithms into percent.
func percent(log float64) float64 { return 100 * math.Expm1(log) }

// model reads the planner's model from the detail of a plan; nil where the detail
// has none, and the words then do without its numbers.
func model(detail json.RawMessage) *blocks.Model {
	var d struct {
		Model *blocks.Model `json:"model"`
	}
	if json.Unmarshal(detail, &d) != nil {
		return nil
	}
	return d.Model
}
