package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/load"
)

// weeksCommand prints every week of a season, so that a coach can judge what the
// bot would prescribe before anybody trains by it.
type weeksCommand struct {
	Demo        bool              `help:"The seasons of six invented lifters; every other flag is left aside."`
	Level       planner.Level     `enum:"new,novice,intermediate,advanced,elite" default:"intermediate" help:"${enum}. Default: ${default}."`
	Category    planner.Category  `enum:"women,men" default:"women" help:"The category the lifter competes in: ${enum}. Default: ${default}."`
	Born        planner.Date      `placeholder:"DATE" help:"Date of birth, for example 1998-05-17. Default: not known."`
	Bodyweight  float64           `placeholder:"WEIGHT" help:"In the unit. Default: not known."`
	Unit        planner.Unit      `enum:"kg,lb" default:"kg" help:"Of all weights, and of the gym's discs: ${enum}. Default: ${default}."`
	Days        int               `default:"3" help:"Training days a week, 1 to 6. Default: ${default}."`
	Squat       float64           `placeholder:"WEIGHT" help:"Best squat. Default: not known, the first week finds it."`
	Bench       float64           `placeholder:"WEIGHT" help:"Best bench."`
	Deadlift    float64           `placeholder:"WEIGHT" help:"Best deadlift."`
	Event       planner.EventKind `enum:"full,bench,push-pull,deadlift" default:"full" help:"What the meet counts: ${enum}. Default: ${default}."`
	WeeksToMeet int               `placeholder:"WEEKS" help:"Weeks of training up to the meet, which is then on the Saturday of the last. Default: 16."`
	Date        planner.Date      `placeholder:"DATE" help:"Day of the meet, instead of --weeks-to-meet."`
	Start       planner.Date      `placeholder:"DATE" help:"First day of training. Default: the coming Monday."`
	FirstMeet   bool              `help:"The meet is the lifter's first."`
	Supervised  bool              `help:"Under 18: a coach has seen the technique and stands by."`
	Careful     bool              `help:"The careful version: no maximal work, the lifter decides by what is left."`
}

// Help is printed below the flags.
func (weeksCommand) Help() string {
	return `For example:

  blockbell weeks --level novice --born 2001-04-09 --squat 90 --bench 55 \
    --deadlift 110 --weeks-to-meet 14

Maxes are believed to 95 % here, as they are until a log says more.`
}

// longestSeason is the most weeks up to a meet that are printed; three years are
// further than anybody plans.
const longestSeason = 156

// Run prints the weeks to standard output.
func (c *weeksCommand) Run(p *place) error {
	if c.Demo {
		return printDemo(p.stdout)
	}
	s, err := c.season(planner.DateOf(p.now()))
	if err != nil {
		return err
	}
	return s.print(p.stdout)
}

// season is what the flags describe.
func (c *weeksCommand) season(today planner.Date) (season, error) {
	start := c.Start
	if start.IsZero() {
		start = today.OnOrAfter(time.Monday)
	}
	meet, err := c.meet(start)
	if err != nil {
		return season{}, err
	}
	l := planner.Lifter{Name: "A lifter", Category: c.Category, Born: c.Born, Bodyweight: planner.In(c.Unit, c.Bodyweight),
		Level: c.Level, Days: c.Days, Unit: c.Unit, HasCompeted: !c.FirstMeet}
	switch {
	case c.Days < 1 || c.Days > 6:
		return season{}, planner.Errorf(planner.Invalid, "Choose 2 to 6 days a week; one keeps most of what is there.", "--days=%d is outside 1 to 6", c.Days)
	case c.Bodyweight != 0 && (l.Bodyweight < 25*planner.Kilogram || l.Bodyweight > 350*planner.Kilogram):
		return season{}, planner.Errorf(planner.Invalid, "Weights are in kg; --unit lb changes that.", "--bodyweight=%g is outside 25 to 350 kg", c.Bodyweight)
	case !c.Born.IsZero() && (c.Born > start.AddDays(-8*365) || c.Born < start.AddDays(-100*366)):
		return season{}, planner.Errorf(planner.Invalid, "Write the date of birth as 1998-05-17.", "--born=%s makes nobody who trains", c.Born)
	}
	s := season{lifter: l, start: start, meet: meet, estimates: map[planner.Lift]load.Estimate{}, gym: load.Gym{Unit: c.Unit}, supervised: c.Supervised}
	if c.Careful {
		s.version = load.Cautious
	}
	for lift, best := range map[planner.Lift]float64{planner.Squat: c.Squat, planner.Bench: c.Bench, planner.Deadlift: c.Deadlift} {
		s.estimates[lift] = load.Estimate{Kg: planner.In(c.Unit, best).Kg(), Source: load.Claimed}
	}
	return s, nil
}

