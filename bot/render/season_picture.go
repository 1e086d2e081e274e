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
	row := chart.Row{Blocks: v.Blocks}
	for _, m := range v.Meets {
		row.Meets = append(row.Meets, chart.Mark{Day: m.Date, Name: m.Name})
	}
	view.Rows = []chart.Row{row}
	if len(v.Old) > 0 {
		view.Rows[0].Name = "Proposed"
		view.Rows = append([]chart.Row{{Name: "Your plan now", Blocks: v.Old}}, view.Rows...)
	}
	return []chat.File{{Name: "season.png", Draw: func() ([]byte, error) { return chart.Season(view) }, Alt: clip(inWords(v.Blocks), 1000)}}
}

// inWords says what a picture of blocks shows.
func inWords(blocks []planner.Block) string {
	var parts []string
	for _, b := range blocks {
		parts = append(parts, BlockShort(b.Kind)+" "+b.Start.Short()+" to "+b.End.Short())
	}
	return "Blocks over time: " + strings.Join(parts, ", ") + "."
}
