package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// longestOff is how many days a lift may be off the plan at a time.
const longestOff = 366

// restLift answers /season rest: a lift comes off the plan until a day, or is put
// back. Why is never asked.
func restLift(t *turn) (chat.Reply, error) {
	lift := planner.Lift(t.options["lift"])
	v, given := t.options["until"]
	if !given {
		return t.showLiftsOff(lift)
	}
	if strings.EqualFold(v, "now") || strings.EqualFold(v, "back") {
		return t.putLiftBack(lift)
	}
	until, err := parse.Date(v, t.today())
	if err != nil {
		return chat.Reply{}, named("until", err)
	}
	if days := t.today().DaysUntil(until); days < 1 || days > longestOff {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Give the day on which it is back, from tomorrow to a year ahead; until:now puts it back.", "until: %s is not such a day", until.Long())
	}
	if err := t.tx.TakeLiftOff(store.LiftOff{Lifter: t.about.ID, Lift: lift, From: t.today(), Until: until, By: t.speaker.ID}, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(t.about, "Your "+string(lift)+" is off your plan until "+until.Short()+".", undo{"lift.back", liftArgs{lift}}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("took a lift off the plan"); err != nil {
		return chat.Reply{}, err
	}
	return t.liftIsOff(lift, until)
}

// liftIsOff confirms that a lift is off the plan. The lengths of blocks do not hang
// on one lift, so there is nothing to propose; a meet that comes soon after is
// worth a word.
func (t *turn) liftIsOff(lift planner.Lift, until planner.Date) (chat.Reply, error) {
	meets, err := t.tx.Meets(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	back, err := t.button("Put it back", "lift.back", offArgs{t.about.ID, lift}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	m := render.LiftOff(lift, t.today(), until, meets, t.forWhom())
	m.Buttons = []chat.Button{back}
	return private(m), nil
}

// showLiftsOff says which lifts are off the plan.
func (t *turn) showLiftsOff(lift planner.Lift) (chat.Reply, error) {
	off, err := t.tx.LiftsOff(t.about.ID, t.today())
	if err != nil {
		return chat.Reply{}, err
	}
	for _, o := range off {
		if o.Lift == lift {
			return t.liftIsOff(lift, o.Until)
		}
	}
	return chat.Reply{}, planner.Errorf(planner.Invalid, usage(*t.command), "Say until when the %s is off the plan", lift)
}

// putLiftBack lets a lift be trained again from today.
func (t *turn) putLiftBack(lift planner.Lift) (chat.Reply, error) {
	was, err := t.tx.PutLiftBack(t.about.ID, lift)
	if err != nil {
		return chat.Reply{}, err
	}
	if !was {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "", "The %s is on the plan already", lift)
	}
	if err := t.note(t.about, "Your "+string(lift)+" is back on your plan.", undo{}); err != nil {
		return chat.Reply{}, err
	}
	text := "The " + string(lift) + " is back on the plan. Begin lighter than you left off, and add weight week by week."
	return private(chat.Message{Text: text, Data: map[string]any{"lift": lift, "off_until": nil}}), t.audit("put a lift back on the plan")
}

// liftArgs is what taking back a lift's time off needs.
type liftArgs struct {
	Lift planner.Lift `json:"lift"`
}

// offArgs is what 'Put it back' carries.
type offArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Lift   planner.Lift     `json:"lift"`
}

// liftBackPressed answers 'Put it back'.
func liftBackPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[offArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	return t.putLiftBack(a.Lift)
}

// takeLiftBack puts back a lift that somebody took off the lifter's plan.
func takeLiftBack(t *turn, n store.Note) (string, error) {
	a, err := noteDetail[liftArgs](n)
	if err != nil {
		return "", err
	}
	_, err = t.tx.PutLiftBack(n.Lifter, a.Lift)
	return "Taken back: the " + string(a.Lift) + " is on your plan.", err
}
