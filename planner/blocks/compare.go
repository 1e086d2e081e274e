package blocks

import (
	"fmt"
	"math"
	"slices"

	"blockbell/planner"
)

// Role says what a row of a comparison is.
type Role string

// The rows of a comparison, in this order.
const (
	Optimum  Role = "best"      // the planner's own choice
	RunnerUp Role = "other"     // another shape
	Held     Role = "held"      // what Build proposes where the running block goes on as agreed
	Agreed   Role = "agreed"    // the plan that runs
	Own      Role = "own split" // a coach's
)

// Row is one plan of a comparison.
type Row struct {
	Role   Role            `json:"role"`
	Split  Split           `json:"split"` // a running block with its whole length
	Blocks []planner.Block `json:"blocks"`

	Objective   float64 `json:"objective"`
	CostPercent float64 `json:"cost_percent"` // 100 x (objective of the best - its own); below 0 only where a rule is broken
	// Gains are those of the days that count, in order of date; Goal is the index of
	// the one told first: the last main meet, without one the last test day. Gains
	// of more than a year ahead are left out; Goal is -1 where none is left.
	Gains []Gain `json:"gains"`
	Goal  int    `json:"goal"`
	// MeetPercent is how much more the plan brings at the goal than the best one, in
	// percentage points; below 0 it brings less. 0 where there is no goal.
	MeetPercent float64 `json:"meet_percent"`

	// Same tells that a person could not tell the plan from the best one: neither the
	// objective nor any main meet differs by 0.5 % or 2.5 kg of total.
	Same bool `json:"same"`
	// Share is the share of draws in which the plan has the higher objective than the
	// best one; equal ones count half, so it is 0.5 for the best itself. Of
	// the best it is told against the first runner-up in Comparison.
	Share   float64 `json:"share"`
	TossUp  bool    `json:"toss_up"` // the share lies in 0.35 to 0.65
	Verdict string  `json:"verdict"` // the difference in one sentence

	// Broken says why the planner would not choose the plan, one sentence each; empty
	// where it keeps the rules. Breaches are the same for programs.
	Broken   []string `json:"broken"`
	Breaches []Breach `json:"breaches"`
	Risks    []string `json:"risks"` // what is at stake, one sentence each
	// Pins, given to Build, ask for these blocks. A plan that breaks no rule but on
	// lengths a coach may fix is then the one Build makes; of other breaches Build
	// says what stands against them.
	Pins []Pin `json:"-"`
}

// Comparison holds plans for the same weeks against each other.
type Comparison struct {
	Rows   []Row   `json:"rows"`
	Weeks  int     `json:"weeks"` // training weeks to lay out
	Draws  int     `json:"draws"`
	Ranges []Range `json:"ranges"`
	// BeatsRunnerUp is the share of draws in which the best plan has the higher
	// objective than the first runner-up; nil where there is none.
	BeatsRunnerUp *float64 `json:"beats_runner_up"`
	// Notes say how splits were read and what could not be compared.
	Notes []string `json:"notes"`
	Model Model    `json:"model"`
	// Refused are the splits that CompareEach left out.
	Refused []Refused `json:"-"`
}

// maxOwn is how many splits one comparison takes.
const maxOwn = 6

// Differences under these are none to a lifter, as the noise of a tested maximum is
// 2 to 4 % (Grgic et al. 2020): percent, and mass of the total.
const (
	samePercent = 0.5
	sameMass    = 2500
)

// Shares between these are a toss-up.
const (
	tossLow  = 0.35
	tossHigh = 0.65
)

// Compare scores the best plan, the nearest plans of another shape, the agreed plan
// where the request has one, and the given splits, all under the same draws of the
// model's uncertain numbers. Fixed plans are scored again under each draw, not
// optimised again. Errors are those of Build, and Invalid for a split that does not
// add up, Impossible for peaking with nothing to peak for. The lifter's maxima should be the
// present estimates: masses are told as shares of their total.
func Compare(r Request, own []Split) (Comparison, error) {
	c, err := CompareEach(r, own)
	if err == nil && len(c.Refused) > 0 {
		return Comparison{}, c.Refused[0].Err
	}
	return c, err
}

