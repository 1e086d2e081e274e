package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// reviewParams are what /meet review takes.
func reviewParams() []Param {
	return []Param{
		{Name: "name", About: "which meet; the last one without it", Positional: true},
		{Name: "squat", About: "your heaviest good squat; 0: none was good"},
		{Name: "bench", About: "your heaviest good bench press; 0: none was good"},
		{Name: "deadlift", About: "your heaviest good deadlift; 0: none was good"},
		{Name: "misses", About: "attempts missed for strength, technique and commands, for example 1 0 2"},
		{Name: "well", About: "what went well, in a few words"},
		{Name: "next", About: "what to do otherwise next time, in a few words"},
	}
}

// reviewArgs is what a button about a review carries: the meet, and for taking it back
// what stood there before.
type reviewArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Meet   planner.MeetID   `json:"meet"`
	Before *reviewBefore    `json:"before,omitempty"`
}

type reviewBefore struct {
	Total   planner.Grams                  `json:"total"`
	Entered bool                           `json:"entered"`
	Bests   map[planner.Lift]planner.Grams `json:"bests"`
	Review  *store.Review                  `json:"review,omitempty"`
}

// reviewMeet answers /meet review: shows what was said of a meet, keeps what is told,
// or asks.
func reviewMeet(t *turn) (chat.Reply, error) {
	m, err := t.pastMeet()
	if err != nil {
		return chat.Reply{}, err
	}
	for _, o := range t.optionNames() {
		if o != "name" {
			return t.keepReview(m)
		}
	}
	r, told, err := t.tx.Review(m.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	if !told {
		return t.askReview(m, store.Review{})
	}
	return t.showReview(m, r, "Looking back")
}

// pastMeet is the meet that is named, else the last one that is over.
func (t *turn) pastMeet() (planner.Meet, error) {
	if name, given := t.options["name"]; given {
		m, err := t.meetNamed(name)
		if err != nil {
			return m, err
		}
		if m.Date > t.today() {
			if m, err = t.lastCalled(name, m); err != nil {
				return m, err
			}
		}
		return m, nil
	}
	all, err := t.tx.Meets(t.about.ID)
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Date <= t.today() {
			return all[i], err
		}
	}
	if err == nil {
		err = planner.Errorf(planner.NotFound, "Look back on it the day it is over, or later.", "No meet on the calendar is over yet")
	}
	return planner.Meet{}, err
}

// lastCalled is the last meet of a name that is over.
func (t *turn) lastCalled(name string, next planner.Meet) (planner.Meet, error) {
	all, err := t.tx.Meets(t.about.ID)
	for i := len(all) - 1; i >= 0; i-- {
		if strings.EqualFold(all[i].Name, name) && all[i].Date <= t.today() {
			return all[i], err
		}
	}
	if err == nil {
		err = planner.Errorf(planner.Invalid, "Look back on it the day it is over, or later.", "%s is still to come (%s)", parse.Clean(next.Name), next.Date.Long())
	}
	return next, err
}

// askReview shows the form of a review; where there are no forms, what to write.
func (t *turn) askReview(m planner.Meet, r store.Review) (chat.Reply, error) {
	send, err := t.button("Send", "review.sent", reviewArgs{Lifter: t.about.ID, Meet: m.ID}, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	reply := private(chat.Message{Title: "Looking back on " + parse.Clean(m.Name),
		Text: "Two minutes while it is fresh: /meet review name:\"" + parse.Clean(m.Name) + "\" squat:… bench:… deadlift:… misses:\"1 0 2\" well:\"…\" next:\"…\"\n" +
			"misses: attempts missed for strength, technique and commands. You, your coach and the captain can read it; nothing about pain or health, please."})
	reply.Form = &chat.Form{Token: send.Token, Title: "Looking back", Fields: reviewFields(m, r, t.about.Unit)}
	return reply, nil
}

// reviewFields are the lines of the form, with what stands there already.
func reviewFields(m planner.Meet, r store.Review, unit planner.Unit) []chat.FormField {
	lifts, misses := "", ""
	if r.LiftsTold {
		var all []string
		for _, l := range liftsOf(m.Event) {
			all = append(all, liftMade(r, l).Number(unit))
		}
		lifts = strings.Join(all, " / ")
	}
	if r.LiftsTold || r.Strength+r.Technique+r.Command > 0 {
		misses = fmt.Sprintf("%d %d %d", r.Strength, r.Technique, r.Command)
	}
	return []chat.FormField{
		{Name: "lifts", Label: "Heaviest good lifts", Hint: render.LiftHint(liftsOf(m.Event)) + "; 0: none was good", Value: lifts},
		{Name: "misses", Label: "Missed: strength, technique, command", Hint: "how many of each, for example 1 0 2", Value: misses},
		{Name: "well", Label: "What went well", Hint: "a few words; you and your coaches read them", Value: r.Well},
		{Name: "next", Label: "What to do otherwise", Hint: "a few words; nothing about pain or health", Value: r.NextTime},
	}
}

// liftMade is the heaviest good attempt of a lift.
func liftMade(r store.Review, l planner.Lift) planner.Grams {
	return map[planner.Lift]planner.Grams{planner.Squat: r.Squat, planner.Bench: r.Bench, planner.Deadlift: r.Deadlift}[l]
}

// showReview shows a review beside what was expected, with the ways to change it.
func (t *turn) showReview(m planner.Meet, r store.Review, title string) (chat.Reply, error) {
	reply := private(render.Review(render.ReviewView{Title: title, Who: t.forWhom(), Meet: m, Lifts: liftsOf(m.Event), Unit: t.about.Unit,
		Told: r.LiftsTold, Made: map[planner.Lift]planner.Grams{planner.Squat: r.Squat, planner.Bench: r.Bench, planner.Deadlift: r.Deadlift},
		Strength: r.Strength, Technique: r.Technique, Command: r.Command, Low: r.ExpectedLow, High: r.ExpectedHigh, Well: r.Well, Next: r.NextTime}))
	b, err := t.button("Change", "review.form", reviewArgs{Lifter: t.about.ID, Meet: m.ID}, t.speaker)
	reply.Message.Buttons = []chat.Button{b}
	return reply, err
}
