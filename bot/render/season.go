package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// SeasonView is what the picture of a plan is made from.
type SeasonView struct {
	Title  string
	Before string // said before the plan, may be empty
	After  string // said behind it, may be empty
	Plan   blocks.Plan
	Blocks []planner.Block // the whole season, finished blocks too
	Meets  []planner.SeasonMeet
	Old    []planner.Block // the agreed blocks beside a new proposal
	// OldMeets are the meets the agreed plan was made for, and Away the times away that
	// were told: both for the picture.
	OldMeets []planner.SeasonMeet
	Away     []planner.Away
	Today    planner.Date
	Lifter   planner.Lifter
	// Running is the first day of the block that runs today; zero: by the dates.
	Running planner.Date
	Events  []planner.Meet // meets to come as they were entered
	Maxima  Maxima         // where the lifter's maxima come from
	Off     []LiftAway     // lifts that are off the plan
	// Gains is the plan as it is laid out today, which gains are told from; nil: Plan is.
	Gains *blocks.Plan
}

// LiftAway is a lift that is off the plan until a day, on which it is back.
type LiftAway struct {
	Lift  planner.Lift
	Until planner.Date
}

// SeasonData is a plan for programs.
type SeasonData struct {
	Blocks            []planner.Block      `json:"blocks"`
	Meets             []planner.SeasonMeet `json:"meets"`
	LeftOut           []planner.BlockKind  `json:"left_out"`
	LeftOutWhy        []string             `json:"left_out_why"`
	SetBy             []blocks.Setter      `json:"set_by"`
	GainPercent       *float64             `json:"gain_percent"`
	SharpeningPercent *float64             `json:"sharpening_percent"`
	StrengthPercent   *float64             `json:"strength_percent"`
	GainLow           *float64             `json:"gain_low_percent"`
	GainHigh          *float64             `json:"gain_high_percent"`
	RegainedPercent   *float64             `json:"regained_percent"` // makes up for past times away
	BeyondLow         *float64             `json:"beyond_low_percent"`
	BeyondHigh        *float64             `json:"beyond_high_percent"`
	MeetGains         []blocks.MeetGain    `json:"meet_gains"`
	TolerancePercent  float64              `json:"tolerance_percent"`
	Boundaries        []blocks.Boundary    `json:"boundaries"`
	RunnersUp         []blocks.Alternative `json:"runners_up"`
	Relaxed           []string             `json:"relaxed"`
	Notes             []string             `json:"notes"`
	Limit             blocks.Limit         `json:"peaking_limit"`
	Model             blocks.Model         `json:"model"`
	Marks             []blocks.Mark        `json:"marks"`
	Objective         float64              `json:"objective"`
	Parts             blocks.Score         `json:"objective_parts"`
	Meet              map[string]any       `json:"meet,omitempty"`   // the meet whose change led here
	Change            map[string]any       `json:"change,omitempty"` // what led here
	Kept              bool                 `json:"kept"`             // these are the agreed blocks
	KeepCost          *float64             `json:"keep_cost_percent"`
}

// Season shows a plan: block by block with dates and reason, the meets, what was
// left out, what it should bring, and what is worth knowing.
func Season(v SeasonView) chat.Message {
	m := chat.Message{Title: v.Title, Data: v.data()}
	for _, b := range v.Blocks {
		m.Fields = append(m.Fields, blockField(b, v.now(b)))
	}
	if len(m.Fields) > chat.MaxFields {
		m.Fields = m.Fields[len(m.Fields)-chat.MaxFields:]
	}
	m.Text = clip(strings.Join(v.lines(), "\n"), chat.MaxText)
	m.Files = v.picture()
	return m
}

func (v SeasonView) data() SeasonData {
	p, g := v.Plan, v.gains()
	return SeasonData{
		Blocks: plain(v.Blocks), Meets: plain(v.Meets), LeftOut: plain(p.LeftOut),
		LeftOutWhy: plain(p.LeftOutWhy), SetBy: plain(p.SetBy),
		GainPercent: g.GainPercent, SharpeningPercent: g.SharpeningPercent, StrengthPercent: g.StrengthPercent,
		GainLow: g.GainLow, GainHigh: g.GainHigh,
		RegainedPercent: g.RegainedPercent, BeyondLow: g.BeyondLow, BeyondHigh: g.BeyondHigh, MeetGains: plain(g.MeetGains),
		Boundaries: plain(p.Boundaries), RunnersUp: plain(p.RunnersUp), Relaxed: plain(p.Relaxed), Notes: plain(p.Notes),
		Limit: p.Limit, Model: p.Model, Marks: plain(p.Marks), Objective: p.Objective, Parts: p.Parts,
		Kept: p.Kept, KeepCost: p.KeepCostPercent,
	}
}

// plain makes an empty list of a missing one, which JSON tells apart.
func plain[T any](s []T) []T {
	if s == nil {
		return []T{}
	}
	return s
}

// blockField is one block of a plan on screen.
func blockField(b planner.Block, now string) chat.Field {
	name := fmt.Sprintf("%s: %s to %s", Count(b.Weeks, "week"), b.Start.Short(), b.End.Short())
	switch {
	case b.Start == b.End:
		name = b.Start.Short()
	case b.Weeks == 0:
		name = fmt.Sprintf("%s: %s to %s", Count(b.Start.DaysUntil(b.End)+1, "day"), b.Start.Short(), b.End.Short())
	}
	value := b.Reason
	if value == "" {
		value = Sentence(BlockName(b.Kind))
	}
	if !b.TaperStart.IsZero() && b.TaperStart > b.Start && b.Kind == planner.Peaking {
		value += " Taper (easing off) from " + b.TaperStart.Short() + "."
	}
	return chat.Field{Name: clip(name, chat.MaxFieldName), Value: clip(now+value, chat.MaxFieldValue)}
}

