package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// BlockView is what the answer to 'where am I' is made from.
type BlockView struct {
	Lifter     planner.Lifter
	Today      planner.Date
	HasPlan    bool
	Proposal   bool     // a plan waits for a yes
	ForCoach   bool     // it is the coach's yes that is missing
	JustLifted bool     // a main meet lies a few days back
	Told       []string // what time away and lifts off the plan mean today
	Away       bool     // is away today, as told
	Season     planner.Season
	At         planner.Standing
	Meet       *planner.Meet // the next one
	Limit      blocks.Limit  // of peaking
	Long       []string      // what is to be said of peaking past its limit, for the lifter's and their coach's eyes
}

// blockData is the answer to /block for programs.
type blockData struct {
	Block *runningData `json:"block"`
	Next  *nextData    `json:"next"`
	Meet  *meetData    `json:"meet"`
}

type runningData struct {
	Kind     planner.BlockKind `json:"kind"`
	Start    planner.Date      `json:"start"`
	End      planner.Date      `json:"end"`
	Week     int               `json:"week"`
	Weeks    int               `json:"weeks"`
	DaysLeft int               `json:"days_left"`
	Day      int               `json:"day"`
	Overdue  int               `json:"overdue_days"`
	Taper    planner.Date      `json:"taper_start,omitzero"`
}

type nextData struct {
	Kind  planner.BlockKind `json:"kind"`
	Start planner.Date      `json:"start"`
}

type meetData struct {
	Name     string       `json:"name"`
	Date     planner.Date `json:"date"`
	DaysLeft int          `json:"days_left"`
}

// Block says which block runs, how far it is, what comes next and how far the
// next meet is.
func Block(v BlockView) chat.Message {
	m := chat.Message{Data: v.data()}
	var lines []string
	if v.At.Index < 0 {
		m.Title = "No block today"
		lines = v.between()
	} else {
		m.Title = v.title()
		lines = v.running()
	}
	lines = append(lines, v.Told...)
	if v.Meet != nil {
		lines = append(lines, fmt.Sprintf("%s, %s: %s, %s.", v.Meet.Name, MeetKindName(v.Meet.Kind), v.Meet.Date.Short(), InDays(v.Today.DaysUntil(v.Meet.Date))))
	}
	if v.ForCoach {
		lines = append(lines, "A proposed plan waits for your coach's yes.")
	} else if v.Proposal {
		lines = append(lines, "A proposed plan waits for your yes: /season accept, or look at it with /season build.")
	}
	m.Text = strings.Join(lines, "\n")
	return m
}

// title says which block runs and how far it is.
func (v BlockView) title() string {
	b := v.At.Block
	where := fmt.Sprintf("week %d of %d", v.At.Week, v.At.Weeks)
	switch {
	case v.At.Overdue > 0:
		where = Count(v.At.Overdue, "day") + " longer than planned"
	case b.Weeks == 0:
		where = "a few days"
	}
	return strings.TrimSuffix(Sentence(BlockShort(b.Kind)+", "+where), ".")
}

func (v BlockView) data() blockData {
	var d blockData
	b := v.At.Block
	if v.At.Index >= 0 {
		d.Block = &runningData{Kind: b.Kind, Start: b.Start, End: b.End, Week: v.At.Week, Weeks: v.At.Weeks,
			DaysLeft: b.DaysLeft(v.Today), Day: v.At.Day, Overdue: v.At.Overdue, Taper: b.TaperStart}
	}
	if n, ok := v.next(); ok {
		d.Next = &nextData{n.Kind, n.Start}
	}
	if v.Meet != nil {
		d.Meet = &meetData{v.Meet.Name, v.Meet.Date, v.Today.DaysUntil(v.Meet.Date)}
	}
	return d
}

// next is the block after the running one, or the first one still to come.
func (v BlockView) next() (planner.Block, bool) {
	if v.At.Next >= 0 {
		return v.Season.Blocks[v.At.Next], true
	}
	if v.At.Index >= 0 {
		return planner.Block{}, false
	}
	for _, b := range v.Season.Blocks {
		if b.Start > v.Today {
			return b, true
		}
	}
	return planner.Block{}, false
}

