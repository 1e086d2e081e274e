package bot

import (
	"errors"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/planner/bodyweight"
	"blockbell/store"
)

// weightReach is how many days back weighings are read for the picture.
const weightReach = 182

// weightParams are what /bodyweight takes.
func weightParams() []Param {
	return []Param{
		{Name: "weight", About: "what you weigh, for example 62.4; without it: only show", Positional: true},
		{Name: "date", About: "the day, if not today"},
		{Name: "drop", About: "forget the weighing of that day", Choices: yesNo},
		{Name: "seen_by", About: "who else may see bodyweight and check-ins", Choices: seenWords},
	}
}

// seenWords are the answers to who may see what is about the body.
var seenWords = []string{string(store.SeenByCoach), string(store.SeenByCaptains), string(store.SeenByNobody)}

// showBodyweight answers /bodyweight: keeps a weighing, then shows where it stands.
func showBodyweight(t *turn) (chat.Reply, error) {
	if err := t.maySeeBody(); err != nil {
		return chat.Reply{}, err
	}
	done, err := t.changeBodyweight()
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	rows, err := t.tx.Bodyweights(c.lifter.ID, c.today.AddDays(-weightReach), c.today)
	if err != nil {
		return chat.Reply{}, err
	}
	v := render.WeightView{Lifter: c.lifter, Today: c.today, Done: done, Who: t.forWhom()}
	for _, r := range rows {
		v.Weighings = append(v.Weighings, bodyweight.Weighing(r))
	}
	v.Trend = bodyweight.Read(v.Weighings, c.today)
	v.Meet, v.HasMeet = c.nextMeet()
	return private(render.Bodyweight(v)), nil
}

// changeBodyweight does what the options ask for and says what was done; empty where
// nothing was to be changed.
func (t *turn) changeBodyweight() (string, error) {
	if who, given := t.options["seen_by"]; given {
		if t.about.ID != t.speaker.ID {
			return "", planner.Errorf(planner.Forbidden, "They can set it with /bodyweight seen_by.", "Who may see a lifter's bodyweight is for that lifter to say")
		}
		if err := t.tx.SetBodySeenBy(t.about.ID, store.Seen(who)); err != nil {
			return "", err
		}
		return "Bodyweight and check-ins are shown to you and " + strings.Replace(seenPhrase(store.Seen(who)), "their", "your", 1) + ".", nil
	}
	day := t.today()
	if text, given := t.options["date"]; given {
		var err error
		if day, err = t.loggedDay(text); err != nil {
			return "", err
		}
	}
	text, weighed := t.options["weight"]
	switch {
	case t.options["drop"] == "yes":
		return t.dropWeighing(day)
	case !weighed:
		return "", nil
	}
	mass, err := parse.Bodyweight(text, t.about.Unit)
	if err != nil {
		return "", err
	}
	if err := t.keepBodyweight(parse.Result{Bodyweight: mass, BodyweightDay: day}, ""); err != nil {
		return "", err
	}
	if err := t.note(t.about, "A bodyweight of "+day.Short()+" was kept for you. /bodyweight shows it; drop:yes forgets it.", undo{}); err != nil {
		return "", err
	}
	if err := t.audit("logged a bodyweight"); err != nil {
		return "", err
	}
	return "Kept: " + mass.Text(t.about.Unit) + " on " + day.Short() + ".", nil
}

// dropWeighing forgets the weighing of a day; the newest one left is the lifter's
// bodyweight then.
func (t *turn) dropWeighing(day planner.Date) (string, error) {
	was, err := t.tx.DropBodyweight(t.about.ID, day)
	if err != nil {
		return "", err
	}
	if !was {
		return "", planner.Errorf(planner.NotFound, "/bodyweight shows the last ones.", "There is no weighing on %s", day.Short())
	}
	left, err := t.tx.Bodyweights(t.about.ID, day.AddDays(-logReach), t.today())
	if err != nil {
		return "", err
	}
	if n := len(left); n > 0 {
		t.about.Bodyweight = left[n-1].Mass
		if err := t.tx.SaveLifter(t.about, t.now); err != nil {
			return "", err
		}
	}
	if err := t.note(t.about, "Your weighing of "+day.Short()+" was taken out. /bodyweight shows what is left.", undo{}); err != nil {
		return "", err
	}
	return "Forgotten: the weighing of " + day.Short() + ".", t.audit("dropped a bodyweight")
}

// maySeeBody lets the lifter, and those the lifter allows, see bodyweight and
// check-ins: usually the lifter's own coach, which is the captain where none is set.
func (t *turn) maySeeBody() error {
	if t.about.ID == t.speaker.ID {
		return nil
	}
	who, err := t.tx.BodySeenBy(t.about.ID)
	if err != nil {
		return err
	}
	coach := t.about.Coach == t.speaker.ID || t.about.Coach == 0 && t.speaker.Captain
	if who == store.SeenByCoach && coach || who == store.SeenByCaptains && (coach || t.speaker.Captain) {
		return nil
	}
	seers := "nobody else"
	if who != store.SeenByNobody {
		seers = seenPhrase(who) + " only"
	}
	return planner.Errorf(planner.Forbidden, "They can allow it with /bodyweight seen_by.", "Bodyweight and check-ins of %s are shown to them and %s", render.Called(t.about), seers)
}

// bodyHidden tells whether the speaker may not see what is about the body of the
// lifter the turn is about.
func (t *turn) bodyHidden() (bool, error) {
	err := t.maySeeBody()
	var refused *planner.Error
	if errors.As(err, &refused) && refused.Kind == planner.Forbidden {
		return true, nil
	}
	return false, err
}

// masked is a lifter as those see them who may not see the bodyweight.
func masked(l planner.Lifter, hidden bool) planner.Lifter {
	if hidden {
		l.Bodyweight = 0
	}
	return l
}

// discreet leaves out of a plan what it tells of the lifter's bodyweight where the
// speaker may not see that.
func (t *turn) discreet(p blocks.Plan) (blocks.Plan, error) {
	hidden, err := t.bodyHidden()
	if err == nil && hidden {
		p.Notes = slices.DeleteFunc(slices.Clone(p.Notes), blocks.TellsBodyweight)
	}
	return p, err
}

// seenPhrase says who else sees, after "you and" or "them and".
func seenPhrase(who store.Seen) string {
	switch who {
	case store.SeenByCaptains:
		return "every captain"
	case store.SeenByNobody:
		return "nobody else"
	}
	return "their own coach"
}
