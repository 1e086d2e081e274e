package blocks

import (
	"fmt"

	"blockbell/planner"
)

// block says why block i is as long as it is.
func (x *explaining) block(i int) BlockWhy {
	b := x.Blocks[i]
	w := BlockWhy{Kind: b.Kind, Start: b.Start}
	switch k := index(b.Kind); k {
	case iH:
		w.Sentence = fmt.Sprintf("%s of muscle work to build what the heavier sets will use: %s.%s", capital(plural(b.Weeks)), x.usual(i), x.dip(i))
	case iS:
		w.Sentence = fmt.Sprintf("%s of heavier sets, so that your muscle learns to lift more: %s.", capital(plural(b.Weeks)), x.usual(i))
		w.Upkeep = x.upkeep("the muscle stays")
	case iP:
		w.Sentence, w.Upkeep = x.peak(i)
	default:
		w.Sentence = "A few easy days after the meet, so that the next block begins fresh."
		if b.Weeks > 0 {
			w.Sentence = fmt.Sprintf("%s of easy work after the meet, so that the next block begins fresh.", capital(plural(b.Weeks)))
		}
	}
	return w
}

// usual holds a length against the usual one of the level (common practice).
func (x *explaining) usual(i int) string {
	kind, weeks := index(x.Blocks[i].Kind), x.Blocks[i].Weeks
	usual := int(x.Model.L0[kind])
	switch off := weeks - usual; {
	case off <= -2 && kind == iP && weeks >= x.limitOf(i):
		return fmt.Sprintf("shorter than the usual %d%s", usual, x.setter(i, ", because your limit is "+plural(x.limitOf(i))))
	case off <= -2 && kind == iH && x.tight:
		return fmt.Sprintf("shorter than the usual %d%s", usual, x.setter(i, ", because the other blocks need the weeks and your class leaves little room for new muscle"))
	case off <= -2:
		return fmt.Sprintf("shorter than the usual %d%s", usual, x.setter(i, ", because the other blocks need the weeks"))
	case off >= 2 && kind == iP && weeks > x.limitOf(i):
		return fmt.Sprintf("longer than the usual %d%s", usual, x.setter(i, ""))
	case off >= 2:
		return fmt.Sprintf("longer than the usual %d%s", usual, x.setter(i, ", because there is time"))
	case off == 0:
		return "the usual length"
	}
	return fmt.Sprintf("close to the usual %d", usual)
}

// setter says what set the length of block i, or why the planner chose it.
func (x *explaining) setter(i int, chosen string) string {
	if i >= len(x.SetBy) {
		return chosen
	}
	switch x.SetBy[i] {
	case SetByHand:
		return ", as fixed by hand"
	case SetByBound:
		return ", as long as a bound allows"
	case SetByAway:
		return ", because the time away ends it"
	case SetByPast:
		return ", because it has run for so long already"
	}
	return chosen
}

// plainDip is from where on a dip of the single is told, in percent.
const plainDip = -0.5

// dip tells how far the single may fall in muscle block i; nothing where it does
// not. Only weeks still to come are counted.
func (x *explaining) dip(i int) string {
	end := Mark{Date: x.Blocks[i].End.AddDays(1)}
	begin := Mark{Date: max(x.Blocks[i].Start, x.Model.Start.Date)}
	at := x.Model.trace(x.Blocks, []Mark{begin, end})
	fall := 100 * (at[1].S + at[1].E - at[0].S - at[0].E)
	if fall > plainDip {
		return ""
	}
	return fmt.Sprintf(" Your heaviest single may drop by about %.0f %% meanwhile; that is expected, and it comes back.", max(1, -fall))
}

// upkeep says how much muscle work stays in: a third of the sets keeps muscle (Bickel
// et al. 2011), half from 60 years on.
func (x *explaining) upkeep(so string) string {
	return fmt.Sprintf("Keep %s of the sets of a muscle block, so that %s.", upkeepShare(x.old), so)
}

// UpkeepShare says how much of the muscle block's sets keeps a lifter's muscle on a day,
// in words.
func UpkeepShare(l planner.Lifter, on planner.Date) string {
	return upkeepShare(planner.Age(l.Born, on) >= oldAge)
}

// upkeepShare is the part of the muscle block's sets that keeps muscle.
func upkeepShare(old bool) string {
	if old {
		return "half"
	}
	return "a third"
}

// peak says why a peaking block is as long as it is.
func (x *explaining) peak(i int) (sentence, upkeep string) {
	b := x.Blocks[i]
	name := x.nameOf(b.End.AddDays(1))
	if b.Weeks < 3 {
		return fmt.Sprintf("Little work until %s, so that you are rested on the day.", name), ""
	}
	sentence = fmt.Sprintf("%s of heavy singles and less work, to show your strength at %s: %s.", capital(plural(b.Weeks)), name, x.usual(i))
	if limit := x.limitOf(i); b.Weeks >= limit {
		sentence += fmt.Sprintf(" Your limit is %s.", plural(limit))
	}
	if b.TaperStart > b.Start {
		sentence += " You ease off (taper) from " + b.TaperStart.Short() + " on."
	}
	return sentence, x.upkeep("the muscle stays until you ease off")
}
