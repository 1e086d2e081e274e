package bot

import (
	"fmt"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/strength"
	"blockbell/store"
)

// boardRow is one lifter on the board.
func (t *turn) boardRow(c course) (render.BoardRow, error) {
	r := render.BoardRow{Name: render.Called(c.lifter), Handle: c.lifter.Handle}
	if m, ok := c.nextMeet(); ok {
		days := c.today.DaysUntil(m.Date)
		r.Meet, r.MeetDays = m.Name, &days
	}
	if c.at.Index >= 0 {
		left := c.at.Block.DaysLeft(c.today)
		r.Block, r.DaysLeft = c.at.Block.Kind, &left
		_, r.Away = awayNow(c.aways, c.today)
	}
	// Where something has changed under a proposal it waits all the same: it is laid out
	// again when somebody looks at it.
	p, proposed, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil {
		return r, err
	}
	if r.Flags, r.Left, err = t.standing(c.lifter.ID, t.flags(c, proposed)); err != nil {
		return r, err
	}
	if !r.Left {
		lifts, err := t.stalled(c)
		if err != nil {
			return r, err
		}
		for _, l := range lifts {
			r.Flags = append(r.Flags, l+" stalled")
		}
	}
	if proposed && !r.Left {
		a, asked, err := t.tx.Approval(p.ID)
		if asked && a.Wants == store.CoachDecides {
			r.Flags[0] = "plan waits for its coach"
		}
		return r, err
	}
	return r, nil
}

// flags names what a captain should look at for one lifter.
func (t *turn) flags(c course, proposed bool) []string {
	flags := []string{}
	limit := blocks.PeakingLimit(c.lifter, c.today, t.rules())
	switch {
	case !c.has && !proposed && c.lifter.Level == planner.New:
		flags = append(flags, "learning the lifts")
	case !c.has && !proposed:
		flags = append(flags, "no plan")
	case proposed:
		flags = append(flags, "plan waits for a yes")
	}
	a, away := awayNow(c.aways, c.today)
	if away {
		// What waits, waits until they are back: nobody is late for being away.
	} else if c.at.Waiting >= 0 {
		flags = append(flags, fmt.Sprintf("block over for %s", render.Count(c.at.Overdue, "day")))
	} else if c.at.Overdue > 0 && c.at.Block.Kind == planner.Peaking && c.at.Week > limit.Weeks {
		flags = append(flags, fmt.Sprintf("peaking in week %d, limit %d", c.at.Week, limit.Weeks))
	} else if c.at.Overdue > 0 {
		flags = append(flags, fmt.Sprintf("block over for %s", render.Count(c.at.Overdue, "day")))
	}
	if away {
		flags = append(flags, "away "+render.AwaySpan(a.From, a.To))
	}
	if _, ok := c.nextMeet(); !ok {
		flags = append(flags, "no meet")
	}
	return flags
}

// clubParams are what /club settings takes.
func clubParams() []Param {
	return []Param{
		{Name: "log_channel", About: "where lifters log, for example #training-log"},
		{Name: "nudge_channel", About: "where I post, for example #announcements"},
		{Name: "captain_role", About: "the role whose members are captains"},
		{Name: "zone", About: "the club's time zone, for example Europe/Lisbon"},
		{Name: "hour", About: "when the daily post comes, for example 08:00"},
		{Name: "week_start", About: "the day training weeks begin on", Choices: weekdayWords()},
		{Name: "advance", About: "agreed: the next block begins on its date; ask: it waits for a yes", Choices: []string{string(store.AdvanceAgreed), string(store.AdvanceAsk)}},
		{Name: "women_shorter", About: "plan one week less of peaking for women (a habit, not proven)", Choices: yesNo},
		{Name: "equation", About: "how a maximum is estimated from a set", Choices: words(strength.Equations())},
		{Name: "unit", About: "the unit that new lifters begin with", Choices: unitWords},
		{Name: "smallest_step", About: "the smallest step your discs allow, for example 2.5"},
		{Name: "weeks", About: "whose weeks the club trains by: mine, the club's tables, or everybody's own", Choices: words([]store.Weeks{store.BotWeeks, store.ClubWeeks, store.OwnWeeks})},
	}
}

