package bot

import (
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// course is what a lifter's plans rest on: the meets, the agreed plan and where
// the lifter stands in it today.
type course struct {
	lifter planner.Lifter
	today  planner.Date
	meets  []planner.Meet
	agreed store.Plan
	has    bool // there is an agreed plan
	at     planner.Standing
	aways  []store.Away // as told, oldest first
}

// course reads the course of a lifter.
func (t *turn) course(l planner.Lifter) (course, error) { return t.courseOn(l, t.dayOf(l, t.now)) }

// courseOn is the course by what is known now, as it stood or stands on a day.
func (t *turn) courseOn(l planner.Lifter, day planner.Date) (course, error) {
	c := course{lifter: l, today: day, at: planner.Standing{Index: -1, Waiting: -1, Next: -1}}
	var err error
	if c.meets, err = t.tx.Meets(l.ID); err != nil {
		return c, err
	}
	if c.aways, err = t.tx.Aways(l.ID); err != nil {
		return c, err
	}
	if c.agreed, c.has, err = t.tx.AgreedPlan(l.ID); err != nil || !c.has {
		return c, err
	}
	c.at = c.agreed.Season.On(c.today, t.club.WeekStart, t.club.Advance == store.AdvanceAsk, c.meets, c.told())
	return c, nil
}

// nextMeet returns the next meet on or after today.
func (c course) nextMeet() (planner.Meet, bool) {
	for _, m := range c.meets {
		if m.Date >= c.today {
			return m, true
		}
	}
	return planner.Meet{}, false
}

// request is what the planner is asked: the meets ahead, the block that runs and
// the blocks that are finished. On a meet day the plan begins the day after.
func (c course) request(rules blocks.Rules) blocks.Request {
	r := blocks.Request{Today: c.today, Lifter: c.lifter, Rules: rules}
	for _, m := range c.meets {
		if m.Date == c.today {
			r.Today = c.today.AddDays(1)
		}
	}
	for _, m := range c.meets {
		// With one meet today and another tomorrow there is no day between them to
		// plan; the plan begins behind both.
		if m.Date > c.today && m.Date >= r.Today {
			if m.Date == r.Today && r.Today > c.today {
				r.Today = r.Today.AddDays(1)
				continue
			}
			r.Meets = append(r.Meets, m)
		}
	}
	if c.at.Index >= 0 {
		r.Running = &blocks.Running{Kind: c.at.Block.Kind, Start: c.at.Block.Start}
	} else if after, ok := c.recovering(r); ok {
		r.Running = &blocks.Running{Kind: planner.Recovery, Start: after}
	}
	for _, b := range c.finished() {
		r.History = append(r.History, blocks.Past{Kind: b.Kind, Weeks: b.Weeks})
	}
	return r
}

// recoverDays is how long after a main meet easy weeks come first, and shortestGap
// the fewest days to the next main meet that leave room for them (common practice).
const recoverDays, shortestGap = 14, 18

// recovering returns the day after a main meet that was just lifted and that no plan
// leads on from: what comes next begins with easy work.
func (c course) recovering(r blocks.Request) (planner.Date, bool) {
	var last planner.Date
	for _, m := range c.meets {
		if m.Kind == planner.Main && m.Date < r.Today {
			last = m.Date
		}
	}
	if last.IsZero() || last.DaysUntil(r.Today) > recoverDays {
		return 0, false
	}
	for _, m := range r.Meets {
		if m.Kind == planner.Main && last.DaysUntil(m.Date) < shortestGap {
			return 0, false
		}
	}
	for _, b := range c.finished() {
		if b.Start > last {
			return 0, false
		}
	}
	return last.AddDays(1), true
}

// running is the first day of the block that runs today; zero where none does.
func (c course) running() planner.Date {
	if c.at.Index < 0 {
		return 0
	}
	return c.at.Block.Start
}

// finished lists the blocks of the agreed plan that are over.
func (c course) finished() []planner.Block {
	if !c.has {
		return nil
	}
	var out []planner.Block
	for i, b := range c.agreed.Season.Blocks {
		if i == c.at.Index || b.Start >= c.today {
			break
		}
		out = append(out, b)
	}
	return out
}

// season puts a new plan behind the blocks and meets that are over.
func (c course) season(p blocks.Plan) planner.Season {
	done := append(c.finished(), c.cutShort(p)...)
	s := planner.Season{Blocks: append(slices.Clone(done), p.Blocks...)}
	if c.has {
		for _, m := range c.agreed.Season.Meets {
			if m.Date <= c.today {
				s.Meets = append(s.Meets, m)
			}
		}
	}
	s.Meets = append(s.Meets, p.Meets...)
	s.Begun = make([]planner.Date, len(s.Blocks))
	for i := range s.Blocks {
		// What is over, and the block the plan begins with, were let begin.
		if i <= len(done) {
			s.Begun[i] = s.Blocks[i].Start
		}
	}
	return s
}

// cutShort is the running block as far as it got, where the new plan ends it at
// once and does not list it.
func (c course) cutShort(p blocks.Plan) []planner.Block {
	if c.at.Index < 0 || len(p.Blocks) == 0 || p.Blocks[0].Start <= c.at.Block.Start {
		return nil
	}
	b := c.at.Block
	b.End = p.Blocks[0].Start.AddDays(-1)
	if a, away := awayNow(c.aways, b.End); away {
		b.End = a.From.AddDays(-1) // it ended with the time away
	}
	if b.End < b.Start {
		return nil
	}
	b.Weeks = planner.WeeksDone(b.Start, b.End.AddDays(1), p.Model.WeekStart)
	if b.TaperStart > b.End {
		b.TaperStart = 0
	}
	b.Reason = render.Sentence(render.BlockName(b.Kind)) + " A new plan ended it early."
	return []planner.Block{b}
}

// eventsAhead are the meets to come.
func (c course) eventsAhead() []planner.Meet {
	for i, m := range c.meets {
		if m.Date >= c.today {
			return c.meets[i:]
		}
	}
	return nil
}

// rules are the club's settings for the planner.
func (t *turn) rules() blocks.Rules {
	return blocks.Rules{WeekStart: t.club.WeekStart, WomenShorter: t.club.WomenShorter}
}

// build plans the course of a lifter by all that people told and decided. The agreed
// plan stays where a new one gains too little to be worth a change.
func (t *turn) build(c course) (blocks.Plan, error) {
	r, err := t.decided(c)
	if err != nil {
		return blocks.Plan{}, err
	}
	r.Agreed = c.ahead()
	return blocks.Build(r)
}

// ahead lists the blocks of the agreed plan that are not over, the running one
// first.
func (c course) ahead() []planner.Block {
	if !c.has {
		return nil
	}
	return c.agreed.Season.Blocks[len(c.finished()):]
}
