package bot

import (
	"slices"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// Answers of a check-in, from good to bad; their places are what is kept.
var (
	tiredWords = []string{"rested", "a bit tired", "very tired"}
	staleWords = []string{"keen", "so-so", "stale"}
)

// checkInWeeks is how many weeks of answers are shown.
const checkInWeeks = 8

// checkInParams are what /checkin takes.
func checkInParams() []Param {
	return []Param{
		{Name: "tired", About: "how rested you are", Choices: tiredWords},
		{Name: "fresh", About: "how much you want to train", Choices: staleWords},
	}
}

// checkInTap is what one button under a check-in carries: an answer to one of its
// two questions.
type checkInTap struct {
	Tired *int `json:"tired,omitempty"`
	Stale *int `json:"stale,omitempty"`
}

// checkIn answers /checkin: keeps what is told, asks for what is not, and shows how
// it went.
func checkIn(t *turn) (chat.Reply, error) {
	if err := t.maySeeBody(); err != nil {
		return chat.Reply{}, err
	}
	var tap checkInTap
	if v, given := t.options["tired"]; given {
		n := slices.Index(tiredWords, v)
		tap.Tired = &n
	}
	if v, given := t.options["fresh"]; given {
		n := slices.Index(staleWords, v)
		tap.Stale = &n
	}
	return t.checkedIn(tap)
}

// checkInAsked answers the button under the club's weekly post, for whoever presses.
func checkInAsked(t *turn, _ store.Button) (chat.Reply, error) {
	t.about = t.speaker
	return t.checkedIn(checkInTap{})
}

// checkInTapped answers one tap; the next question takes the place of the one
// answered.
func checkInTapped(t *turn, b store.Button) (chat.Reply, error) {
	tap, err := args[checkInTap](b)
	if err != nil {
		return chat.Reply{}, err
	}
	t.about = t.speaker
	r, err := t.checkedIn(tap)
	r.Kind = chat.Update
	return r, err
}

// checkedIn keeps an answer and shows what is still asked. Only the lifter answers.
func (t *turn) checkedIn(tap checkInTap) (chat.Reply, error) {
	today := t.today()
	if tap.Tired != nil || tap.Stale != nil {
		if t.about.ID != t.speaker.ID {
			return chat.Reply{}, planner.Errorf(planner.Forbidden, "Leave lifter: out to answer for yourself.", "How somebody feels only they can say")
		}
		if err := t.tx.AddCheckIn(t.about.ID, store.CheckIn{Day: today, Tired: tap.Tired, Stale: tap.Stale}, t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	all, err := t.tx.CheckIns(t.about.ID, today.AddDays(-7*checkInWeeks))
	if err != nil {
		return chat.Reply{}, err
	}
	v := render.CheckInView{Who: t.forWhom(), Today: today, Tired: tiredWords, Stale: staleWords}
	for _, c := range all {
		v.Rows = append(v.Rows, render.CheckInRow(c))
	}
	m := render.CheckIn(v)
	if t.about.ID == t.speaker.ID {
		m.Buttons, err = t.checkInButtons(v.Answered())
	}
	return private(m), err
}

// checkInButtons ask what was not answered today: first the one, then the other.
func (t *turn) checkInButtons(tired, stale bool) (buttons []chat.Button, err error) {
	words, tap := tiredWords, func(n int) checkInTap { return checkInTap{Tired: &n} }
	switch {
	case tired && stale:
		return nil, nil
	case tired:
		words, tap = staleWords, func(n int) checkInTap { return checkInTap{Stale: &n} }
	}
	for n, word := range words {
		b, err := t.button(render.Label(word), "checkin.tap", tap(n), t.speaker)
		if err != nil {
			return nil, err
		}
		buttons = append(buttons, b)
	}
	return buttons, nil
}
