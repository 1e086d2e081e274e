package nudge

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

const (
	// worst is how tired or stale the worst answer of a check-in is.
	worst = 2
	// Two answers belong together when so many days lie between them at most, and count
	// as two when at least so many do.
	togetherDays, apartDays = 21, 4
	// saidFresh is how many days after a check-in it is still answered.
	saidFresh = 7
	// noDifference is the difference in percent below which the planner's measure tells
	// two plans apart only on paper.
	noDifference = 0.5
)

// CheckIn is what a member said of themselves on a day: tired and stale from 0 to 2,
// -1 where not told.
type CheckIn struct {
	Day          planner.Date
	Tired, Stale int
}

// loadFeeling reads what the member said of themselves.
func (m *Member) loadFeeling(tx *store.Tx) error {
	all, err := tx.CheckIns(m.Lifter.ID, planner.NewDate(2000, time.January, 1)) // all there are
	for _, c := range all {
		in := CheckIn{c.Day, -1, -1}
		if c.Tired != nil {
			in.Tired = *c.Tired
		}
		if c.Stale != nil {
			in.Stale = *c.Stale
		}
		m.CheckIns = append(m.CheckIns, in)
	}
	return err
}

// twice lists the days of answers that were the worst, as the one before was, and
// that one the first such: a run of them is told of once.
func twice(all []CheckIn, of func(CheckIn) int) (days [][2]planner.Date) {
	for _, p := range pairs(all, of) {
		if p.place == 2 {
			days = append(days, p.days)
		}
	}
	return days
}

// pair is two answers running that were the worst; place is the second's in its run.
type pair struct {
	days  [2]planner.Date
	place int
}

// pairs lists every two answers running that were the worst.
func pairs(all []CheckIn, of func(CheckIn) int) (found []pair) {
	all = slices.DeleteFunc(slices.Clone(all), func(c CheckIn) bool { return of(c) < 0 })
	run := 0
	for i, c := range all {
		switch {
		case of(c) < worst:
			run = 0
			continue
		case run > 0 && all[i-1].Day.DaysUntil(c.Day) > togetherDays:
			run = 0
		case run > 0 && all[i-1].Day.DaysUntil(c.Day) < apartDays:
			continue
		}
		if run++; run >= 2 {
			found = append(found, pair{[2]planner.Date{all[i-1].Day, c.Day}, run})
		}
	}
	return found
}

func tired(c CheckIn) int { return c.Tired }
func stale(c CheckIn) int { return c.Stale }

// veryTired tells whether the member said so twice, the second time within four weeks
// before a day.
func (m *Member) veryTired(day planner.Date) bool {
	for _, d := range twice(m.CheckIns, tired) {
		if d[1] <= day && d[1].DaysUntil(day) <= readFresh {
			return true
		}
	}
	return false
}

// findTired: a member said 'very tired' twice running. Where an easy week, the taper
// or time away is there or begins within the week, that is the answer.
func findTired(s *search) {
	easy := s.easyWeeks()
	for _, d := range twice(s.member.CheckIns, tired) {
		day := d[1].AddDays(1)
		if !s.near(day) {
			continue
		}
		resting := false
		for ahead := range 7 {
			then := day.AddDays(ahead)
			if at := s.on(then); at.Index >= 0 || s.member.away(then) {
				resting = resting || s.spared(then, at, easy)
			}
		}
		if !resting {
			s.add(Nudge{Day: day, Said: d}, "checkin", d[1], "tired")
		}
	}
}

// usualMuscle is how many weeks of a muscle block are usual: 6 for novices, 8 for all
// others (common practice, as in the planner's preference).
func usualMuscle(l planner.Level) int {
	if l == planner.Novice || l == planner.New {
		return 6
	}
	return 8
}

// findStale: a muscle block has run for as long as is usual, and the member said
// 'stale' twice running. Told once for each block.
func findStale(s *search) {
	easy := s.easyWeeks()
	told := map[int]bool{} // by block: a run may have begun before the block was long
	for _, p := range pairs(s.member.CheckIns, stale) {
		d := p.days
		for day := d[1].AddDays(1); day <= d[1].AddDays(saidFresh); day++ {
			at := s.on(day)
			if s.spared(day, at, easy) || at.Block.Kind != planner.Hypertrophy || at.Week < usualMuscle(s.member.Lifter.PlannedLevel()) || at.Waiting >= 0 {
				continue
			}
			if told[at.Index] {
				break
			}
			told[at.Index] = true
			if b := s.member.Season.Blocks[at.Index]; s.near(day) && at.Next >= 0 && day.AddDays(7) < b.End {
				s.add(Nudge{Day: day, Index: at.Index, Said: d, Over: at.Week}, blockObject(b), b.Start, "stale")
			}
			break
		}
	}
}

// toldTired says what was said, and what usually helps.
func (n *Nudge) toldTired() []string {
	return []string{
		fmt.Sprintf("You said 'very tired' twice running, %s and %s.", n.Said[0].Short(), n.Said[1].Short()),
		"Training works as far as you recover from it: sleep and food first, then a week with one set less of everything and nothing very heavy.",
		"'Take it easier' keeps the heaviest work out of your weeks until you want it back. If it stays like this, talk to your coach or a doctor.",
	}
}

// toldStale says how long the block runs, what is usual, and what going on costs.
func (n *Nudge) toldStale() []string {
	next := n.Member.Season.Blocks[n.Index+1]
	lines := []string{
		fmt.Sprintf("Week %d of your %s, and you said 'stale' twice running. %d weeks are usual, yours is planned to %s.",
			n.Over, render.BlockName(n.block().Kind), usualMuscle(n.Member.Lifter.PlannedLevel()), n.block().End.Short()),
		"A change of work is a good answer to that: " + render.BlockName(next.Kind) + " could begin next week.",
	}
	switch cost, ok := earlier(n.Member.Detail, next.Start); {
	case ok && cost < 0.05:
		lines[1] += " By the planner's measure a week earlier costs nothing."
	case ok && cost < noDifference:
		lines[1] += fmt.Sprintf(" By the planner's measure a week earlier costs %.1f %%: no real difference.", cost)
	case ok:
		lines[1] += fmt.Sprintf(" By the planner's measure a week earlier costs %.1f %%.", cost)
	}
	return append(lines, "'Change sooner' shows you that plan; nothing changes before you accept it.")
}

// earlier is what beginning the block of a day a week earlier costs by the plan, in
// percent; false where the plan does not say.
func earlier(detail json.RawMessage, start planner.Date) (float64, bool) {
	var d struct {
		Boundaries []blocks.Boundary `json:"boundaries"`
	}
	if json.Unmarshal(detail, &d) != nil {
		return 0, false
	}
	for _, b := range d.Boundaries {
		if b.Date == start && b.Earlier != nil {
			return *b.Earlier, true
		}
	}
	return 0, false
}
