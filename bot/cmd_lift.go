package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/strength"
)

// liftParams are what /lift takes.
func liftParams() []Param {
	return []Param{{Name: "lift", About: "squat, bench, deadlift or a variant such as close-grip bench", Required: true, Positional: true}}
}

// showLift answers /lift: where a lift stands, whether it moves, its records and
// last sets, and a picture.
func showLift(t *turn) (chat.Reply, error) {
	lift, variant, err := liftAsked(t.options["lift"], standardOf(t.about))
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	h, err := t.history(c, lift, variant)
	if err != nil {
		return chat.Reply{}, err
	}
	return private(render.Lift(render.LiftView{
		Lifter: c.lifter, Lift: lift, Variant: variant, Today: c.today, Reading: strength.Read(h), Sets: h.Sets,
		Blocks: h.Blocks, Meets: c.meets, Who: t.forWhom(), Work: t.workOn(c, lift, h.Sets),
	})), nil
}

// liftAsked reads the name of a competition lift or of a variant of one.
func liftAsked(text string, standard parse.Standard) (planner.Lift, planner.Variant, error) {
	lift, variant, ok := parse.LiftOf(text, standard)
	if !ok || !lift.Competition() {
		hint := "Estimates are for squat, bench and deadlift and their variants; /log recent shows everything."
		if near, found := parse.Near(strings.ToLower(text), parse.LiftNames()); found && !ok {
			hint = "Did you mean " + near + "? " + hint
		}
		return "", "", planner.Errorf(planner.Invalid, hint,
			"The option lift is %q: I do not know a competition lift of that name", parse.Clean(text))
	}
	return lift, variant, nil
}
