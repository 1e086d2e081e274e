package blocks

import (
	"time"

	"blockbell/planner"
)

// Rules are the club's settings that the planner needs.
type Rules struct {
	WeekStart    time.Weekday // the day on which training weeks begin
	WomenShorter bool         // plan one week less of peaking for women
}

// Running is the block that is under way on the day of the plan.
type Running struct {
	Kind  planner.BlockKind
	Start planner.Date // its true first day, on or before the day of the plan
}

// Past is a finished block: its kind (or Layoff) and its training weeks.
type Past struct {
	Kind  planner.BlockKind
	Weeks int
}

// Pin is a coach's decision that the planner keeps. Every field but one may be
// zero, which means "any".
type Pin struct {
	Ordinal int               // 1 for the first block of the plan; a running block is number 1
	Kind    planner.BlockKind // that block is of this kind
	Start   planner.Date      // a block begins in the training week of this day
	Weeks   int               // its training weeks in all, those done included
}

// Away is a time without training that a person told: both days inclusive. It may
// be over, under way or still to come. Under 7 days it changes nothing.
type Away struct {
	From planner.Date `json:"from"`
	To   planner.Date `json:"to"`
}

// Bound is a coach's or the club's cap on a kind of block: no block of it may go on
// beyond Max training weeks, and with Max 0 none begins. Source says whose it is,
// in words that fit behind "by", for example "the club"; empty is the coach.
type Bound struct {
	Kind   planner.BlockKind
	Max    int
	Source string
}

// Request is what a plan is made from.
type Request struct {
	Today   planner.Date
	Lifter  planner.Lifter
	Rules   Rules
	Meets   []planner.Meet
	Running *Running
	History []Past // finished blocks, oldest first; the last 52 weeks are replayed
	Pins    []Pin
	Bounds  []Bound
	Away    []Away
	// Agreed is the rest of the agreed plan, the running block first with its true
	// first day; empty where none is agreed. A new plan replaces it only where it
	// gains 0.25 % or the agreed one is no longer legal.
	Agreed []planner.Block
}

// Plan is the planner's whole answer.
type Plan struct {
	Blocks  []planner.Block      `json:"blocks"`
	Meets   []planner.SeasonMeet `json:"meets"`
	LeftOut []planner.BlockKind  `json:"left_out"` // kinds that the whole plan does without
	// LeftOutWhy says why, one sentence for each of LeftOut.
	LeftOutWhy []string `json:"left_out_why"`
	Relaxed    []string `json:"relaxed"` // rules that had to give way, and to what
	Notes      []string `json:"notes"`
	// SetBy says of each block what set its length where that was not the choice of
	// the planner.
	SetBy      []Setter      `json:"set_by"`
	Boundaries []Boundary    `json:"boundaries"`
	RunnersUp  []Alternative `json:"runners_up"`

	Objective float64 `json:"objective"`
	Parts     Score   `json:"parts"` // what the objective is added up from
	Marks     []Mark  `json:"marks"` // the days that count, and how much

	// Gains from today to the last main meet in percent, without one to the last
	// test day; strength and sharpening add up to the whole. Between low and high lie 8 of
	// 10 draws of the model's uncertain numbers, see Ranges. Nil beyond 52 weeks.
	GainPercent       *float64   `json:"gain_percent"`
	SharpeningPercent *float64   `json:"sharpening_percent"`
	StrengthPercent   *float64   `json:"strength_percent"`
	GainLow           *float64   `json:"gain_low"`
	GainHigh          *float64   `json:"gain_high"`
	MeetGains         []MeetGain `json:"meet_gains"`
	// RegainedPercent is how much of the gain only makes up for what past times away
	// took, in both its parts; between BeyondLow and BeyondHigh lie 8 of 10 draws of the
	// rest. Nil where nothing is to be made up for.
	RegainedPercent *float64 `json:"regained_percent,omitempty"`
	BeyondLow       *float64 `json:"beyond_low,omitempty"`
	BeyondHigh      *float64 `json:"beyond_high,omitempty"`

	Model Model `json:"model"`
	Limit Limit `json:"limit"`

	// Kept tells that these blocks are the agreed ones. KeepCostPercent is what
	// keeping the agreed plan costs against the best one, in hundredths of the
	// objective; nil where none was agreed or it is no longer legal. KeepWhy says
	// then in one sentence why not.
	Kept            bool     `json:"kept"`
	KeepCostPercent *float64 `json:"keep_cost_percent"`
	KeepWhy         string   `json:"keep_why,omitempty"`
}

// Setter is what set the length of a block.
type Setter string

// Setters; empty is the planner's own choice.
const (
	SetByHand  Setter = "hand"  // a pin
	SetByBound Setter = "bound" // it is as long as a bound allows
	SetByAway  Setter = "away"  // a time away ends it
	SetByPast  Setter = "past"  // it has run for so long already
)

// MeetGain is the gain from today to one meet, in percent. At a test day it is that
// of strength alone.
type MeetGain struct {
	Date       planner.Date `json:"date"`
	Percent    float64      `json:"percent"`
	Sharpening float64      `json:"sharpening_percent"`
	Strength   float64      `json:"strength_percent"`
	Regained   float64      `json:"regained_percent"` // of it: makes up for past times away
}

// Boundary is the first day of a block that follows another, and what moving it
// by one week costs in hundredths of the objective while only its two neighbours
// change. A direction the rules close is nil.
type Boundary struct {
	Date    planner.Date `json:"date"`
	Earlier *float64     `json:"earlier_cost_percent"`
	Later   *float64     `json:"later_cost_percent"`
	Binding string       `json:"binding,omitempty"` // which rule closes a direction
}

// Alternative is a runner-up: another sequence of kinds, or the same with a
// block at least two weeks longer or shorter.
type Alternative struct {
	Blocks      []planner.Block `json:"blocks"`
	Objective   float64         `json:"objective"`
	CostPercent float64         `json:"cost_percent"` // 100 x (objective of the plan - its own), never below 0
}

// Build lays out the blocks from the day of the request to the last main meet
// on the calendar, without one to the last test day, or one rolling cycle where
// neither is known. Errors are
// *planner.Error: Invalid for a request that makes no sense, Impossible where
// pins or dates leave no plan.
func Build(r Request) (Plan, error) {
	if err := check(r); err != nil {
		return Plan{}, err
	}
	season, err := newSeason(r)
	if err != nil {
		return Plan{}, err
	}
	found, err := season.solve()
	if err != nil {
		return Plan{}, err
	}
	found, keep := season.keep(found)
	p := season.answer(found)
	p.Kept, p.KeepCostPercent, p.KeepWhy = keep.kept, keep.cost, keep.why
	return p, nil
}
