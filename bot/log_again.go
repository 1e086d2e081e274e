package bot

import (
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// A message that says the same as one written so shortly before was sent twice, by
// a phone that lost its network or by a second tap. A single set may well be done
// again after a rest of two minutes, so it counts as new from then on; several
// sets at once take longer than that.
const (
	againOne  = 2 * time.Minute
	againMany = 15 * time.Minute
)

// sentAgain tells whether another message of the lifter wrote the same sets moments
// ago, and how long ago.
func (t *turn) sentAgain(sets []planner.Set, message string) (ago time.Duration, again bool, err error) {
	if len(sets) == 0 || t.event.Kind != chat.Said {
		return 0, false, nil
	}
	within := againMany
	if len(sets) == 1 && sets[0].Sets == 1 {
		within = againOne
	}
	first, last := sets[0].Day, sets[0].Day
	for _, s := range sets {
		first, last = min(first, s.Day), max(last, s.Day)
	}
	written, err := t.tx.WrittenSince(t.about.ID, first, last, t.now.Add(-within))
	for _, w := range written {
		if w.Message == message || !alike(w.Sets, sets) {
			continue
		}
		other, err := t.saidOtherwise(w.Message)
		if err != nil {
			return 0, false, err
		}
		if !other {
			return t.now.Sub(w.At), true, nil
		}
	}
	return 0, false, err
}

// saidOtherwise tells whether an earlier message of the speaker came to the same sets
// in another way: "squat 100x5" and then "100x5" are two sets, and nothing sent twice.
func (t *turn) saidOtherwise(message string) (bool, error) {
	said, err := t.tx.Said(t.speaker.ID, message)
	if err != nil || len(said) == 0 {
		return false, err
	}
	now, err := t.gists()
	if err != nil {
		return false, err
	}
	about := t.about.ID
	if _, solo := now[0]; solo {
		about = 0
	}
	was, known := said[about]
	return known && was != now[about], nil
}

// alike tells whether two messages wrote the same sets in the same order, whatever
// became of questions about them.
func alike(a, b []planner.Set) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		left := x.Reserve == nil && y.Reserve == nil || x.Reserve != nil && y.Reserve != nil && *x.Reserve == *y.Reserve
		if x.Reserve, y.Reserve = nil, nil; !left {
			return false
		}
		x.Seq, y.Seq, x.Pending, y.Pending = 0, 0, false, false
		if x != y {
			return false
		}
	}
	return true
}

// onceOnly answers a message that was sent twice: nothing is kept of it, and one
// tap says that the work was done twice indeed.
func (t *turn) onceOnly(res parse.Result, message string, ago time.Duration) (chat.Reply, error) {
	a := setAnswer{Lifter: t.about.ID, Group: t.event.ID + "/again", Message: message, Sets: res.Sets}
	b, err := t.button("I did it twice", "set.answer", a, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	data := t.logData(nil, 0, nil, nil)
	data["sent_again"] = t.setData(res.Sets)
	text := render.SentAgain(ago)
	if res.Alarm == parse.Alarm {
		text += "\n" + caution
	}
	return private(chat.Message{Text: text, Buttons: []chat.Button{b}, Data: data}), nil
}
