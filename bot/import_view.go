package bot

import (
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// importView says what a file would add, in the words of the screen.
func importView(v *render.ImportView, in intake, best *bests) {
	v.Known, v.Assumed = in.known, in.read.Assumed
	heaviest := map[planner.Lift]planner.Set{}
	for _, n := range in.fresh {
		v.New = append(v.New, n.Set)
		if was, ok := heaviest[n.Set.Lift]; n.Set.Variant == "" && n.Set.Reps > 0 && (!ok || n.Set.Weight > was.Weight) {
			heaviest[n.Set.Lift] = n.Set
		}
	}
	for _, n := range in.fresh {
		if kg := best.kg(n.Set.Lift); n.Set.Lift.Competition() && kg > 0 && n.Set.Weight.Kg() > parse.FarAbove*kg {
			v.Far = append(v.Far, n.Set)
		}
	}
	for _, l := range planner.CompetitionLifts() {
		if s, ok := heaviest[l]; ok {
			v.Heaviest = append(v.Heaviest, s)
		}
	}
	for _, p := range in.read.Problems {
		v.Problems = append(v.Problems, render.RowProblem(p.Line, p.Column, p.Text))
	}
	for _, u := range in.read.Unknown {
		v.Unknown = append(v.Unknown, u.Name+" ("+render.Count(u.Rows, "row")+")")
	}
}
