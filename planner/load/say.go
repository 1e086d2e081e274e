package load

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/planner"
)

// say adds what a lifter should know of this week.
func (j *job) say(p *Plan) {
	j.sayGear()
	j.sayEstimates(p)
	if len(j.Season) == 0 && j.Block.Kind == "" {
		j.note("Learning the lifts: 8 to 12 weeks of light, exact work; then ask your coach for a plan.")
	}
	switch {
	case p.Deload:
		j.note("Deload (easy week): about half the sets, a little lighter, more left. It is training, not rest.")
	case j.betweenTwo():
		j.note("Between two meets: what you have is kept, with little work and long rest.")
	case p.Taper:
		j.note("Taper (easing off): loads stay up to the last heavy day, sets go down, so that you are rested.")
	case j.stage.kind == planner.Peaking && !j.meet.IsZero() && len(p.Days) > 0:
		j.note("Heavy sets need a spotter or safety bars and closed collars. Nothing here is a maximum: stop a set that slows down badly.")
	}
	if j.back != nil {
		j.note(j.back.why)
	}
	j.sayAge()
	j.sayShape(p)
	if j.Version == Cautious {
		j.note("Careful version: no maximal work; the loads are a start, you decide by what is left. Ask a clinician first with a heart, kidney or metabolic disease, uncontrolled blood pressure, a hernia, recent surgery, an eye disease, or in pregnancy.")
	}
}

func (j *job) note(text string) {
	if !slices.Contains(j.notes, text) {
		j.notes = append(j.notes, text)
	}
}

func (j *job) sayGear() {
	if j.gear != planner.Raw {
		j.note("I plan raw lifting only: work in gear is between you and your coach.")
	}
	var lacks []string
	for _, l := range planner.CompetitionLifts() {
		if !j.rack.gym.has(find(Movement{l, ""}).needs) {
			lacks = append(lacks, string(l))
		}
	}
	if len(lacks) > 0 {
		j.leftOut = append(j.leftOut, fmt.Sprintf("Your gym lacks what the %s %s; accessories train the muscles instead.", list(lacks), verb(lacks, "needs", "need")))
	}
}

// list joins names: "squat, bench and deadlift".
func list(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// verb is the form of a word for one name or for several.
func verb(names []string, one, many string) string {
	if len(names) == 1 {
		return one
	}
	return many
}

// unsure is the standard deviation, as a share of an estimate, from which the
// lifter is told about it.
const unsure = 0.05

// sayEstimates tells where loads rest on something weaker than a trend, in one line
// for all the lifts that it holds for.
func (j *job) sayEstimates(p *Plan) {
	var unknown, told, weak []string
	for _, l := range planner.CompetitionLifts() {
		switch e := j.Estimates[l]; {
		case p.LiftSets[l] == 0:
		case e.Kg == 0:
			unknown = append(unknown, string(l))
		case e.Source == Claimed:
			told = append(told, string(l))
		case e.SD > unsure*e.Kg:
			weak = append(weak, string(l))
		}
	}
	if len(unknown) > 0 {
		j.note(fmt.Sprintf("No max is known of %s: this week finds %s, with sets of 5 that leave 3 or more.", list(unknown), verb(unknown, "it", "them")))
	}
	if len(told) > 0 {
		j.note(fmt.Sprintf("The %s loads rest on 95 %% of the max you told, until your log says more.", list(told)))
	}
	if len(weak) > 0 {
		j.note(fmt.Sprintf("The max of %s is not well known yet: where load and repetitions left disagree, go by what is left.", list(weak)))
	}
}

func (j *job) sayAge() {
	if top, why := j.ceiling(planner.Squat); why != "" && j.stage.kind != planner.Hypertrophy && top > 0 && j.Version != Cautious {
		j.note(sentence(why))
	}
	switch {
	case j.age >= 70:
		j.note("Hold your total: keeping what you have is progress.")
	case j.age >= 60 && j.stage.kind == planner.Hypertrophy:
		j.note("From 60 on every set leaves one more.")
	case j.age >= 60:
		j.note("From 60 on every set leaves one more, and heavy deadlifts come every 10 to 14 days.")
	}
}

// sayShape tells about odd days, few days, and what the event leaves out.
func (j *job) sayShape(p *Plan) {
	odd := j.block.Start.DaysUntil(j.block.Start.OnOrAfter(j.WeekStart))
	building := j.stage.kind == planner.Hypertrophy || j.stage.kind == planner.Strength
	if building && p.Start == j.block.Start && odd > 0 && odd < 4 && p.End < j.block.Start.AddDays(odd) {
		j.note("The block's first full week begins on " + j.block.Start.OnOrAfter(j.WeekStart).Short() + "; until then start when you like.")
	}
	if len(j.days) == 1 {
		j.leftOut = append(j.leftOut, "One day a week keeps most of what you have; the sets that need a second day are left out.")
	}
	if j.event != planner.Full {
		j.note("Lifts that your meet does not count stay at upkeep, without heavy days.")
	}
	low := ""
	for _, l := range planner.CompetitionLifts() {
		lo, _, ok := SetRange(j.level, j.stage.kind, l)
		if ok && j.counts(l) && !p.Deload && !p.Eased && j.back == nil && j.stage.kind != planner.Peaking && p.LiftSets[l] < lo && p.End.DaysUntil(p.Start) == -6 && !j.off(l, p.End) && !p.FromTable && j.rack.gym.has(find(Movement{l, ""}).needs) {
			low = fmt.Sprintf("%d training days hold fewer sets than usual for a lifter of your level; another day would bring them.", len(j.days))
		}
	}
	if low != "" && len(j.days) > 1 {
		j.leftOut = append(j.leftOut, low)
	}
}
