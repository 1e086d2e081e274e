package blocks

import (
	"fmt"
	"math"
	"strings"

	"blockbell/planner"
)

// article drops the article that reads wrong before two kinds of block.
var article = strings.NewReplacer("The peaking is", "Peaking is", "The recovery is", "Recovery is")

// boundary says what moving one boundary by a week would cost, and what closes it.
func (x *explaining) boundary(b Boundary) BoundaryWhy {
	b.Binding = article.Replace(b.Binding)
	w := BoundaryWhy{Date: b.Date}
	i := x.blockAt(b.Date)
	if i < 1 {
		w.Sentence = b.Binding
		return w
	}
	w.Earlier, w.Later = x.move(i, -1, b.Earlier), x.move(i, 1, b.Later)
	begins := fmt.Sprintf("%s begins on %s.", capital(theBlock(index(x.Blocks[i].Kind))), b.Date.Short())
	parts := []string{begins}
	switch {
	case w.Earlier == nil && w.Later == nil:
		parts = append(parts, b.Binding)
	case w.Earlier == nil:
		parts = append(parts, b.Binding, "One week later "+x.priced(w.Later)+".")
	case w.Later == nil:
		parts = append(parts, b.Binding, "One week earlier "+x.priced(w.Earlier)+".")
	default:
		parts = append(parts, fmt.Sprintf("One week earlier %s; one week later %s.", x.priced(w.Earlier), x.priced(w.Later)))
	}
	if !x.toldSmall && x.small(w.Earlier) && x.small(w.Later) && (w.Earlier != nil || w.Later != nil) {
		x.toldSmall = true
		parts = append(parts, fmt.Sprintf("Nobody feels less than %s, here or at another block: choose by the calendar.", x.by.amount(x.by.noDifference())))
	}
	w.Sentence = strings.Join(parts, " ")
	return w
}

func (x *explaining) blockAt(day planner.Date) int {
	for i, b := range x.Blocks {
		if b.Start == day {
			return i
		}
	}
	return -1
}

// small tells whether a move is no real difference; a closed one is.
func (x *explaining) small(m *Move) bool {
	return m == nil || math.Abs(m.CostPercent) < x.by.noDifference()
}

// priced is a move with its cost and the reason.
func (x *explaining) priced(m *Move) string {
	amount := x.by.amount(m.CostPercent)
	verb := "cost"
	switch {
	case strings.HasPrefix(amount, "less"):
		return "would change next to nothing"
	case m.CostPercent < 0:
		verb = "gain"
	}
	if m.Why == "" {
		return fmt.Sprintf("would %s about %s", verb, amount)
	}
	return fmt.Sprintf("would %s about %s (%s)", verb, amount, m.Why)
}

// samePrice is how far the price of a move worked out from the blocks may differ from
// the one in the plan by rounding, in hundredths of the objective.
const samePrice = 1e-6

// move is the start of block i moved by d weeks, nil where the plan says that this is
// closed. What it trades is left out where weeks away lie between.
func (x *explaining) move(i, d int, cost *float64) *Move {
	if cost == nil {
		return nil
	}
	m := &Move{CostPercent: *cost, CostKg: x.by.mass(*cost)}
	blocks := append([]planner.Block(nil), x.Blocks...)
	a, b := &blocks[i-1], &blocks[i]
	a.End, a.Weeks = a.End.AddDays(7*d), a.Weeks+d
	b.Start, b.Weeks = b.Start.AddDays(7*d), b.Weeks-d
	score := x.Model.Objective(blocks, x.Marks)
	if math.Abs(100*(x.Objective-score.Total)-*cost) > samePrice {
		return m
	}
	at := x.Model.trace(blocks, x.Marks)
	m.MeetPercent = x.bring(at)
	m.Why = x.traded(at, score.paid()-x.Parts.paid(), m)
	return m
}

// toldTrade is the least part of a trade that is told, in log units: 0.01 %.
const toldTrade = 1e-4

// traded says in a few words what a move loses most by, and what it wins most by.
func (x *explaining) traded(at []State, paid float64, m *Move) string {
	var strength, sharp float64
	for i, mk := range x.Marks {
		strength += mk.Strength * (at[i].S - x.at[i].S)
		sharp += mk.Expression * (at[i].E - x.at[i].E)
	}
	last := len(x.Marks)
	muscle := x.Model.Lambda * (at[last].M - x.at[last].M)
	parts := []tradePart{
		{sharp, "a sharper single", "a less sharp single"},
		{strength, "more strength by the meet", "less strength by the meet"},
		{muscle, "more muscle for the next cycle", "less muscle for the next cycle"},
		{-paid, "lengths nearer to the usual", "lengths further from the usual"},
	}
	if m.MeetPercent >= plainDifference && len(x.Marks) == 1 {
		if _, lost := weighed(parts[2:]); lost != "" {
			return fmt.Sprintf("%s more at %s, but %s", x.by.amount(m.MeetPercent), x.goalName(), lost)
		}
	}
	won, lost := weighed(parts)
	switch {
	case won != "" && lost != "":
		return lost + ", but " + won
	case lost != "":
		return lost
	}
	return won
}

// tradePart is one thing that a move changes.
type tradePart struct {
	change     float64 // of the objective
	more, less string
}

// weighed names the largest change on either side; empty where none is worth telling.
func weighed(parts []tradePart) (won, lost string) {
	best, worst := toldTrade, -toldTrade
	for _, p := range parts {
		if p.change >= best {
			best, won = p.change, p.more
		}
		if p.change <= worst {
			worst, lost = p.change, p.less
		}
	}
	return won, lost
}