// CompareEach is Compare that leaves out splits which cannot be compared and says why, in
// place of failing for their sake.
func CompareEach(r Request, own []Split) (Comparison, error) {
	if err := check(r); err != nil {
		return Comparison{}, err
	}
	s, err := newSeason(r)
	if err != nil {
		return Comparison{}, err
	}
	f, err := s.solve()
	if err != nil {
		return Comparison{}, err
	}
	if len(own) > maxOwn {
		return Comparison{}, planner.Errorf(planner.Invalid, "Compare fewer at a time.", "%d splits: at most %d are compared at once", len(own), maxOwn)
	}
	o := f.loosened
	o.free = true
	c := comparing{season: s, by: measure(s.Lifter, s.days[s.end().AddDays(1)].Event), best: f, free: s.newGraph(o), own: s.model.tabled(), models: s.models(sampleSize, Ranges())}
	next, k := s.keep(f)
	c.held, c.runsOn = next, !k.kept && !slices.Equal(next.steps, f.steps)
	c.addAll(own)
	return c.result(), nil
}

// comparing is a comparison under way.
type comparing struct {
	*season
	by       yardstick
	best     found
	held     found  // what Build proposes instead
	runsOn   bool   // it does
	free     *graph // every legal order of kinds
	own      draw   // the model itself
	models   []draw
	rows     []Row
	first    sampled // the best plan under every draw
	firstOwn outcome // and under the model itself
	beats    *float64
	notes    []string
	refused  []Refused
}

// Refused is a split that cannot be compared, and why: an error as Compare has it.
type Refused struct {
	Split Split
	Err   error
}

func (c *comparing) addAll(own []Split) {
	c.add(Optimum, placing{steps: c.best.steps})
	for i, steps := range c.otherShapes(c.best) {
		c.add(RunnerUp, placing{steps: steps})
		if i == 0 {
			share := 1 - c.rows[len(c.rows)-1].Share
			c.beats = &share
		}
	}
	c.addHeld()
	c.addAgreed()
	for _, sp := range own {
		if err := c.addOwn(sp); err != nil {
			c.refused = append(c.refused, Refused{sp, err})
		}
	}
}

// addOwn adds a coach's split.
func (c *comparing) addOwn(sp Split) error {
	if len(sp) == 0 {
		return planner.Errorf(planner.Invalid, splitHint, "the split is empty")
	}
	if err := c.peakless(sp); err != nil {
		return err
	}
	p, err := c.place(sp)
	if err != nil {
		return err
	}
	if p.rest {
		c.notes = append(c.notes, fmt.Sprintf("%s was read as the weeks still to come; %s of the first block are done.", sp, plural(c.done)))
	}
	c.add(Own, p)
	return nil
}

// addHeld adds the plan that Build proposes in place of the best one, because the
// running block goes on as agreed.
func (c *comparing) addHeld() {
	if c.runsOn {
		c.add(Held, placing{steps: c.held.steps})
	}
}

// addAgreed adds the agreed plan, or says why it cannot be compared.
func (c *comparing) addAgreed() {
	if len(c.Agreed) == 0 {
		return
	}
	steps, why := c.agreedSteps(c.Agreed)
	if why == "" {
		if f, ok := c.legal(c.best, steps); ok {
			c.add(Agreed, placing{steps: f.steps})
			return
		}
		if p, err := c.place(splitOf(steps)); err == nil {
			c.add(Agreed, p)
			return
		}
		why, _ = c.whyIllegal(steps)
	}
	c.notes = append(c.notes, "The agreed plan is not compared. "+why)
}

func splitOf(steps []step) (sp Split) {
	for _, b := range steps {
		if b.total > 0 && !(b.running && b.weeks == 0) {
			sp = append(sp, Part{kindOf[b.kind], b.total})
		}
	}
	return sp
}

