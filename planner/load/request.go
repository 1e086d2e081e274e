package load

import (
	"slices"

	"blockbell/planner"
	"blockbell/planner/strength"
)

// Source says where an estimated max comes from.
type Source string

// From the trend of logged sets, told by the lifter, or the lifter's own variant.
const (
	Trend   Source = "trend"
	Claimed Source = "claimed"
)

// Estimate is what a lifter could lift once, in kg, with its standard deviation.
// A claimed one is taken at 95 % (common practice).
type Estimate struct {
	Kg, SD float64
	Source Source
}

// claimedShare is how much of a max nobody has seen is believed.
const claimedShare = 0.95

// Max returns the kg to reckon with.
func (e Estimate) Max() float64 {
	if e.Source == Claimed {
		return e.Kg * claimedShare
	}
	return e.Kg
}

// Version is how much a plan asks for.
type Version string

// The usual plan, and one without maximal work that anyone may choose unasked.
const (
	Standard Version = ""
	Cautious Version = "cautious"
)

// Off takes a lift off the plan from From to the day before Until.
type Off struct {
	Lift        planner.Lift
	From, Until planner.Date
}

// Request is everything a week depends on. Lifter, Today and Season (or Block)
// are needed, the rest may be zero.
type Request struct {
	Lifter    planner.Lifter
	Today     planner.Date    // the week that holds this day is planned
	WeekStart planner.Weekday // first day of the club's training week
	// Season holds the blocks of the agreed plan in order; Block is the running
	// one, and found by Today where it is zero.
	Season []planner.Block
	Block  planner.Block
	// Since is when a new lifter began. Without a season new lifters learn the lifts
	// from then on; zero: they begin this week.
	Since planner.Date
	Meets []planner.Meet // of the lifter, past ones too
	// Estimates by competition lift; a lift without one is found in its first week.
	Estimates map[planner.Lift]Estimate
	// Recent holds the logged sets of the last three weeks or more; nil: unknown.
	Recent []planner.Set
	// Aways are the times away that were told, in any order: weeks away are no weeks of
	// a block, and after the last one training begins lower.
	Aways []planner.Away
	Off   []Off
	Gym   Gym
	// Training holds the weekdays of training; empty: spread by Lifter.Days.
	Training []planner.Weekday
	Version  Version
	// Supervised: a coach vouches for a lifter under 18: technique proven, supervised.
	Supervised bool
	Equation   strength.Equation

	Table     *Table     // the club's own week for this kind of block; nil: the bot's
	Overrides []Override // the coach's changes for this lifter
	// Previous is last week's plan as it was shown: loads stay within a step of it.
	// Where nil it is made again from the same estimates, for what changed.
	Previous *Plan
}

// defaultDays is how often a lifter trains who has not said so.
const defaultDays = 3

// check refuses what no week can be made of.
func (r Request) check() error {
	if r.Today.IsZero() {
		return planner.Errorf(planner.Invalid, "", "A week needs a day")
	}
	if r.Lifter.Days < 0 || r.Lifter.Days > 6 {
		return planner.Errorf(planner.Invalid, "Choose 2 to 6 days a week.",
			"%d training days a week are outside 1 to 6", r.Lifter.Days)
	}
	if len(r.Training) > 6 || len(r.weekdays()) < len(r.Training) {
		return planner.Errorf(planner.Invalid, "Name 1 to 6 different weekdays.", "These training days are more than 6 or name one twice")
	}
	for _, lift := range planner.CompetitionLifts() {
		if err := checkEstimate(lift, r.Estimates[lift]); err != nil {
			return err
		}
	}
	if _, err := strength.ParseEquation(string(r.Equation)); err != nil {
		return err
	}
	for _, o := range r.Overrides {
		if err := o.check(); err != nil {
			return err
		}
	}
	return r.Gym.check()
}

// checkEstimate refuses maxes nobody has lifted; 0 is no estimate.
func checkEstimate(lift planner.Lift, e Estimate) error {
	if e.Kg == 0 || e.Kg >= 1 && e.Kg <= planner.MaxWeight.Kg() {
		return nil
	}
	return planner.Errorf(planner.Invalid, "Check the max.", "%s: a max of %g kg is outside 1 to %g kg",
		lift, e.Kg, planner.MaxWeight.Kg())
}

// weekdays returns the training days in the order of the club's week.
func (r Request) weekdays() []planner.Weekday {
	days := slices.Clone(r.Training)
	if len(days) == 0 {
		n := r.Lifter.Days
		if n == 0 {
			n = defaultDays
		}
		for _, offset := range spread[n] {
			days = append(days, (r.WeekStart+planner.Weekday(offset))%7)
		}
	}
	slices.SortFunc(days, func(a, b planner.Weekday) int { return r.offset(a) - r.offset(b) })
	return slices.Compact(days)
}

// offset returns how many days after the start of the club's week w comes.
func (r Request) offset(w planner.Weekday) int { return (int(w) - int(r.WeekStart) + 7) % 7 }

// spread lays training days over a week, as days after its start.
var spread = map[int][]int{1: {0}, 2: {0, 3}, 3: {0, 2, 4}, 4: {0, 1, 3, 5}, 5: {0, 1, 2, 4, 5}, 6: {0, 1, 2, 3, 4, 5}}

// block returns the running block.
func (r Request) block() (planner.Block, error) {
	if r.Block.Weeks > 0 || r.Block.Kind != "" {
		return r.Block, nil
	}
	if i := planner.At(r.Season, r.Today); i >= 0 {
		return r.Season[i], nil
	}
	if r.Lifter.PlannedLevel() == planner.New && len(r.Season) == 0 {
		return r.learning(), nil
	}
	return planner.Block{}, planner.Errorf(planner.NotFound, "Lay out a season first, then every week follows from it.",
		"No block runs on %s", r.Today.Short())
}

// learningWeeks is how long a new lifter learns the lifts before there is a plan
// (common practice: 8 to 12).
const learningWeeks = 12

// learning is the run of weeks of a new lifter who has no season.
func (r Request) learning() planner.Block {
	start := r.Since
	if start.IsZero() || start > r.Today {
		start = r.Today
	}
	start = start.OnOrBefore(r.WeekStart)
	return planner.Block{Kind: planner.Hypertrophy, Start: start, End: start.AddDays(7*learningWeeks - 1), Weeks: learningWeeks}
}

// around returns the blocks before and after b in the season, zero where none.
func (r Request) around(b planner.Block) (before, after planner.Block) {
	for _, s := range r.Season {
		if s.Start < b.Start {
			before = s
		}
		if s.Start > b.Start && after.Kind == "" {
			after = s
		}
	}
	return before, after
}
