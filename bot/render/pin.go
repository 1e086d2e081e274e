package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// Fixed is what a pin fixes about a block; what is unset means any.
type Fixed struct {
	Number int
	Kind   planner.BlockKind
	Start  planner.Date
	Weeks  int
}

// Cap is the longest that a kind of block may be, 0 for none of it; Club: a rule for
// everybody.
type Cap struct {
	Kind planner.BlockKind
	Most int
	Club bool
}

// PinText says in a few words what a pin fixes.
func PinText(p Fixed) string {
	what := "a block"
	switch {
	case p.Number > 0 && p.Kind != "":
		what = fmt.Sprintf("block %d is %s", p.Number, BlockShort(p.Kind))
	case p.Number > 0:
		what = fmt.Sprintf("block %d", p.Number)
	case p.Kind != "":
		what = BlockShort(p.Kind)
	}
	if p.Weeks > 0 {
		what += " of " + Count(p.Weeks, "week")
	}
	if !p.Start.IsZero() {
		what += " from the week of " + p.Start.Short()
	}
	return what
}

// BoundText says in a few words what a bound allows.
func BoundText(b Cap) string {
	if b.Most == 0 {
		return "no " + BlockShort(b.Kind)
	}
	return fmt.Sprintf("%s at most %s", BlockShort(b.Kind), Count(b.Most, "week"))
}

// Pins lists what is fixed in a lifter's plan, numbered as /season unpin takes it,
// and the bounds it keeps to.
func Pins(pins []Fixed, bounds []Cap) chat.Message {
	rows := []map[string]any{}
	var lines []string
	for i, p := range pins {
		lines = append(lines, fmt.Sprintf("%d: %s", i+1, PinText(p)))
		rows = append(rows, map[string]any{"number": i + 1, "kind": p.Kind, "weeks": p.Weeks, "text": PinText(p)})
	}
	if len(pins) == 0 {
		lines = append(lines, "Nothing is fixed. For example: /season pin kind:peaking weeks:4")
	}
	caps := []map[string]any{}
	for _, b := range bounds {
		whose := "this lifter"
		if b.Club {
			whose = "the club"
		}
		lines = append(lines, Sentence(BoundText(b)+" ("+whose+")"))
		caps = append(caps, map[string]any{"kind": b.Kind, "weeks": b.Most, "club": b.Club})
	}
	return chat.Message{Title: "Fixed in the plan", Text: strings.Join(lines, "\n"), Data: map[string]any{"pins": rows, "bounds": caps}}
}

// ClubCaps lists the bounds that hold for everybody.
func ClubCaps(bounds []Cap) chat.Message {
	m := chat.Message{Title: "Bounds for the club", Text: "None. For example: /club cap kind:peaking weeks:6"}
	rows := []map[string]any{}
	var lines []string
	for _, b := range bounds {
		lines = append(lines, Sentence(BoundText(b)))
		rows = append(rows, map[string]any{"kind": b.Kind, "weeks": b.Most})
	}
	if len(lines) > 0 {
		m.Text = strings.Join(lines, "\n")
	}
	m.Data = map[string]any{"bounds": rows}
	return m
}