// add scores one plan and appends its row.
func (c *comparing) add(role Role, p placing) {
	p.steps = c.rested(p.steps)
	blocks := c.laid(p.steps)
	play := c.playing(blocks)
	own, draws := c.outcome(play, &c.own), c.sample(play, c.models)
	if role == Optimum {
		c.first, c.firstOwn = draws, own
	}
	row := Row{Role: role, Split: SplitOf(blocks), Blocks: blocks, Objective: own.objective, Goal: -1, Broken: []string{}, Breaches: []Breach{}, Pins: c.pinsOf(p.steps)}
	row.CostPercent = 100 * (c.firstOwn.objective - own.objective)
	row.Share = draws.beats(c.first)
	row.TossUp = role != Optimum && row.Share >= tossLow && row.Share <= tossHigh
	c.addGains(&row, own, draws)
	if role == Agreed || role == Own {
		row.Breaches = append(row.Breaches, c.breaches(p)...)
		row.Broken = sentences(row.Breaches)
	}
	row.Risks = distinct(c.risks(p.steps, row))
	row.Verdict = c.verdict(row)
	c.rows = append(c.rows, row)
}

// laid puts dates on steps. Behind a legal peak a day is left for its meet; a split may
// peak where none is, and then its next block begins at once.
func (c *comparing) laid(steps []step) []planner.Block {
	blocks := c.blocks(steps)
	for i := 1; i < len(blocks); i++ {
		next := blocks[i-1].End.AddDays(1)
		if _, meet := c.days[next]; !meet && blocks[i-1].Kind == planner.Peaking && blocks[i].Start == next.AddDays(1) {
			blocks[i].Start = next
		}
	}
	return blocks
}

// addGains tells the gains of a row, and whether it is the same as the best one.
func (c *comparing) addGains(row *Row, own outcome, draws sampled) {
	worst := row.CostPercent
	for i, mk := range c.marks {
		if c.after[i] > longestGain || mk.Kind == planner.TuneUp {
			continue
		}
		row.Gains = append(row.Gains, draws.gain(own, mk, i))
		more := own.gains[i][0] - c.firstOwn.gains[i][0]
		if mk.Kind == planner.Main || c.rolling() {
			worst = max(worst, math.Abs(more))
			row.Goal, row.MeetPercent = len(row.Gains)-1, more
		}
	}
	row.Same = worst < c.by.noDifference()
}

// pinsOf asks for the same blocks. A running block counts as the first, also where
// no training week is left to it.
func (s *season) pinsOf(steps []step) (pins []Pin) {
	first := 1
	if s.Running != nil && s.stretches[0].weeks() == 0 {
		first = 2
	}
	for i, b := range steps {
		if b.total > 0 {
			pins = append(pins, Pin{Ordinal: first + i, Kind: kindOf[b.kind], Weeks: b.total})
		}
	}
	return pins[:min(len(pins), maxPins)]
}

func (c *comparing) result() Comparison {
	return Comparison{
		Rows: c.rows, Weeks: len(c.weeks), Draws: len(c.models), Ranges: Ranges(),
		BeatsRunnerUp: c.beats, Notes: append([]string{}, c.notes...), Model: c.model, Refused: c.refused,
	}
}

// peakNeedsMeet is why nobody peaks without a meet (common practice).
const peakNeedsMeet = "peaking shows strength on one day, and without that day muscle is lost for nothing"

// peakless refuses peaking in a split where no meet and no test day lies ahead.
func (c *comparing) peakless(sp Split) error {
	if !c.rolling() || len(c.stops) > 0 || c.testClosed() {
		return nil
	}
	i := slices.IndexFunc(sp, func(p Part) bool { return p.Kind == planner.Peaking })
	if i < 0 || i == 0 && c.goesOn(sp) {
		return nil
	}
	return planner.Errorf(planner.Impossible, "Add the meet first, or let the split end with strength.",
		"the split %s peaks, but there is no meet: %s", sp, peakNeedsMeet)
}
