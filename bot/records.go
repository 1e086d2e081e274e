package bot

import (
	"cmp"
	"slices"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/strength"
)

// recordStep is how much, as a share, an estimate must beat the best by to be
// news: half of the smallest change worth noticing, 1.2 % (Hopkins' rule). A heavier
// bar is news whatever the step.
const recordStep = 0.006

// newRecord is a record with what it beat, in kg.
type newRecord struct {
	strength.Record
	was float64
}

// series tells apart what has records of its own.
type series struct {
	lift    planner.Lift
	variant planner.Variant
	gear    planner.Equipment
}

func seriesOf(r strength.Record) series { return series{r.Lift, r.Variant, r.Gear} }

// records are what sets that are about to be kept beat in the lifter's log, best news
// first. The sets numbered without on their day are passed over: they are those that these
// correct. A series is told of once a day, unless better news of it comes: who warms
// up past an old best hears of it one time.
func (t *turn) records(sets []planner.Set, without ...int) (all []newRecord, err error) {
	for _, lift := range planner.CompetitionLifts() {
		added := slices.DeleteFunc(slices.Clone(sets), func(s planner.Set) bool { return s.Lift != lift })
		if len(added) == 0 || t.about.ID == 0 {
			continue
		}
		day := added[0].Day
		before, err := t.tx.LiftBests(t.about.ID, lift, day)
		if err != nil {
			return nil, err
		}
		earlier, err := t.tx.LiftDay(t.about.ID, lift, day)
		if err != nil {
			return nil, err
		}
		earlier = slices.DeleteFunc(earlier, func(s planner.Set) bool { return slices.Contains(without, s.Seq) })
		told := map[series]int{}
		for _, r := range t.beaten(before, earlier) {
			told[seriesOf(r.Record)] = max(told[seriesOf(r.Record)], rank(r.Kind))
		}
		for _, r := range t.beaten(slices.Concat(before, earlier), added) {
			if t.hasBefore(before, r) && rank(r.Kind) > told[seriesOf(r.Record)] {
				all = append(all, r)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b newRecord) int {
		return cmp.Or(rank(b.Kind)-rank(a.Kind), len(a.Variant)-len(b.Variant), cmp.Compare(b.Kg/b.was, a.Kg/a.was))
	})
	return all, nil
}

// hasBefore tells whether a record beats more than the warm-ups of the first day on which
// a series was lifted: something of an earlier day, or the best that the lifter told.
func (t *turn) hasBefore(before []planner.Set, r newRecord) bool {
	if r.Kind != strength.BestReps && r.Variant == "" && r.Gear == "" && t.about.Best(r.Lift) > 0 {
		return true
	}
	return len(strength.Records(strength.Equation(t.club.Equation), slices.DeleteFunc(slices.Clone(before), func(s planner.Set) bool {
		return s.Variant != r.Variant || s.Gear != r.Gear && (s.Gear != planner.Raw || r.Gear != "")
	}))) > 0
}

// recordsBeyond are the records of a set that its former form did not take: each is told
// of once, however often a set is corrected.
func (t *turn) recordsBeyond(was, s planner.Set) ([]newRecord, error) {
	all, err := t.records([]planner.Set{s}, s.Seq)
	if err != nil || len(all) == 0 || was.Pending {
		return all, err
	}
	before, err := t.records([]planner.Set{was}, s.Seq)
	return slices.DeleteFunc(all, func(r newRecord) bool {
		return slices.ContainsFunc(before, func(o newRecord) bool {
			return o.Kind == r.Kind && seriesOf(o.Record) == seriesOf(r.Record) && o.Reps == r.Reps && o.Weight >= r.Weight
		})
	}), err
}

// rank orders news: a single before a set, a set before an estimate.
func rank(k strength.RecordKind) int {
	return 1 + slices.Index([]strength.RecordKind{strength.BestEstimate, strength.BestReps, strength.BestSingle}, k)
}

// beaten are the records that added sets take from those before, as far as they are
// news: an estimate by a clear step, and nothing below the max the lifter told.
func (t *turn) beaten(before, added []planner.Set) (out []newRecord) {
	e := strength.Equation(t.club.Equation)
	fresh := strength.New(e, before, added)
	if len(fresh) == 0 {
		return nil
	}
	old := strength.Records(e, before)
	for _, r := range fresh {
		i := slices.IndexFunc(old, func(o strength.Record) bool {
			return o.Kind == r.Kind && seriesOf(o) == seriesOf(r) && (o.Reps == r.Reps || r.Kind == strength.BestEstimate)
		})
		n := newRecord{r, old[i].Kg}
		for _, o := range old { // who made 110 for five does not hear of 100 for two
			if r.Kind != strength.BestEstimate && o.Kind != strength.BestEstimate && seriesOf(o) == seriesOf(r) && o.Reps > r.Reps {
				n.was = max(n.was, o.Kg)
			}
		}
		if r.Variant == "" && r.Gear == "" && r.Kind != strength.BestReps {
			n.was = max(n.was, t.about.Best(r.Lift).Kg())
		}
		step := 1.0
		if r.Kind == strength.BestEstimate {
			step += recordStep
		}
		if r.Kg > n.was*step {
			out = append(out, n)
		}
	}
	return out
}

// recordNews is the best of new records in one line; empty where there is none.
func (t *turn) recordNews(all []newRecord) string {
	if len(all) == 0 {
		return ""
	}
	r := all[0]
	return render.NewRecord(r.Record, r.was, t.about.Unit, t.about.ID == t.speaker.ID)
}

// recordData lists new records for programs.
func recordData(all []newRecord) []map[string]any {
	rows := []map[string]any{}
	for _, r := range all {
		row := map[string]any{"kind": r.Kind, "lift": r.Lift, "variant": nil, "gear": cmp.Or(r.Gear, planner.Raw), "reps": r.Reps,
			"weight_kg": r.Weight.Kg(), "kg": r.Kg, "was_kg": r.was}
		if r.Variant != "" {
			row["variant"] = r.Variant
		}
		rows = append(rows, row)
	}
	return rows
}

// announce adds to an answer about kept sets what they beat.
func (t *turn) announce(view *render.LogView, all []newRecord) {
	view.Record = t.recordNews(all)
	if d, ok := view.Data.(map[string]any); ok && len(all) > 0 {
		d["records"] = recordData(all)
	}
}

// fileBests are the records that the sets of a file take from the log, one for each
// competition lift at most: years of training are told of in one line.
func (t *turn) fileBests(fresh []planner.Set) (all []newRecord, err error) {
	for _, lift := range planner.CompetitionLifts() {
		added := slices.DeleteFunc(slices.Clone(fresh), func(s planner.Set) bool { return s.Lift != lift || s.Variant != "" })
		if len(added) == 0 {
			continue
		}
		before, err := t.tx.LiftBests(t.about.ID, lift, 1) // day 1 has no sets: the bests of all days
		if err != nil {
			return nil, err
		}
		beaten := t.beaten(before, added)
		slices.SortStableFunc(beaten, func(a, b newRecord) int { return cmp.Or(rank(b.Kind)-rank(a.Kind), cmp.Compare(b.Kg, a.Kg)) })
		if len(beaten) > 0 {
			all = append(all, beaten[0])
		}
	}
	return all, nil
}