func weekdayWords() []string {
	out := make([]string, 7)
	for d := range out {
		out[d] = strings.ToLower(time.Weekday(d).String())
	}
	return out
}

// clubSettings answers /club settings: shows them, or changes what is named.
func clubSettings(t *turn) (chat.Reply, error) {
	c := t.club
	for name, v := range t.options {
		if err := setClubField(&c, name, v); err != nil {
			return chat.Reply{}, err
		}
	}
	title := "Club settings"
	if len(t.options) > 0 {
		title = "Saved"
		if err := t.tx.SaveClub(c); err != nil {
			return chat.Reply{}, err
		}
		if err := t.tx.Audit(t.speaker.ID, 0, "changed club settings: "+strings.Join(t.optionNames(), ", "), t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	m := render.ClubSettings(title, clubRows(c))
	trouble, err := t.undelivered()
	m.Text = strings.TrimSpace(m.Text + "\n" + trouble)
	return private(m), err
}

func setClubField(c *store.Club, name, v string) (err error) {
	switch name {
	case "log_channel":
		c.LogChannel, err = channelName(name, v)
	case "nudge_channel":
		c.NudgeChannel, err = channelName(name, v)
	case "captain_role":
		c.CaptainRole = parse.Clean(v)
	case "zone":
		c.Zone, err = zoneName(v)
	case "hour":
		c.Hour, c.Minute, err = parse.Clock(v)
		err = named(name, err)
	case "week_start":
		for d, w := range weekdayWords() {
			if w == v {
				c.WeekStart = time.Weekday(d)
			}
		}
	case "advance":
		c.Advance = store.Advance(v)
	case "women_shorter":
		c.WomenShorter = v == "yes"
	case "equation":
		c.Equation = v
	case "unit":
		c.Unit = planner.Unit(v)
	case "smallest_step":
		c.SmallestStep, err = smallestStep(v)
	case "weeks":
		c.Weeks = store.Weeks(v)
	}
	return err
}

// smallestStep reads the smallest change of the bar that a club's discs allow,
// 0.5 to 10 kg (common practice: pairs of 0.25 to 5 kg).
func smallestStep(v string) (planner.Grams, error) {
	g, err := parse.Weight(v, planner.KG)
	if err != nil || g < 500 || g > 10*planner.Kilogram {
		return 0, planner.Errorf(planner.Invalid, "Twice your smallest disc, for example 2.5.", "smallest_step: %q is not a step from 0.5 to 10 kg", parse.Clean(v))
	}
	return g, nil
}

// channelName reads a channel, with or without its mark.
func channelName(option, v string) (string, error) {
	name := strings.TrimPrefix(strings.TrimSpace(v), "#")
	if name == "" || len([]rune(name)) > 100 || strings.ContainsAny(name, " \t\n@") {
		return "", planner.Errorf(planner.Invalid, "Write it as #name.", "%s: %q is not a channel", option, parse.Clean(v))
	}
	return "#" + name, nil
}

// clubRows lists the settings as they are typed.
func clubRows(c store.Club) []render.Setting {
	yes := map[bool]string{true: "yes", false: "no"}
	return []render.Setting{
		{Name: "log_channel", Value: c.LogChannel}, {Name: "nudge_channel", Value: c.NudgeChannel},
		{Name: "captain_role", Value: c.CaptainRole}, {Name: "zone", Value: c.Zone},
		{Name: "hour", Value: fmt.Sprintf("%02d:%02d", c.Hour, c.Minute)},
		{Name: "week_start", Value: weekdayWords()[c.WeekStart]}, {Name: "advance", Value: string(c.Advance)},
		{Name: "women_shorter", Value: yes[c.WomenShorter]}, {Name: "equation", Value: c.Equation},
		{Name: "unit", Value: string(c.Unit)}, {Name: "smallest_step", Value: c.SmallestStep.Text(planner.KG)},
		{Name: "weeks", Value: string(c.Weeks)},
	}
}
