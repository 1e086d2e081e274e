package render

import (
	"fmt"
	"strings"

	"blockbell/planner"
	"blockbell/planner/load"
)

// perSide says what goes on each side of the bar.
func (v WeekView) perSide(w load.Work) string {
	side, collar := v.side(w)
	switch {
	case side == bareBar && collar != "":
		return "just the bar, with" + collar + " each side"
	case side == bareBar || side == "":
		return side
	}
	return "each side " + side + collar + v.foreign()
}

// foreign names the gym's unit where the lifter reckons in another.
func (v WeekView) foreign() string {
	if unit := v.Lifter.Unit; unit == v.gymUnit() || unit == "" && v.gymUnit() == planner.KG {
		return ""
	}
	return " " + string(v.gymUnit())
}

// bareBar is said of a bar without discs.
const bareBar = "just the bar"

// side lists the discs of each side of the bar, equal ones together, and the collar
// behind them where it counts in the load; empty where no load is set.
func (v WeekView) side(w load.Work) (side, collar string) {
	if w.Weight == 0 || w.Find || w.Role == load.Accessory {
		return "", ""
	}
	p, err := load.Plates(w.Weight, v.Gym)
	if err != nil {
		return "", ""
	}
	if p.Collars {
		collar = v.collar()
	}
	if len(p.PerSide) == 0 {
		return bareBar, strings.TrimPrefix(collar, " +")
	}
	return discs(p.PerSide, v.gymUnit()), collar
}

// collar is how a collar of each side is written that counts in the load.
func (v WeekView) collar() string {
	if !v.withCollars() {
		return ""
	}
	pair := v.Gym.Collars
	if pair == 0 {
		pair = planner.Kilograms(5) // as competition has them, where the gym said nothing
	}
	return " + collar " + (pair / 2).Number(v.gymUnit())
}

// discs writes a side of the bar, the heaviest inside: "2 x 25 + 10".
func discs(side []planner.Grams, unit planner.Unit) string {
	var all []string
	for i := 0; i < len(side); {
		n := i
		for n < len(side) && side[n] == side[i] {
			n++
		}
		text := side[i].Number(unit)
		if n-i > 1 {
			text = fmt.Sprintf("%d x %s", n-i, text)
		}
		all, i = append(all, text), n
	}
	return strings.Join(all, " + ")
}

// withCollars tells whether collars weigh anything in this gym.
func (v WeekView) withCollars() bool {
	return v.Gym.Collars > 0 || v.Gym.Bar == 0 && v.gymUnit() == planner.KG
}
