package bot

import (
	"slices"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// farthestAway is how far from today, in days, a time away may begin or end:
// further is a typing slip.
const farthestAway = 366

// awayParams are the two days of a time away.
func awayParams() []Param {
	return []Param{{Name: "from", About: "the first day away; without it: today"}, {Name: "to", About: "the last day away; leave it out while you do not know"}}
}

// goAway answers /season away. Why is never asked.
func goAway(t *turn) (chat.Reply, error) {
	if len(t.optionNames()) == 0 {
		all, err := t.tx.Aways(t.about.ID)
		if err != nil {
			return chat.Reply{}, err
		}
		if a, away := awayNow(all, t.today()); away {
			return t.isAway(a)
		}
	}
	a, err := t.awayFromOptions()
	if err != nil {
		return chat.Reply{}, err
	}
	return t.keepAway(a)
}

// awayFromOptions reads the two days.
func (t *turn) awayFromOptions() (store.Away, error) {
	a := store.Away{Lifter: t.about.ID, From: t.today(), By: t.speaker.ID}
	var err error
	if v, ok := t.options["from"]; ok {
		if a.From, err = nearDate(v, t.today()); err != nil {
			return a, named("from", err)
		}
	}
	if v, ok := t.options["to"]; ok {
		if a.To, err = lastDate(v, a.From, t.today()); err != nil {
			return a, named("to", err)
		}
		if a.To < a.From {
			return a, planner.Errorf(planner.Invalid, "Give the first and the last day away.", "to: %s lies before the first day away, %s", a.To.Long(), a.From.Long())
		}
	}
	for _, d := range []planner.Date{a.From, a.To} {
		if away := t.today().DaysUntil(d); !d.IsZero() && (away > farthestAway || away < -farthestAway) {
			return a, planner.Errorf(planner.Invalid, "Check the year.", "%s is more than a year from today", d.Long())
		}
	}
	return a, nil
}

// nearDate reads a day that may be past or to come: a day without a year is the one
// nearest to today.
func nearDate(v string, today planner.Date) (planner.Date, error) {
	next, err := parse.Date(v, today)
	if err != nil {
		return 0, err
	}
	if last, err := parse.PastDate(v, today); err == nil && last.DaysUntil(today) < today.DaysUntil(next) {
		return last, nil
	}
	return next, nil
}

// lastDate reads the last day of a time: a day without a year is the first one on or
// after its first day, while words such as tomorrow are meant from today.
func lastDate(v string, from, today planner.Date) (planner.Date, error) {
	d, err := parse.Date(v, today)
	if err == nil && (d < from || from.DaysUntil(d) > farthestAway/2) {
		return parse.Date(v, from)
	}
	return d, err
}

// keepAway keeps a time away in place of those it corrects, and sees what follows for
// the plan.
func (t *turn) keepAway(a store.Away) (chat.Reply, error) {
	said, err := t.storeAway(&a, true)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.replan(change{said: said, title: "Your plan, with the time away", data: map[string]any{"away": awayRow(a)}})
	if err != nil || !a.To.IsZero() || a.From > t.today() {
		return r, err
	}
	back, err := t.backButton(a.Lifter)
	r.Message.Buttons = append(r.Message.Buttons, back)
	return r, err
}

// backLife is how long 'Back now' can be pressed: nobody knows how long it takes.
const backLife = 180 * 24 * time.Hour

func (t *turn) backButton(l planner.LifterID) (chat.Button, error) {
	return t.lasting(backLife, "Back now", "away.back", lifterArgs{l}, t.speaker)
}

// backAgain asks somebody who logs the day's first set while marked as away whether they
// are back.
func (t *turn) backAgain(sets []planner.Set) (b chat.Button, ask bool, err error) {
	today := t.today()
	if !slices.ContainsFunc(sets, func(s planner.Set) bool { return s.Day == today }) {
		return b, false, nil
	}
	all, err := t.tx.Aways(t.about.ID)
	if err != nil {
		return b, false, err
	}
	last, err := t.tx.LastLogged(t.about.ID)
	if a, away := awayNow(all, today); err != nil || !away || a.From == today || last == today {
		return b, false, err
	}
	b, err = t.backButton(t.about.ID)
	return b, true, err
}

// isAway says that somebody is marked as away.
func (t *turn) isAway(a store.Away) (chat.Reply, error) {
	back, err := t.backButton(a.Lifter)
	text := render.Sentence(t.word("away ", t.forWhom()+" is away ") + render.AwaySpan(a.From, a.To))
	return private(chat.Message{Text: text, Buttons: []chat.Button{back}, Data: map[string]any{"away": awayRow(a)}}), err
}

// storeAway keeps a time away, tells who else should know, and says what was kept. What
// a lifter tells corrects what was told before of the same days; what is told for many
// at once corrects nothing of theirs.
func (t *turn) storeAway(a *store.Away, corrects bool) (said string, err error) {
	replaced := ""
	if corrects {
		if replaced, err = t.correctAway(a); err != nil {
			return "", err
		}
	}
	if a.ID, err = t.tx.AddAway(*a, t.now); err != nil {
		return "", err
	}
	span := render.AwaySpan(a.From, a.To)
	if err := t.note(t.about, "You are marked as away "+span+".", undo{"away.drop", awayArgs{a.ID, a.Lifter}}); err != nil {
		return "", err
	}
	return render.Sentence(t.word("kept: away ", "kept for "+t.forWhom()+": away ")+span) + replaced, t.audit("told a time away")
}

// correctAway drops the times away whose days a is told for anew, and says which; it
// says also what stays told for later. A last day told for a time that goes on leaves
// its first day where it was.
func (t *turn) correctAway(a *store.Away) (said string, err error) {
	all, err := t.tx.Aways(a.Lifter)
	if err != nil {
		return "", err
	}
	for _, old := range all {
		span := render.AwaySpan(old.From, old.To)
		if !touches(old, *a, t.today()) {
			switch open := a.To.IsZero() || old.To.IsZero(); {
			case open && old.From > t.today():
				said += " Still told for later: away " + span + "."
			case open && old.To.IsZero():
				said += " Still away as well: " + span + "."
			}
			continue
		}
		if old.To.IsZero() && old.From < a.From {
			a.From = old.From
		}
		said += " That takes the place of: " + span + "."
		if err := t.tx.DropAway(old.ID); err != nil {
			return "", err
		}
	}
	return said, nil
}

// touches tells whether two times away share a day or follow each other. One without a
// last day is taken to end today, or on its first day: it will most likely be over
// before what is told for later.
func touches(a, b store.Away, today planner.Date) bool {
	last := func(x store.Away) planner.Date {
		if x.To.IsZero() {
			return max(x.From, today)
		}
		return x.To
	}
	return last(a).AddDays(1) >= b.From && last(b).AddDays(1) >= a.From
}

func awayRow(a store.Away) map[string]any {
	row := map[string]any{"from": a.From, "to": nil}
	if !a.To.IsZero() {
		row["to"] = a.To
	}
	return row
}

// comeBack answers /season back: the time away ended yesterday, and today counts
// again.
func comeBack(t *turn) (chat.Reply, error) {
	all, err := t.tx.Aways(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	a, away := awayNow(all, t.today())
	if later, told := awayLater(all, t.today()); !away && told {
		return t.offerToForget(later)
	}
	if !away {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Tell me a time away with /season away from:… to:…", "%s", t.word("You are not marked as away today", "That lifter is not marked as away today"))
	}
	for _, other := range all {
		if _, now := awayNow([]store.Away{other}, t.today()); now && other.ID != a.ID {
			if err := t.cutAway(other); err != nil {
				return chat.Reply{}, err
			}
		}
	}
	return t.endAway(a)
}

// cutAway ends a time away the day before today, beside another that ends too.
func (t *turn) cutAway(a store.Away) error {
	last := t.today().AddDays(-1)
	if last < a.From {
		return t.tx.DropAway(a.ID)
	}
	return t.tx.EndAway(a.ID, last)
}

// awayLater returns the next time away that was told for later.
func awayLater(all []store.Away, today planner.Date) (store.Away, bool) {
	for _, a := range all {
		if a.From > today {
			return a, true
		}
	}
	return store.Away{}, false
}

// offerToForget answers who is not away today but has told a time away for later: it
// may be that one which falls through.
func (t *turn) offerToForget(a store.Away) (chat.Reply, error) {
	b, err := t.button("Not away after all", "away.forget", awayArgs{a.ID, a.Lifter}, t.speaker)
	text := t.word("You are not marked as away today. Told for later: away ", t.forWhom()+" is not marked as away today. Told for later: away ") + render.AwaySpan(a.From, a.To) + "."
	return private(chat.Message{Text: text, Buttons: []chat.Button{b}, Data: map[string]any{"away": awayRow(a)}}), err
}

// forgetAwayPressed answers 'Not away after all'.
func forgetAwayPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[awayArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropAway(a.Away); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(t.about, "You are no longer marked as away for later.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("took a time away back"); err != nil {
		return chat.Reply{}, err
	}
	return t.replan(change{said: "Taken back: not away then.", title: "Your plan, without the time away", data: map[string]any{"away": nil}})
}

// endAway ends a time away the day before today; one that began today never was.
func (t *turn) endAway(a store.Away) (chat.Reply, error) {
	last := t.today().AddDays(-1)
	data := map[string]any{"back": t.today()}
	if last < a.From {
		if err := t.tx.DropAway(a.ID); err != nil {
			return chat.Reply{}, err
		}
		return private(chat.Message{Text: "Good to have you back. It was less than a day, so nothing changes.", Data: data}), t.audit("ended a time away")
	}
	if err := t.tx.EndAway(a.ID, last); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(t.about, "You are marked as back since "+t.today().Short()+".", undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("ended a time away"); err != nil {
		return chat.Reply{}, err
	}
	said := t.word("Good to have you back.", "Kept: "+t.forWhom()+" is back.")
	if rule := render.ReturnLine([]planner.Away{{From: a.From, To: last}}, t.today(), t.club.WeekStart); rule != "" {
		said += "\n" + rule
	}
	return t.replan(change{said: said, title: "Your plan, after the time away", data: data})
}

// backPressed answers 'Back now'.
func backPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[lifterArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	return comeBack(t)
}

// awayArgs is what taking back a time away needs.
type awayArgs struct {
	Away   store.AwayID     `json:"away"`
	Lifter planner.LifterID `json:"lifter"`
}

// takeAwayBack forgets a time away that somebody told for the lifter.
func takeAwayBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[awayArgs](n)
	if err != nil {
		return "", err
	}
	return "Taken back: you are not marked as away then.", t.tx.DropAway(a.Away)
}
