package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/blocks"
)

// CompareView is what a comparison is shown from; Season is that of the best plan.
type CompareView struct {
	Season   SeasonView
	Compared blocks.Comparison
}

// OptionData is one compared plan for programs. The gain and its ends, between
// which 8 of 10 draws of the model's uncertain numbers lie, are those at the last
// main meet; beats_share is the share of draws in which it is better than the best.
type OptionData struct {
	Name        string          `json:"name"`
	Split       string          `json:"split"`
	Blocks      []planner.Block `json:"blocks"`
	GainPercent *float64        `json:"gain_percent"`
	GainLow     *float64        `json:"gain_low"`
	GainHigh    *float64        `json:"gain_high"`
	Regained    *float64        `json:"regained_percent"` // of the gain: makes up for past times away
	CostPercent float64         `json:"cost_percent"`
	BeatsShare  float64         `json:"beats_share"`
	TossUp      bool            `json:"toss_up"`
	Broken      []string        `json:"broken"`
	Risks       []string        `json:"risks"`
}

// compareData is a plan for programs with the options beside it.
type compareData struct {
	SeasonData
	Options []OptionData `json:"options"`
	Beats   *float64     `json:"beats_runner_up"`
}

// roleNames say what a row of a comparison is.
var roleNames = map[blocks.Role]string{
	blocks.Optimum: "Best", blocks.RunnerUp: "Another shape", blocks.Held: "Your block goes on", blocks.Agreed: "Agreed", blocks.Own: "Yours",
}

// Compared shows plans beside each other, each with what it should bring, how sure
// that is, and what is at stake.
func Compared(v CompareView) chat.Message {
	c := v.Compared
	d := compareData{SeasonData: v.Season.data(), Options: []OptionData{}, Beats: c.BeatsRunnerUp}
	m := chat.Message{Title: "Plans beside each other"}
	for _, r := range c.Rows {
		d.Options = append(d.Options, option(r))
		m.Fields = append(m.Fields, chat.Field{Name: clip(roleNames[r.Role]+": "+r.Split.String(), chat.MaxFieldName), Value: clip(v.row(r), chat.MaxFieldValue)})
	}
	lines := append([]string{"H muscle block (hypertrophy), S strength, P peaking, R recovery, with their weeks. Each plan was tried with many settings of the model, as nobody knows yours exactly: a range holds 8 of 10 trials. None of it is a promise."}, c.Notes...)
	maxima := v.Season.Maxima
	maxima.Before = maxima.Before && c.Model.Start.Lost.S > 0
	if from := maximaLine(v.Season.Lifter, maxima); v.Season.outdated() {
		lines = append(lines, inPercent)
	} else if from != "" {
		lines = append(lines, from)
	}
	m.Text = clip(strings.Join(lines, "\n"), chat.MaxText)
	m.Data = d
	return m
}

func option(r blocks.Row) OptionData {
	o := OptionData{Name: roleNames[r.Role], Split: r.Split.String(), Blocks: plain(r.Blocks), CostPercent: r.CostPercent,
		BeatsShare: r.Share, TossUp: r.TossUp, Broken: plain(r.Broken), Risks: plain(r.Risks)}
	if r.Goal >= 0 && r.Goal < len(r.Gains) {
		g := r.Gains[r.Goal]
		o.GainPercent, o.GainLow, o.GainHigh, o.Regained = &g.Percent, &g.Whole.Low, &g.Whole.High, &g.Regained
	}
	return o
}

// row is one plan on screen.
func (v CompareView) row(r blocks.Row) string {
	var lines []string
	if r.Goal >= 0 && r.Goal < len(r.Gains) {
		g := r.Gains[r.Goal]
		lines = append(lines, v.gain(g)+" "+r.Verdict)
	} else {
		lines = append(lines, r.Verdict)
	}
	same := r.Split.String() == v.Compared.Rows[0].Split.String()
	if !same {
		lines = append(lines, chances(r))
	} else if r.Role != blocks.Optimum {
		lines[0] = "The same as the best."
	} else if b := v.Compared.BeatsRunnerUp; b != nil {
		lines = append(lines, fmt.Sprintf("Better than the next shape in %.0f of 100 trials.", 100**b))
	}
	for _, x := range r.Broken {
		lines = append(lines, Sentence(x))
	}
	return strings.Join(append(lines, r.Risks...), "\n")
}

// gain is what a plan should bring at the meet that counts, as a range.
func (v CompareView) gain(g blocks.Gain) string {
	l := v.Season.Lifter
	if g.Regained >= leastRegained {
		return Sentence(v.Season.wonBackOf(g.Regained, g.Beyond, v.Compared.Model.Start.Lost))
	}
	if l.Total() == 0 || v.Season.outdated() {
		return fmt.Sprintf("%+.1f to %+.1f %%.", g.Whole.Low, g.Whole.High)
	}
	return Sentence(gainRange(l.Total(), g.Whole.Low, g.Whole.High, l.Unit))
}

// chances says how often a plan comes out better than the best one.
func chances(r blocks.Row) string {
	text := fmt.Sprintf("Better than the best in %.0f of 100 trials", 100*r.Share)
	if r.TossUp {
		return text + ": a toss-up."
	}
	return text + "."
}
