package blocks

import (
	"math"
	"time"

	"blockbell/planner"
)

// Model is everything needed to score a sequence of blocks: the parameters after
// all individual factors were applied, and the state on the day of the plan. Its
// numbers are judgement shaped to reproduce practice and published rates of
// progress; they are not measurements. Masses appear nowhere: every quantity is
// a natural logarithm relative to the strength realised today.
//
// Arrays run in the order hypertrophy, strength, peaking, recovery. Time
// constants and lengths are in training weeks.
type Model struct {
	Level   planner.Level `json:"level"`
	Rm      float64       `json:"rm"`    // muscle gained by a full week of hypertrophy
	Rc      float64       `json:"rc"`    // general strength skill gained by a full week of strength work
	TauOn   float64       `json:"tauOn"` // how long a new stimulus takes to pay
	TauAcc  [3]float64    `json:"tauAcc"`
	TauG    float64       `json:"tauG"` // strength closes on muscle + skill: in strength blocks,
	TauH    float64       `json:"tauH"` // in hypertrophy (0: not at all),
	TauP    float64       `json:"tauP"` // in peaking
	Dm      float64       `json:"dm"`   // muscle lost by a week of peaking after the grace weeks
	DS      float64       `json:"dS"`   // strength given up by a week of hypertrophy
	Grace   int           `json:"grace"`
	ET      [4]float64    `json:"eT"`
	ETau    [4]float64    `json:"eTau"`
	Lambda  float64       `json:"lambda"` // worth of muscle carried past the end
	Kappa   float64       `json:"kappa"`  // weight of the preference for usual lengths
	L0      [3]float64    `json:"L0"`     // usual lengths
	Limit   int           `json:"limit"`  // longest peaking block before the first main meet, in weeks
	Weights Weights       `json:"weights"`
	// A first run-up of LeftOutFrom weeks or more without hypertrophy pays
	// LeftOutCost once.
	LeftOutCost float64 `json:"leftOutCost"`
	LeftOutFrom int     `json:"leftOutFrom"`
	// TuneUpCost is paid for each tune-up on a day of a hypertrophy block: 0.1 %, below
	// which plans are the same to nature, so that a practice meet moves no long block.
	TuneUpCost float64 `json:"tuneUpCost"`
	// From the week StaleAfter of one block on (counted from 0), strength falls
	// by StaleLoss a week.
	StaleAfter int          `json:"staleAfter"`
	StaleLoss  float64      `json:"staleLoss"`
	WeekStart  time.Weekday `json:"weekStart"` // Sunday = 0
	Start      Start        `json:"start"`
	// RunUp is the first day of the run-up to the first main meet, which LeftOutFrom
	// and LeftOutCost look at: the day of the plan, or the first day back from the
	// last time away of 28 days or more before it; zero without a main meet.
	RunUp planner.Date `json:"runUp,omitzero"`
	// Away are the weeks ahead that are not trained; each runs in place of a week of
	// the block around it.
	Away []AwayWeek `json:"away"`
}

// Weights says how much each kind of meet counts. Main and tune-up weigh the
// performance s + e, a test weighs s alone.
type Weights struct {
	Main   float64 `json:"main"`
	TuneUp float64 `json:"tuneUp"`
	Test   float64 `json:"test"`
}

// State is a lifter in the model's four numbers: muscle, general strength skill,
// strength realised, and expression of the single (0: fully sharp, below 0: not).
type State struct {
	M float64 `json:"m"`
	C float64 `json:"c"`
	S float64 `json:"s"`
	E float64 `json:"e"`
}

// Start is the state on the day of the plan and the block that runs on it.
type Start struct {
	State
	Date  planner.Date      `json:"date"`
	Block planner.BlockKind `json:"block"` // "" where none runs
	Week  int               `json:"week"`  // training weeks of it already begun
	// Hypertrophy tells that the run-up under way has had hypertrophy already:
	// the running block, or one before it since the last peaking or recovery.
	// Where no block runs a new run-up begins.
	Hypertrophy bool `json:"hypertrophy"`
	// Lost is what past times away took and is not made up for yet.
	Lost Lost `json:"lost"`
}

// AwayWeek is a week without training: its first day, and how many weeks of the same
// time away came before it.
type AwayWeek struct {
	Start planner.Date `json:"start"`
	Week  int          `json:"week"`
}

// Layoff names, in a history only, weeks without training.
const Layoff planner.BlockKind = "layoff"

// order of the arrays of a Model.
const (
	iH = iota
	iS
	iP
	iR
	iLayoff
)

func index(k planner.BlockKind) int {
	switch k {
	case planner.Hypertrophy:
		return iH
	case planner.Strength:
		return iS
	case planner.Peaking:
		return iP
	case planner.Recovery:
		return iR
	}
	return iLayoff
}

// kindAt is the kind of block, or Layoff, at a place in the arrays.
func kindAt(k int) planner.BlockKind {
	if k == iLayoff {
		return Layoff
	}
	return kindOf[k]
}

var kindOf = [...]planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery}

