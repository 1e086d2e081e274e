package render

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render/chart"
	"blockbell/planner"
)

// picture draws the plan, beside the agreed one where it is a proposal for a change.
func (v SeasonView) picture() []chat.File {
	if len(v.Blocks) == 0 {
		return nil
	}
	view := chart.SeasonView{Title: v.Title, Under: v.Blocks[0].Start.Long() + " to " + v.Blocks[len(v.Blocks)-1].End.Long(), Today: v.Today}
	view.Rows = []chart.Row{{Blocks: v.Blocks, Meets: flags(v.Meets), Away: v.Away}}
	if len(v.Old) > 0 {
		view.Rows[0].Name = "Proposed"
		view.Rows = append([]chart.Row{{Name: "Agreed so far", Blocks: v.Old, Meets: flags(v.OldMeets), Away: v.Away}}, view.Rows...)
	}
	alt := inWords(v.Blocks) + awayInWords(v.Away, v.Blocks)
	return []chat.File{{Name: "season.png", Draw: func() ([]byte, error) { return chart.Season(view) }, Alt: clip(alt, 1000)}}
}

// flags are meets as a picture marks them.
func flags(meets []planner.SeasonMeet) (out []chart.Mark) {
	for _, m := range meets {
		out = append(out, chart.Mark{Day: m.Date, Name: m.Name})
	}
	return out
}

// awayInWords says which times away a picture of blocks shows.
func awayInWords(away []planner.Away, blocks []planner.Block) string {
	var parts []string
	for _, a := range away {
		if last := blocks[len(blocks)-1].End; a.From <= last && (a.To.IsZero() || a.To >= blocks[0].Start) {
			parts = append(parts, AwaySpan(a.From, a.To))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " Away: " + strings.Join(parts, ", ") + "."
}

// inWords says what a picture of blocks shows.
func inWords(blocks []planner.Block) string {
	var parts []string
	for _, b := range blocks {
		parts = append(parts, BlockShort(b.Kind)+" "+b.Start.Short()+" to "+b.End.Short())
	}
	return "Blocks over time: " + strings.Join(parts, ", ") + "."
}
