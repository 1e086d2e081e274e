package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// weekFor returns the lifter's week that holds a day or, where there is none, the
// words that say why and what to do. Nothing is kept of it until keepWeek.
func (t *turn) weekFor(c course, day planner.Date) (weekNow, *chat.Message, error) {
	w, reason, err := t.weekOrReason(c, day)
	if reason != nil && t.about.ID != t.speaker.ID {
		reason.Title = render.Called(t.about) + ": " + lower(reason.Title)
		reason.Text = "They read: " + reason.Text
	}
	return w, reason, err
}

func (t *turn) weekOrReason(c course, day planner.Date) (weekNow, *chat.Message, error) {
	tr, err := t.tx.Training(c.lifter.ID)
	if err != nil {
		return weekNow{}, nil, err
	}
	if a, away := awayNow(c.aways, day); away {
		return weekNow{}, noWeek("away", "Away", awayText(a)), nil
	}
	for _, m := range c.meets {
		if m.Date == day && m.Kind != planner.TuneUp {
			return weekNow{}, noWeek("meet day", m.Name, meetDayText(m)), nil
		}
	}
	b, reason, err := t.blockOn(c, day)
	if err != nil || reason != nil {
		return weekNow{}, reason, err
	}
	if t.weeksOf(tr) == store.OwnWeeks {
		return weekNow{}, noWeek("own weeks", "Your weeks are your own", "I prescribe nothing: you train by your own weeks, and everything else works as usual. "+
			"Log what you lift. If you want sets and loads from me: /week weeks:bot."), nil
	}
	start := weekStart(b, day, t.club.WeekStart)
	if start.AddDays(6) < c.today {
		if _, kept, err := t.tx.TrainingWeek(c.lifter.ID, start); err != nil || !kept {
			return weekNow{}, noWeek("not kept", "No week kept", "I showed you no work for that week. What you lifted: /log recent."), err
		}
	}
	w, err := t.weekOn(c, tr, b, day)
	return w, nil, err
}

// blockOn returns the block that a day belongs to, as it runs: one that waits for
// its successor goes on to the end of its training week.
func (t *turn) blockOn(c course, day planner.Date) (planner.Block, *chat.Message, error) {
	if !c.has {
		if c.lifter.Level == planner.New {
			return planner.Block{}, noWeek("new", "Learn the lifts first", "The first 8 to 12 weeks are for learning the lifts; a plan comes after that.\n"+
				"Two or three times a week, sets of 5 to 8 with a weight that leaves 3 more. Show your coach each set, and log it here."), nil
		}
		m, err := t.noPlan(c)
		return planner.Block{}, m, err
	}
	at := c.agreed.Season.On(day, t.club.WeekStart, t.club.Advance == store.AdvanceAsk && day <= c.today, c.meets, c.told())
	if at.Index >= 0 {
		return c.extended(at, day, t.club.WeekStart), nil, nil
	}
	if day != c.today && day != t.trainingDay() {
		return planner.Block{}, noWeek("no block", "Nothing planned", "No block of your plan holds "+day.Long()+". /season shows it."), nil
	}
	v, err := t.blockView(c)
	if err != nil {
		return planner.Block{}, nil, err
	}
	m := render.Block(v)
	return planner.Block{}, noWeek("no block", m.Title, m.Text), nil
}

// noPlan says what is missing until there are weeks: a yes to the plan that is
// proposed, or a plan.
func (t *turn) noPlan(c course) (*chat.Message, error) {
	p, waits, err := t.openProposal(c)
	if err != nil || !waits {
		return noWeek("no plan", "No plan yet", "I can write your weeks once there is a plan: /season build. With a meet, first /meet add."), err
	}
	a, asked, err := t.tx.Approval(p.ID)
	if asked && a.State == store.ApprovalWaiting && a.Wants == store.CoachDecides {
		return noWeek("no plan", "Your plan waits", "Your plan waits for your coach's yes. Your weeks begin with it; until then train as you have been."), err
	}
	return noWeek("no plan", "Your plan waits", "A proposed plan waits for your yes: /season accept, or look at it with /season build. Your weeks begin with it."), err
}

// extended is a running block, lengthened where it outlives its plan.
func (c course) extended(at planner.Standing, day planner.Date, ws planner.Weekday) planner.Block {
	b := at.Block
	if day > b.End {
		b.End = day.OnOrBefore(ws).AddDays(6)
		b.Weeks = max(b.Weeks, planner.WeekOf(b.Start, day, ws))
		for _, m := range c.meets {
			if m.Date > day && m.Date <= b.End {
				b.End = m.Date.AddDays(-1)
			}
		}
	}
	return b
}

func noWeek(why, title, text string) *chat.Message {
	return &chat.Message{Title: title, Text: text, Data: render.WeekData{Days: []render.DayData{}, Why: why}}
}

func awayText(a store.Away) string {
	if a.To.IsZero() {
		return "You are away, so nothing is planned. When you train again: /season back. Your loads then begin lower."
	}
	return "You are away until " + a.To.Short() + ", so nothing is planned. From " + a.To.AddDays(1).Short() + " your loads begin lower. Back sooner: /season back."
}

func meetDayText(m planner.Meet) string {
	if m.Kind == planner.Test {
		return "Test day. Warm up as usual; go up in small steps, and stop when a lift slows down badly. Log what you lift."
	}
	return "Meet day. Lift what you came to lift; afterwards: /meet result."
}
