package blocks

import (
	"fmt"

	"blockbell/planner"
)

// Explanation says in plain sentences why a plan is as it is.
type Explanation struct {
	Blocks     []BlockWhy    `json:"blocks"`     // one for each block of the plan
	Boundaries []BoundaryWhy `json:"boundaries"` // one for each of Plan.Boundaries
	// Trade says what the plan gives up at its last main meet for muscle in the next
	// cycle; empty where no plan at hand brings more there.
	Trade   string   `json:"trade,omitempty"`
	Limit   string   `json:"limit"`    // the longest peaking, and how it comes about
	LeftOut []string `json:"left_out"` // what the plan does without, and why
}

// BlockWhy says why one block is as long as it is, and what to keep up in it.
type BlockWhy struct {
	Kind     planner.BlockKind `json:"kind"`
	Start    planner.Date      `json:"start"`
	Sentence string            `json:"sentence"`
	// Upkeep says how much muscle work stays in strength and peaking; empty elsewhere.
	Upkeep string `json:"upkeep,omitempty"`
}

// BoundaryWhy says what one week earlier or later would cost.
type BoundaryWhy struct {
	Date     planner.Date `json:"date"`
	Sentence string       `json:"sentence"`
	Earlier  *Move        `json:"earlier"` // nil where the rules close the direction
	Later    *Move        `json:"later"`
}

// Move is a boundary moved by one week.
type Move struct {
	CostPercent float64  `json:"cost_percent"` // in hundredths of the objective; below 0 it would gain
	CostKg      *float64 `json:"cost_kg"`      // the same share of the total; nil where that is unknown
	MeetPercent float64  `json:"meet_percent"` // how much more it brings at the last main meet
	Why         string   `json:"why"`          // what is lost, and what is won for it
}

// tightRoom is the share of muscle growth left by the room in a class from which on that
// is told as a reason: a quarter of it is gone.
const tightRoom = 0.75

// explaining is an explanation under way.
type explaining struct {
	Plan
	by     yardstick
	old    bool // 60 or older
	tight  bool // the class leaves little room for muscle
	bounds []Bound
	limits map[planner.Date]int // of peaking in weeks, by the day of the meet it is for
	goal   int                  // mark that gains are told at
	at     []State
	// toldSmall: it is said that small costs make no difference.
	toldSmall bool
}

// Explain says why a plan that Build made for a request is as it is. The lifter's
// maxima in the request should be the present estimates: costs are told as shares of
// their total, and in percent where one is unknown.
func Explain(p Plan, r Request) Explanation {
	x := explaining{Plan: p, bounds: r.Bounds, goal: -1}
	x.old = planner.Age(r.Lifter.Born, p.Model.Start.Date) >= oldAge
	for i, mk := range p.Marks {
		if mk.Kind == planner.Main || x.goal < 0 || p.Marks[x.goal].Kind != planner.Main {
			x.goal = i
		}
	}
	x.tight = roomFactor(r.Lifter) <= tightRoom
	x.limits = limitsOf(r)
	x.at = p.Model.trace(p.Blocks, p.Marks)
	x.by = measure(r.Lifter, x.event(r.Meets))
	e := Explanation{Blocks: []BlockWhy{}, Boundaries: []BoundaryWhy{}, Trade: x.trade(), Limit: x.limit(), LeftOut: []string{}}
	for i := range p.Blocks {
		e.Blocks = append(e.Blocks, x.block(i))
	}
	for _, b := range p.Boundaries {
		e.Boundaries = append(e.Boundaries, x.boundary(b))
	}
	e.LeftOut = append(e.LeftOut, p.LeftOutWhy...)
	if len(e.LeftOut) == 0 { // a plan kept from before reasons were kept with it
		for _, k := range p.LeftOut {
			e.LeftOut = append(e.LeftOut, fmt.Sprintf("This plan has no %s.", screenName(index(k))))
		}
	}
	return e
}

func (x *explaining) event(meets []planner.Meet) planner.EventKind {
	for _, m := range meets {
		if x.goal >= 0 && m.Date == x.Marks[x.goal].Date {
			return m.Event
		}
	}
	return planner.Full
}

// goalName is the meet that gains are told at.
func (x *explaining) goalName() string {
	if x.goal < 0 || x.Marks[x.goal].Virtual {
		return "the test of strength"
	}
	return x.nameOf(x.Marks[x.goal].Date)
}

func (x *explaining) nameOf(day planner.Date) string {
	for _, m := range x.Meets {
		if m.Date == day && m.Name != "" {
			return m.Name
		}
	}
	return "the meet on " + day.Short()
}

// bring is how much more percent a state brings at the goal than the plan does.
func (x *explaining) bring(at []State) float64 {
	if x.goal < 0 {
		return 0
	}
	kind := x.Marks[x.goal].Kind
	a, _, _ := x.Model.gain(x.Model.told(kind, at[x.goal]))
	b, _, _ := x.Model.gain(x.Model.told(kind, x.at[x.goal]))
	return a - b
}

// trade finds the plan at hand that brings most at the goal, and says why it was not
// chosen.
func (x *explaining) trade() string {
	if x.goal < 0 || x.Marks[x.goal].Kind != planner.Main || x.Kept {
		return ""
	}
	best, most := -1, plainDifference
	for i, alt := range x.RunnersUp {
		at := x.Model.trace(alt.Blocks, x.Marks)
		if more := x.bring(at); more > most && at[len(at)-1].M < x.at[len(x.at)-1].M {
			best, most = i, more
		}
	}
	if best < 0 {
		return ""
	}
	return fmt.Sprintf("%s would give about %s more at %s. I still prefer this plan: it leaves more muscle for the next cycle.",
		capital(inWords(x.RunnersUp[best].Blocks)), x.by.amount(most), x.goalName())
}

// inWords lists blocks as a person would say them.
func inWords(blocks []planner.Block) string {
	var parts []string
	for _, b := range blocks {
		if b.Weeks > 0 {
			parts = append(parts, fmt.Sprintf("%s of %s", plural(b.Weeks), [...]string{"muscle work", "strength", "peaking", "recovery"}[index(b.Kind)]))
		}
	}
	return list(parts)
}

// by names whose bound it is.
func (b Bound) by() string {
	if b.Source == "" {
		return "the coach"
	}
	return b.Source
}
