package bot

import (
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// The marks on a message: kept, and the hand that says stop.
const (
	markKept = "✅"
	markStop = "✋"
)

// caution is said to words of alarm. Nothing of them is kept.
const caution = "Stop for today. Please talk to your coach, and if it is sudden or severe, to a doctor now."

// said answers a message that is no command. Only the log channel and direct
// conversations are read; talk is left alone.
func (t *turn) said() (chat.Reply, error) {
	if t.event.Channel != "" && t.event.Channel != t.club.LogChannel {
		return chat.Reply{}, nil
	}
	r, handled, err := t.teamSaid(t.event.Text, t.event.Message, 0, nil)
	if err == nil && !handled {
		r, err = t.read(t.event.Text, t.event.Message, t.today())
	}
	if err == nil && (r.Kind != chat.Silent || t.event.Kind == chat.Edited) {
		err = t.keepSaid()
	}
	return r, err
}

// read logs what a message says, on the given day where it names none.
func (t *turn) read(text, message string, day planner.Date) (chat.Reply, error) {
	best := t.bests()
	res, err := t.understand(text, day, best)
	if err != nil {
		return chat.Reply{}, err
	}
	if res.Chatter && res.Alarm == parse.NoAlarm {
		return chat.Reply{}, nil
	}
	if res.Correct != nil && res.Correct.Talk {
		if just, err := t.justLogged(); err != nil || !just {
			return chat.Reply{}, err
		}
	}
	if err := t.join(); err != nil {
		return chat.Reply{}, err
	}
	if res.Undo || res.Correct != nil {
		return t.putRight(res)
	}
	if res.Alarm == parse.Pain {
		first, err := t.tx.FirstCall(t.about.ID, t.today(), t.now)
		if err != nil || res.Chatter && !first {
			return chat.Reply{}, err
		}
		if !first {
			res.Alarm = parse.NoAlarm // the hand is shown once a day
		}
	}
	if res.Done && len(res.Sets) == 0 && res.Alarm == parse.NoAlarm {
		return t.doneSaid()
	}
	return t.keep(res, message)
}

// understand reads a message against what is known of the lifter.
func (t *turn) understand(text string, day planner.Date, best *bests) (parse.Result, error) {
	res := parse.Log(text, parse.Context{
		Today: day, At: t.now.In(zoneOf(t.about, t.club)), Unit: t.about.Unit, Standard: standardOf(t.about),
		Best:     func(l planner.Lift) planner.Grams { return planner.Kilograms(best.kg(l)) },
		Estimate: func(l planner.Lift) (float64, bool) { kg := best.kg(l); return kg, kg > 0 },
		Last: func() (s planner.Set, ago time.Duration, ok bool) {
			if best.err == nil {
				s, ago, ok, best.err = t.lastLogged()
			}
			return s, ago, ok
		},
		Before: func(lift planner.Lift, variant planner.Variant, day planner.Date) (last []planner.Set) {
			if best.err == nil {
				last, best.err = t.lastDay(lift, variant, day)
			}
			return last
		},
	})
	return res, best.err
}

// A session is over when nothing was logged for so long (common practice), and a set
// was logged just now within so short a time.
const (
	sessionLasts = 3 * time.Hour
	justNow      = 10 * time.Minute
)

// lastLogged is the set that the lifter wrote last in this session and at most how long
// ago. One of a session that was logged as a whole says nothing of what comes next. What
// an edit replaces is not in the log any more.
func (t *turn) lastLogged() (s planner.Set, ago time.Duration, ok bool, err error) {
	if t.about.ID == 0 {
		return s, 0, false, nil
	}
	for _, within := range []time.Duration{justNow, sessionLasts} {
		last, err := t.tx.LastSets(t.about.ID, within, t.now)
		if err != nil {
			return s, 0, false, err
		}
		if len(last) == 0 {
			continue
		}
		message, err := t.tx.MessageOf(t.about.ID, last[0])
		if strings.HasPrefix(message, donePrefix) {
			within = sessionLasts
		}
		return last[0], within, true, err
	}
	return s, 0, false, nil
}

// standardOf is what the lifter counts as the competition form of a lift.
func standardOf(l planner.Lifter) parse.Standard {
	return parse.Standard{TouchAndGo: l.BenchStyle == planner.TouchAndGo, Sumo: l.DeadliftStyle == planner.Sumo}
}

// keep stores what a message said and acknowledges it as quietly as the news
// allow.
func (t *turn) keep(res parse.Result, message string) (chat.Reply, error) {
	if ago, again, err := t.sentAgain(res.Sets, message); err != nil || again {
		if err != nil {
			return chat.Reply{}, err
		}
		return t.onceOnly(res, message, ago)
	}
	beaten, err := t.records(res.Sets)
	if err != nil {
		return chat.Reply{}, err
	}
	back, ask, err := t.backAgain(res.Sets)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.keepSets(res.Sets, message)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.keepBodyweight(res, message); err != nil {
		return chat.Reply{}, err
	}
	view := render.LogView{Sets: kept, Unit: t.about.Unit, News: res.Notes,
		Data: t.logData(kept, res.Bodyweight, res.Problems, res.Questions)}
	t.announce(&view, beaten)
	if len(res.Swaps) > 0 && len(kept) == 1 && len(res.Notes) == 1 {
		view.As, view.News = "Read as", nil // the set itself says how
	}
	if res.Assumed != nil {
		view.As = res.Assumed.Text
	}
	for _, q := range res.Questions {
		view.Questions = append(view.Questions, q.Text)
	}
	for _, p := range res.Problems {
		view.Problems = append(view.Problems, render.Problem(p.Line, p.Column, p.Text, p.Hint))
	}
	moved, down, err := t.movedBy(nil, kept)
	if err != nil {
		return chat.Reply{}, err
	}
	view.News = append(view.News, moved...)
	buttons, err := t.logButtons(res, kept, "")
	if err != nil {
		return chat.Reply{}, err
	}
	if ask {
		view.News = append(view.News, "You are marked as away. Back?")
		buttons = append(buttons, back)
	}
	r := acknowledge(res, view, buttons)
	r.Message.Private, err = t.quiet(ask || down || len(res.Questions) > 0) // that a load goes down is for nobody else
	return r, err
}

// quiet tells whether an answer to a log line is for the lifter's eyes only: what
// asks back may tell an estimate, and of members under 18 and of those who opted
// out nothing is said in public.
func (t *turn) quiet(asks bool) (bool, error) {
	public, err := t.tx.LifterPublic(t.about.ID)
	age := planner.Age(t.about.Born, t.today())
	return asks || !public || age >= 0 && age < 18, err
}

// acknowledge chooses between a mark and words.
func acknowledge(res parse.Result, view render.LogView, buttons []chat.Button) chat.Reply {
	if res.Alarm == parse.Alarm {
		view.News = append(view.News, caution)
	}
	if len(view.As)+len(view.Record)+len(view.News)+len(view.Questions)+len(view.Problems) > 0 {
		m := render.Logged(view)
		m.Buttons = buttons
		return chat.Reply{Kind: chat.Answer, Message: m}
	}
	mark := markKept
	if res.Alarm == parse.Pain {
		mark = markStop
	}
	return chat.Reply{Kind: chat.React, Reaction: mark, Message: chat.Message{Data: view.Data}}
}

// keepSets stores sets under the message they came with.
func (t *turn) keepSets(sets []planner.Set, message string) ([]planner.Set, error) {
	if len(sets) == 0 {
		return nil, nil
	}
	return t.tx.AddSets(t.about.ID, message, sets, t.now)
}

// keepBodyweight stores a bodyweight. An older day's does not replace the newest.
func (t *turn) keepBodyweight(res parse.Result, message string) error {
	if res.Bodyweight == 0 {
		return nil
	}
	if err := t.tx.AddBodyweight(t.about.ID, res.BodyweightDay, res.Bodyweight, t.now); err != nil {
		return err
	}
	if err := t.tx.KeepWeighing(t.about.ID, message, res.BodyweightDay, t.now); err != nil {
		return err
	}
	later, err := t.tx.Bodyweights(t.about.ID, res.BodyweightDay.AddDays(1), t.today())
	if err != nil || len(later) > 0 {
		return err
	}
	t.about.Bodyweight = res.Bodyweight
	return t.tx.SaveLifter(t.about, t.now)
}

// trainingDay is the day on which something logged now was lifted: a session
// that ends after midnight belongs to the day before.
func (t *turn) trainingDay() planner.Date {
	if t.now.In(zoneOf(t.about, t.club)).Hour() < parse.NightEnds {
		return t.today().AddDays(-1)
	}
	return t.today()
}