// now says whether a block is over or runs, by what really runs where that is
// known.
func (v SeasonView) now(b planner.Block) string {
	runs := b.Contains(v.Today)
	if !v.Running.IsZero() {
		runs = b.Start == v.Running
	}
	switch {
	case runs:
		return "Now. "
	case b.Start <= v.Today && (v.Running.IsZero() || b.Start < v.Running):
		return "Done. "
	}
	return ""
}

// lines are the sentences above the blocks.
func (v SeasonView) lines() []string {
	var lines []string
	if v.Before != "" {
		lines = append(lines, v.Before)
	}
	lines = append(lines, v.meetLines()...)
	lines = append(lines, v.leftOut()...)
	lines = append(lines, v.gainLines()...)
	lines = append(lines, v.change()...)
	lines = append(lines, v.Plan.Relaxed...)
	lines = append(lines, gathered(v.Plan.Notes)...)
	lines = append(lines, v.eventLines()...)
	if v.After != "" {
		lines = append(lines, v.After)
	}
	return lines
}

// leftOut says which kinds of block the plan does without, and why.
func (v SeasonView) leftOut() []string {
	if len(v.Plan.LeftOutWhy) > 0 || len(v.Plan.LeftOut) == 0 {
		return v.Plan.LeftOutWhy
	}
	var names []string // a plan kept from before reasons were kept with it
	for _, k := range v.Plan.LeftOut {
		names = append(names, BlockName(k))
	}
	return []string{"Left out: " + List(names) + "."}
}

func (v SeasonView) meetLines() []string {
	var lines []string
	for _, m := range v.Meets {
		if m.Date >= v.Today {
			lines = append(lines, fmt.Sprintf("%s, %s: %s, %s.", m.Name, MeetKindName(m.Kind), m.Date.Long(), InDays(v.Today.DaysUntil(m.Date))))
		}
	}
	return lines
}

// gathered keeps the first of the notes that say the same about several meets, and
// counts the rest: fifty meets would drown the plan.
func gathered(notes []string) []string {
	var out []string
	more, at := map[string]int{}, map[string]int{}
	for _, n := range notes {
		what, _, about := strings.Cut(n, ";")
		if _, seen := at[what]; about && seen {
			more[what]++
			continue
		}
		at[what] = len(out)
		out = append(out, n)
	}
	for what, n := range more {
		out[at[what]] += fmt.Sprintf(" So do %d more.", n)
	}
	if extra := len(out) - mostNotes; extra > 1 {
		out = append(out[:mostNotes], Sentence(Count(extra, "more note")+" left out"))
	}
	return out
}

// mostNotes is how many notes stand under a plan.
const mostNotes = 8

// eventLines say what a meet with fewer lifts, or in gear, means for the blocks
// before it (common practice).
func (v SeasonView) eventLines() []string {
	only := map[planner.EventKind]string{
		planner.BenchOnly:    "bench only: no heavy squat or deadlift days; legs stay at upkeep, a third of their sets",
		planner.DeadliftOnly: "deadlift only: squat and bench are trained to support it, without heavy singles",
		planner.PushPull:     "bench and deadlift: no heavy squat days; legs stay at upkeep, a third of their sets",
	}
	var lines []string
	seen := map[string]bool{}
	for _, m := range v.Events {
		if seen[m.Name] {
			continue
		}
		seen[m.Name] = true
		if what, fewer := only[m.Event]; fewer {
			lines = append(lines, Sentence(m.Name+" is "+what))
		}
	}
	return lines
}

// Agreed confirms that a plan is now the agreed one; who names the lifter where
// somebody else agreed for them.
func Agreed(s planner.Season, today planner.Date, who string) chat.Message {
	you, title := "You are", "Plan agreed"
	if who != "" {
		you, title = who+" is", "Plan agreed for "+who
	}
	text := "Agreed. It begins on " + s.Blocks[0].Start.Short() + "."
	if i := planner.At(s.Blocks, today); i >= 0 {
		b := s.Blocks[i]
		in := "in the "
		if b.Kind == planner.Peaking || b.Kind == planner.Recovery {
			in = "in "
		}
		text = fmt.Sprintf("Agreed. %s %s%s now; its last day is %s. I say so before it ends.", you, in, BlockName(b.Kind), b.End.Short())
	}
	return chat.Message{Title: title, Text: text, Data: map[string]any{"blocks": plain(s.Blocks), "meets": plain(s.Meets)}}
}

// clip cuts text to at most n characters and shows that it did.
func clip(text string, n int) string {
	r := []rune(text)
	if len(r) <= n {
		return text
	}
	return string(r[:n-1]) + "…"
}

// Extended confirms that block i of the season goes on for one more week.
func Extended(s planner.Season, i int, today planner.Date, l planner.Lifter) chat.Message {
	b := s.Blocks[i]
	text := fmt.Sprintf("One more week: your %s now goes to %s.", BlockName(b.Kind), b.End.Short())
	if most := blocks.LongestMuscle(l); b.Kind == planner.Hypertrophy && b.Weeks > most {
		text += fmt.Sprintf(" That makes %s; beyond %d the same work brings less each week (common practice).", Count(b.Weeks, "week"), most)
	}
	if rest := ahead(s.Blocks[i+1:], today); len(rest) > 0 {
		text += "\nThen: " + strings.Join(rest, ", ") + "."
	}
	return chat.Message{Title: "One more week", Text: text, Data: map[string]any{"blocks": plain(s.Blocks), "meets": plain(s.Meets)}}
}
