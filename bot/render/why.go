package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner/blocks"
)

// explainedData is a plan with its reasons for programs.
type explainedData struct {
	SeasonData
	Why blocks.Explanation `json:"why"`
}

// Explained shows one sentence for each block and boundary of a plan.
// The view is that of the plan, for its gain.
func Explained(v SeasonView, e blocks.Explanation) chat.Message {
	m := chat.Message{Title: v.Title, Data: explainedData{v.data(), e}}
	for i, b := range e.Blocks {
		lines := []string{b.Sentence}
		if b.Upkeep != "" {
			lines = append(lines, b.Upkeep)
		}
		if i > 0 {
			lines = append(lines, boundaryLines(e, b)...)
		}
		name := fmt.Sprintf("%s from %s", strings.TrimSuffix(Sentence(BlockShort(b.Kind)), "."), b.Start.Short())
		m.Fields = append(m.Fields, chat.Field{Name: name, Value: clip(strings.Join(lines, "\n"), chat.MaxFieldValue)})
	}
	if len(m.Fields) > chat.MaxFields {
		m.Fields = m.Fields[:chat.MaxFields]
	}
	lines := append(v.gainLines(), e.LeftOut...)
	for _, x := range []string{e.Trade, e.Limit} {
		if x != "" {
			lines = append(lines, x)
		}
	}
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	return m
}

// boundaryLines is what is said of the boundary that a block begins at.
func boundaryLines(e blocks.Explanation, b blocks.BlockWhy) []string {
	for _, x := range e.Boundaries {
		if x.Date == b.Start {
			return []string{x.Sentence}
		}
	}
	return nil
}
