package bot

import (
	"blockbell/bot/parse"
	"blockbell/planner"
	"blockbell/planner/strength"
)

// logData is the answer to a logged message for programs.
func (t *turn) logData(sets []planner.Set, bodyweight planner.Grams, problems []parse.Problem, questions []parse.Question) map[string]any {
	d := map[string]any{"sets": t.setData(sets), "bodyweight_kg": nil}
	if bodyweight != 0 {
		d["bodyweight_kg"] = bodyweight.Kg()
	}
	rows := []map[string]any{}
	for _, p := range problems {
		rows = append(rows, map[string]any{"line": p.Line, "column": p.Column, "text": p.Text, "hint": p.Hint})
	}
	d["problems"] = rows
	if len(questions) > 0 {
		var asked []map[string]any
		for _, q := range questions {
			asked = append(asked, map[string]any{"line": q.Line, "column": q.Column, "text": q.Text})
		}
		d["questions"] = asked
	}
	return d
}

// dropData is the answer for programs when a set was removed.
func (t *turn) dropData(s planner.Set) map[string]any {
	d := t.logData(nil, 0, nil, nil)
	d["dropped"] = t.setData([]planner.Set{s})
	return d
}

// setData is a list of sets for programs.
func (t *turn) setData(sets []planner.Set) []map[string]any {
	rows := make([]map[string]any, len(sets))
	for i, s := range sets {
		row := map[string]any{
			"lift": s.Lift, "variant": nil, "weight_kg": s.Weight.Kg(), "reps": s.Reps, "sets": s.Sets,
			"rir": s.Reserve, "missed": s.Missed, "date": s.Day, "e1rm_kg": nil,
		}
		if s.Variant != "" {
			row["variant"] = s.Variant
		}
		if kg, ok := t.estimate(s); ok {
			row["e1rm_kg"] = kg
		}
		if s.Pending {
			row["pending"] = true
		}
		rows[i] = row
	}
	return rows
}

// estimate is the maximum that one set speaks for, by the club's equation; false
// where a set says nothing about it: a miss, a long or an easy set.
func (t *turn) estimate(s planner.Set) (kg float64, ok bool) {
	if s.Missed || s.Reps < 1 {
		return 0, false
	}
	kg, _, err := strength.Estimate(strength.Equation(t.club.Equation), s.Weight.Kg(), s.Reps, s.Reserve)
	return kg, err == nil
}
