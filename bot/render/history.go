package render

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// VersionRow is one version of a plan, beside the one agreed before it.
type VersionRow struct {
	Version         int
	State           string
	Built, Agreed   planner.Date // Agreed is zero where it never was
	By, Reason      string       // who had the last word where that was not the lifter, and why not
	Waits           bool         // for the other side's yes
	Blocks, Old     []planner.Block
	Meets, OldMeets []planner.SeasonMeet
}

// History shows versions of a plan, newest first; older counts those left out.
func History(rows []VersionRow, older int) chat.Message {
	m := chat.Message{Title: "Your plan over time"}
	data := []map[string]any{}
	for _, r := range slices.Backward(rows) {
		m.Fields = append(m.Fields, chat.Field{Name: r.name(), Value: clip(r.what(), chat.MaxFieldValue)})
		data = append(data, map[string]any{"version": r.Version, "state": r.State, "built": r.Built, "agreed": orNull(dateOrEmpty(r.Agreed)),
			"by": orNull(r.By), "reason": orNull(r.Reason), "blocks": plain(r.Blocks)})
	}
	if older > 0 {
		m.Text = Count(older, "older version") + " left out; /mydata export has them all."
	}
	m.Data = map[string]any{"versions": data}
	return m
}

// name says which version it is and what became of it.
func (r VersionRow) name() string {
	by := ""
	if r.By != "" {
		by = " by " + r.By
	}
	what := map[string]string{
		"agreed": "agreed" + by + " on " + r.Agreed.Short() + ", runs now", "replaced": "proposed on " + r.Built.Short() + ", then another took its place",
		"declined": "proposed on " + r.Built.Short() + ", turned down" + by, "proposed": "proposed on " + r.Built.Short() + ", not decided yet",
	}[r.State]
	switch {
	case r.State == "replaced" && !r.Agreed.IsZero():
		what = "agreed" + by + " on " + r.Agreed.Short() + ", replaced later"
	case r.State == "declined" && !r.Agreed.IsZero():
		what = "agreed on " + r.Agreed.Short() + ", taken back"
	case r.Waits && r.State == "proposed":
		what = "proposed on " + r.Built.Short() + ", waits for a second yes"
	}
	return fmt.Sprintf("%d: %s", r.Version, what)
}

// what says what the version changed.
func (r VersionRow) what() string {
	lines := meetChanges(r.OldMeets, r.Meets)
	switch {
	case len(r.Old) == 0:
		lines = append(lines, Sentence(Until(r.Blocks)))
	case slices.EqualFunc(r.Old, r.Blocks, sameDays):
		lines = append(lines, "The same blocks.")
	case slices.EqualFunc(r.Old, r.Blocks, func(a, b planner.Block) bool { return a.Kind == b.Kind }):
		for i := range r.Old {
			if !sameDays(r.Old[i], r.Blocks[i]) {
				lines = append(lines, Sentence(shift(r.Old[i], r.Blocks[i])))
			}
		}
	default:
		lines = append(lines, "Before: "+Until(r.Old)+".", "New: "+Until(r.Blocks)+".")
	}
	if r.Reason != "" {
		lines = append(lines, "Why not: "+r.Reason+".")
	}
	return strings.Join(lines, "\n")
}

// meetChanges says which meets are new, moved or gone.
func meetChanges(old, now []planner.SeasonMeet) []string {
	var lines []string
	was := map[planner.MeetID]planner.SeasonMeet{}
	for _, m := range old {
		was[m.ID] = m
	}
	stands := map[planner.MeetID]bool{}
	for _, m := range now {
		stands[m.ID] = true
		o, known := was[m.ID]
		switch {
		case len(old) > 0 && !known:
			lines = append(lines, "New: "+m.Name+", "+m.Date.Short()+".")
		case known && o.Date != m.Date:
			lines = append(lines, m.Name+": from "+o.Date.Short()+" to "+m.Date.Short()+".")
		}
	}
	for _, m := range old {
		if !stands[m.ID] {
			lines = append(lines, "Gone: "+m.Name+".")
		}
	}
	return lines
}