// between is said on a day without a block.
func (v BlockView) between() []string {
	switch {
	case v.Meet != nil && v.Meet.Date == v.Today:
		return []string{"It is meet day. Lift what you came to lift."}
	case !v.HasPlan && v.Meet == nil:
		return []string{"You have no plan yet. Tell me your next meet with /meet add, or build a plan without one: /season build."}
	case !v.HasPlan:
		return []string{"You have no plan yet. Build one with /season build."}
	}
	if n, ok := v.next(); ok {
		return []string{fmt.Sprintf("Next: %s from %s.", BlockName(n.Kind), n.Start.Short())}
	}
	if v.JustLifted {
		return []string{"Your meet is behind you: one to two easy weeks come first. Enter your result with /meet result; /season build lays out what follows."}
	}
	return []string{"Your plan is finished. Enter your result with /meet result, add the next meet with /meet add, then /season build."}
}

// running is said while a block runs.
func (v BlockView) running() []string {
	lines := []string{v.left()}
	if n, ok := v.next(); ok && v.At.Overdue == 0 {
		lines = append(lines, fmt.Sprintf("Then: %s from %s.", BlockName(n.Kind), n.Start.Short()))
	}
	return append(lines, v.watch(v.runsLong()...)...)
}

// left says how much of the block is left, or since when it should be over.
func (v BlockView) left() string {
	b := v.At.Block
	switch {
	case v.At.Overdue > 0 && v.At.Waiting >= 0:
		n := v.Season.Blocks[v.At.Waiting]
		return fmt.Sprintf("Day %d. Your %s ended on %s; by plan this is %s, week %d. Shall it begin?",
			v.At.Day, BlockName(b.Kind), b.End.Short(), BlockShort(n.Kind), v.At.WaitingWeek)
	case v.At.Overdue > 0:
		return fmt.Sprintf("Day %d. It was planned to end on %s, %s. A new plan fits it to your meets: /season build.",
			v.At.Day, b.End.Short(), InDays(-v.At.Overdue))
	case b.DaysLeft(v.Today) == 0:
		return fmt.Sprintf("Day %d, the last day of your %s.", v.At.Day, BlockName(b.Kind))
	}
	return fmt.Sprintf("Day %d of your %s. %s left; the last day is %s.", v.At.Day, BlockName(b.Kind), Count(b.DaysLeft(v.Today), "day"), b.End.Short())
}

// runsLong says by numbers that peaking is past the limit, or nothing.
func (v BlockView) runsLong() []string {
	if len(v.Long) > 0 {
		return v.Long
	}
	if v.At.Block.Kind != planner.Peaking || v.At.Overdue == 0 || v.At.Week <= v.Limit.Weeks {
		return nil
	}
	return []string{fmt.Sprintf("Week %d of peaking; your usual limit is %s (%s).", v.At.Week, Count(v.Limit.Weeks, "week"), strings.Join(v.Limit.Reasons, "; "))}
}

// watch names the one or two things to look at now, with the caution that goes
// with heavy work.
func (v BlockView) watch(long ...string) []string {
	b, lines := v.At.Block, long
	if v.At.Overdue > 0 { // what the block was for is over
		if b.Kind == planner.Peaking {
			lines = append(lines, care)
		}
		return lines
	}
	switch b.Kind {
	case planner.Hypertrophy:
		lines = append(lines, muscleWatch(v.Lifter.PlannedLevel()))
	case planner.Strength:
		lines = append(lines, "Watch: keep some muscle work, about "+blocks.UpkeepShare(v.Lifter, v.Today)+" of what you did before.")
	case planner.Peaking:
		lines = append(lines, peakingWatch(b, v.Today))
	case planner.Recovery:
		lines = append(lines, "Watch: easy and light. Begin heavy work again when the next block starts.")
	}
	return lines
}

// muscleWatch differs by level: the single of experienced lifters dips in a
// muscle block, a novice's does not (common practice).
func muscleWatch(level planner.Level) string {
	if level == planner.New || level == planner.Novice {
		return "Watch: clean repetitions; add a little weight when all sets went well."
	}
	return "Watch: your heaviest lifts may feel slow these weeks. That is normal."
}

// care is the caution that goes with heavy work.
const care = "Use safeties or spotters; stop on sharp pain, numbness or dizziness and talk to your coach or a doctor."

func peakingWatch(b planner.Block, today planner.Date) string {
	switch {
	case !b.TaperStart.IsZero() && today >= b.TaperStart:
		return "Watch: taper (easing off), less work at nearly the same weights. Rest is part of it. " + care
	case !b.TaperStart.IsZero():
		return "Watch: heavy singles and doubles, none missed. Taper (easing off) from " + b.TaperStart.Short() + ". " + care
	}
	return "Watch: heavy singles and doubles, none missed. " + care
}