// meet is the meet that the flags name or count to.
func (c *weeksCommand) meet(start planner.Date) (planner.Meet, error) {
	m := planner.Meet{ID: 1, Name: "the meet", Date: c.Date, Kind: planner.Main, Event: c.Event}
	weeks := c.WeeksToMeet
	switch {
	case weeks != 0 && !c.Date.IsZero():
		return m, planner.Errorf(planner.Invalid, "Name one of them.", "--date and --weeks-to-meet both say when the meet is")
	case c.Date.IsZero() && weeks == 0:
		weeks = 16
	}
	if m.Date.IsZero() {
		if weeks < 1 || weeks > longestSeason {
			return m, planner.Errorf(planner.Invalid, "", "--weeks-to-meet=%d is outside 1 to %d", weeks, longestSeason)
		}
		m.Date = start.OnOrBefore(time.Monday).AddDays(7*weeks - 2)
	}
	if days := start.DaysUntil(m.Date); days < 1 || days > 7*longestSeason {
		return m, planner.Errorf(planner.Invalid, "Training begins on "+start.String()+"; --start changes that.",
			"a meet on %s is not within %d weeks after the start", m.Date, longestSeason)
	}
	return m, nil
}

// season is a lifter with one meet ahead and all that the weeks up to it depend on.
type season struct {
	lifter     planner.Lifter
	start      planner.Date
	meet       planner.Meet
	estimates  map[planner.Lift]load.Estimate
	gym        load.Gym
	version    load.Version
	supervised bool
}

// request is the best plan up to the meet and what its first week is made from.
func (s season) request() (load.Request, error) {
	plan, err := blocks.Build(blocks.Request{Lifter: s.lifter, Today: s.start, Rules: blocks.Rules{WeekStart: time.Monday}, Meets: []planner.Meet{s.meet}})
	if err != nil {
		return load.Request{}, err
	}
	return load.Request{Lifter: s.lifter, Today: s.start, WeekStart: time.Monday, Season: plan.Blocks, Meets: []planner.Meet{s.meet},
		Estimates: s.estimates, Gym: s.gym, Version: s.version, Supervised: s.supervised}, nil
}

// print writes who it is for and each week up to the meet. The maxes stay as they
// are: what a log would change is not foretold.
func (s season) print(w io.Writer) error {
	r, err := s.request()
	if err != nil {
		return err
	}
	if _, err := io.WriteString(w, s.heading()); err != nil {
		return err
	}
	for r.Today < s.meet.Date {
		p, err := load.Week(r)
		if err != nil {
			return err
		}
		if _, err := io.WriteString(w, "\n"+p.Text(s.lifter.Unit)); err != nil {
			return err
		}
		r.Today = r.Today.OnOrBefore(r.WeekStart).AddDays(7)
		if next := p.End.AddDays(1); next < r.Today {
			r.Today = next // the other block that begins within the week
		}
	}
	return nil
}

// heading says whose season it is.
func (s season) heading() string {
	l := s.lifter
	who := []string{string(l.Category), string(l.Level)}
	if !l.Born.IsZero() {
		who = append(who, fmt.Sprintf("%d years", planner.Age(l.Born, s.start)))
	}
	if l.Bodyweight > 0 {
		who = append(who, l.Bodyweight.Text(l.Unit))
	}
	who = append(who, fmt.Sprintf("%d days a week", l.Days))
	if !l.HasCompeted {
		who = append(who, "first meet")
	}
	var maxes []string
	for _, lift := range planner.CompetitionLifts() {
		if e := s.estimates[lift]; e.Kg > 0 {
			maxes = append(maxes, string(lift)+" "+planner.Kilograms(e.Kg).Text(l.Unit))
		} else {
			maxes = append(maxes, "no "+string(lift)+" max known")
		}
	}
	event := map[planner.EventKind]string{planner.Full: "full meet", planner.BenchOnly: "bench only", planner.PushPull: "push-pull", planner.DeadliftOnly: "deadlift only"}[s.meet.Event]
	return fmt.Sprintf("%s: %s\n%s; %s (%s) on %s\n", l.Name, strings.Join(who, ", "), strings.Join(maxes, ", "), s.meet.Name, event, s.meet.Date.Long())
}
