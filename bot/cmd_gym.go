package bot

import (
	"strconv"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
)

// gymParams are what /club gym takes.
func gymParams() []Param {
	return []Param{
		{Name: "unit", About: "what the discs are marked in", Choices: unitWords},
		{Name: "bar", About: "what the bar weighs, usually 20 kg or 45 lb"},
		{Name: "collars", About: "what the pair of collars weighs; 0 for light ones"},
		{Name: "smallest", About: "the smallest single disc, for example 1.25"},
		{Name: "discs", About: "all sizes of discs, for example 25 20 15 10 5 2.5 1.25; usual: the common ones"},
		{Name: "missing", About: "what the gym lacks, with commas; nothing: it has all"},
	}
}

// gymGear lists what a gym may lack.
var gymGear = []load.Gear{load.Barbell, load.Rack, load.BenchGear, load.Dumbbells, load.Cable, load.LegRoom, load.Bars, load.Boxes, load.SafetyBar}

// clubGym answers /club gym: shows the bar, the discs and what is missing, or changes
// what is named.
func clubGym(t *turn) (chat.Reply, error) {
	g, err := t.gym()
	if err != nil {
		return chat.Reply{}, err
	}
	if len(t.options) == 0 {
		return private(render.Gym("The gym", g)), nil
	}
	if g, err = t.gymWith(g); err != nil {
		return chat.Reply{}, err
	}
	if _, err := load.WarmUp(load.Work{}, g); err != nil { // refuses bars and discs that no gym has
		return chat.Reply{}, err
	}
	if err := t.tx.SaveGym(g); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "changed the gym: "+strings.Join(t.optionNames(), ", "), t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(render.Gym("Saved", g)), nil
}

// gymWith is a gym with the options applied. Another unit brings that unit's usual
// bar and discs.
func (t *turn) gymWith(g load.Gym) (load.Gym, error) {
	if v, given := t.options["unit"]; given && planner.Unit(v) != g.Unit {
		g = load.Gym{Unit: planner.Unit(v), Missing: g.Missing}
	}
	if g.Unit == "" {
		g.Unit = planner.KG
	}
	if g.Bar == 0 {
		g.Bar = usualBar(g.Unit)
		if g.Unit == planner.KG && g.Collars == 0 {
			g.Collars = usualCollars
		}
	}
	var err error
	if v, given := t.options["bar"]; given {
		if g.Bar, err = parse.Weight(v, g.Unit); err != nil {
			return g, named("bar", err)
		}
	}
	if v, given := t.options["collars"]; given && v == "0" {
		g.Collars = 0
	} else if given {
		if g.Collars, err = parse.Weight(v, g.Unit); err != nil {
			return g, named("collars", err)
		}
	}
	if v, given := t.options["discs"]; given {
		if g.Discs, err = discs(v, g.Unit); err != nil {
			return g, err
		}
	}
	if v, given := t.options["smallest"]; given {
		if g.Discs, err = downTo(g.Discs, v, g.Unit); err != nil {
			return g, err
		}
	}
	if v, given := t.options["missing"]; given {
		g.Missing, err = missingGear(v)
	}
	return g, err
}

// usualCollars is the pair of competition collars.
const usualCollars = 5 * planner.Kilogram

// usualBar is the bar of a gym that has said nothing (common practice).
func usualBar(unit planner.Unit) planner.Grams {
	if unit == planner.LB {
		return planner.Pounds(45)
	}
	return 20 * planner.Kilogram
}

// discs reads sizes of discs.
func discs(v string, unit planner.Unit) ([]planner.Grams, error) {
	if strings.EqualFold(v, usualDecider) {
		return nil, nil
	}
	var out []planner.Grams
	for _, word := range strings.FieldsFunc(v, func(r rune) bool { return r == ' ' || r == ';' }) {
		g, err := discSize(word, unit)
		if err != nil {
			return nil, err
		}
		out = append(out, g)
	}
	if len(out) == 0 || len(out) > 15 {
		return nil, planner.Errorf(planner.Invalid, "Write them with blanks between: 25 20 15 10 5 2.5 1.25", "discs: 1 to 15 sizes are needed")
	}
	return out, nil
}

// discSize reads the size of one disc.
func discSize(v string, unit planner.Unit) (planner.Grams, error) {
	n, err := strconv.ParseFloat(strings.ReplaceAll(v, ",", "."), 64)
	if err != nil || !(n > 0 && n < 200) {
		n = 0
	}
	g := planner.In(unit, n)
	if g < 100 || g > 50*planner.Kilogram {
		return 0, planner.Errorf(planner.Invalid, "Name single discs in "+string(unit)+", for example 1.25.", "discs: %q is no disc of 0.1 to 50 kg", parse.Clean(v))
	}
	return g, nil
}

// downTo is the discs with the given smallest one.
func downTo(all []planner.Grams, v string, unit planner.Unit) ([]planner.Grams, error) {
	least, err := discSize(v, unit)
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		all = usualDiscs
		if unit == planner.LB {
			all = []planner.Grams{planner.Pounds(45), planner.Pounds(35), planner.Pounds(25), planner.Pounds(10), planner.Pounds(5), planner.Pounds(2.5)}
		}
	}
	var out []planner.Grams
	for _, d := range all {
		if d > least {
			out = append(out, d)
		}
	}
	return append(out, least), nil
}

// missingGear reads what a gym lacks.
func missingGear(v string) ([]load.Gear, error) {
	if strings.EqualFold(v, "nothing") || strings.EqualFold(v, "none") {
		return nil, nil
	}
	var out []load.Gear
	for _, word := range strings.Split(v, ",") {
		word = strings.ToLower(strings.TrimSpace(word))
		found := false
		for _, g := range gymGear {
			if string(g) == word || string(g) == word+"s" || string(g)+"s" == word {
				out, found = append(out, g), true
			}
		}
		if !found {
			return nil, planner.Errorf(planner.Invalid, "It can be: "+strings.Join(words(gymGear), ", ")+".", "missing: I do not know %q", parse.Clean(word))
		}
	}
	return out, nil
}