// Constants of the model that no level changes.
const (
	unknownE       = -0.02 // expression of a lifter of whom nothing is known
	unknownENovice = -0.01
	recoveryTau    = 3.0
	layoffE        = -0.06 // where expression heads without training
	layoffTau      = 3.0
	layoffS        = 0.02  // strength lost by a week away, from the fifth on (Mujika and Padilla 2001: kept about four weeks)
	layoffM        = 0.015 // muscle lost by a week away, from the third on
)

// levelModel returns the neutral lifter of a level; new lifters are planned as
// novices. The numbers were tuned together until every row of the calibration
// tests held: rates against a year's progress in the literature, the rest against
// lengths of blocks in practice.
func levelModel(level planner.Level) Model {
	m := Model{
		Level: level, TauOn: 3, TauAcc: [3]float64{20, 16, 12}, Grace: 3, Lambda: 0.5, Kappa: 0.004,
		Weights:     Weights{Main: 1, TuneUp: 0.1, Test: 0.5},
		LeftOutCost: 0.004, LeftOutFrom: 11, TuneUpCost: 0.001, StaleAfter: 16, StaleLoss: 0.0005,
	}
	switch level {
	case planner.Intermediate:
		m.Rm, m.Rc, m.TauG, m.TauP, m.Dm, m.DS = 0.0017, 0.0017, 5, 14, 0.0020, 0.0010
		m.ETau, m.ET = [4]float64{3, 3, 3, recoveryTau}, [4]float64{-0.04, -0.018, 0, -0.03}
		m.L0 = [3]float64{8, 6, 4}
	case planner.Advanced:
		m.Rm, m.Rc, m.TauG, m.TauP, m.Dm, m.DS = 0.00073, 0.00084, 6.2, 16, 0.0012, 0.00082
		m.Kappa = 0.0029
		m.ETau, m.ET = [4]float64{3, 3.5, 3.5, recoveryTau}, [4]float64{-0.05, -0.02, 0, -0.03}
		m.L0 = [3]float64{8, 6, 5}
	case planner.Elite:
		m.Rm, m.Rc, m.TauG, m.TauP, m.Dm, m.DS = 0.0005, 0.0003, 6, 18, 0.0008, 0.0005
		m.Kappa = 0.002
		m.ETau, m.ET = [4]float64{3, 4, 4.2, recoveryTau}, [4]float64{-0.05, -0.02, 0, -0.03}
		m.L0 = [3]float64{6, 7, 6}
	default: // new and novice
		m.Rm, m.Rc, m.TauG, m.TauP, m.Dm, m.DS = 0.0035, 0.0034, 4, 12, 0.0040, 0
		m.TauH, m.Kappa = 8, 0.008
		m.ETau, m.ET = [4]float64{3, 2, 1.5, recoveryTau}, [4]float64{-0.01, -0.01, 0, -0.02}
		m.L0 = [3]float64{6, 8, 3}
	}
	return m
}

// NewModel returns the model of a lifter on a day, without history: the level's
// parameters scaled by the individual factors. No factor depends on the state,
// which is what keeps the optimum exact.
//
//   - room in the class: rm x (0.5 + 0.5 min(1, room / 4 % of the class limit)),
//     where class limit and bodyweight are known and the class has a limit;
//   - 60 years and older: rm x 0.6, rc x 0.8, dm x 1.5;
//   - light lifters and the women-shorter habit: eTau of peaking x 0.85.
func NewModel(l planner.Lifter, on planner.Date, r Rules) Model {
	m := levelModel(l.PlannedLevel())
	m.Rm *= roomFactor(l)
	if planner.Age(l.Born, on) >= oldAge {
		m.Rm *= 0.6
		m.Rc *= 0.8
		m.Dm *= 1.5
	}
	if lightRow(l) || womenRow(l, r) {
		m.ETau[iP] *= 0.85
	}
	m.Limit = PeakingLimit(l, on, r).Weeks
	m.WeekStart = r.WeekStart
	m.Start = Start{Date: on, State: State{E: m.unknownE()}}
	return m
}

func roomFactor(l planner.Lifter) float64 {
	if l.Class.IsZero() || l.Class.Plus || l.Bodyweight == 0 {
		return 1
	}
	room := float64(l.Class.Limit-l.Bodyweight) / (0.04 * float64(l.Class.Limit))
	return 0.5 + 0.5*math.Max(0, math.Min(1, room))
}

func (m Model) novice() bool { return m.Level == planner.Novice || m.Level == planner.New }

func (m Model) unknownE() float64 {
	if m.novice() {
		return unknownENovice
	}
	return unknownE
}

// stimulus is phi, the worth of week w (from 0) of a block:
// (1 - exp(-(w+1)/tauOn)) exp(-w/tauAcc). The first weeks pay little, late ones
// less and less.
func (m Model) stimulus(kind, w int) float64 {
	return (1 - math.Exp(-float64(w+1)/m.TauOn)) * math.Exp(-float64(w)/m.TauAcc[kind])
}
