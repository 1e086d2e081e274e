package bot

import (
	"fmt"
	"slices"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// nudgeWords are the kinds a lifter may switch off.
func nudgeWords() []string {
	var out []string
	for _, k := range nudge.Kinds() {
		if k.Optional {
			out = append(out, string(k.Kind))
		}
	}
	return out
}

// says is what a kind of nudge tells, in words.
func says(kind string) string {
	for _, k := range nudge.Kinds() {
		if string(k.Kind) == kind {
			return k.Says
		}
	}
	return kind
}

// fortnight is how far ahead /nudges looks.
const fortnight = 14 * 24 * time.Hour

// showNudges answers /nudges: what comes in the next fortnight, then every kind.
func showNudges(t *turn) (chat.Reply, error) {
	if store.IsPlaceholder(t.about) {
		text := render.Called(t.about) + " has not joined yet: I tell them nothing. Entries that close and results come to their coach, or else to captains."
		return private(chat.Message{Title: "What I tell unasked", Text: text, Data: map[string]any{"nudges": []any{}, "coming": []any{}}}), nil
	}
	off, err := t.tx.NudgeOff(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	v := render.NudgeView{Lifter: t.about, Zone: zoneOf(t.about, t.club)}
	for _, k := range nudge.Kinds() {
		v.Kinds = append(v.Kinds, render.NudgeRow{Kind: string(k.Kind), Says: k.Says, When: k.When, Off: off[string(k.Kind)]})
	}
	times, err := t.tx.NudgeTimes(t.about.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	v.Quiet = quietNames(times)
	if times.Own {
		v.Hour = fmt.Sprintf("%02d:%02d", times.Hour, times.Minute)
	}
	if times.Paused.After(t.now) {
		v.Paused = t.dayOf(t.about, times.Paused)
	}
	coming, err := nudge.Upcoming(t.tx, t.about.ID, t.now, t.now.Add(fortnight))
	if err != nil {
		return chat.Reply{}, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return chat.Reply{}, err
	}
	for _, c := range coming {
		if c.Body && hidden {
			continue
		}
		v.Coming = append(v.Coming, render.ComingRow{Kind: string(c.Kind), Day: t.dayOf(t.about, c.At), At: c.At, What: c.What, Public: c.Place == nudge.Named})
	}
	return private(render.Nudges(v)), nil
}

// setWhere answers /nudges where.
func setWhere(t *turn) (chat.Reply, error) {
	t.about.Nudges = planner.Where(t.options["place"])
	if err := t.tx.SaveLifter(t.about, t.now); err != nil {
		return chat.Reply{}, err
	}
	text := "I will tell you things " + render.WherePhrase(t.about.Nudges) + "."
	return t.nudgesChanged(text, map[string]any{"nudges": t.about.Nudges})
}

// nudgesChanged answers a change of what a lifter is told, where or when. Where
// somebody else made it, the lifter hears of it: what is told, or no longer told, is
// theirs to know.
func (t *turn) nudgesChanged(text string, data map[string]any) (chat.Reply, error) {
	if store.IsPlaceholder(t.about) {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "They choose when they join.", "%s has not joined yet: I tell them nothing", render.Called(t.about))
	}
	if err := t.note(t.about, text, undo{}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("changed what I tell them"); err != nil {
		return chat.Reply{}, err
	}
	if who := t.forWhom(); who != "" {
		text = "For " + who + ": " + text
	}
	return private(chat.Message{Text: text, Data: data}), nil
}

// nudgeOff answers /nudges off.
func nudgeOff(t *turn) (chat.Reply, error) { return t.switchNudge(t.options["kind"], false) }

// nudgeOn answers /nudges on.
func nudgeOn(t *turn) (chat.Reply, error) { return t.switchNudge(t.options["kind"], true) }

func (t *turn) switchNudge(kind string, on bool) (chat.Reply, error) {
	if err := t.tx.SetNudge(t.about.ID, kind, on); err != nil {
		return chat.Reply{}, err
	}
	if on { // also brings back what stopped because it went unanswered
		if err := t.tx.KeepNudge(t.about.ID, kind, t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	text := "I will not tell you again when " + says(kind) + ". /nudges on " + kind + " brings it back."
	if on {
		text = "I tell you again when " + says(kind) + "."
	}
	return t.nudgesChanged(text, map[string]any{"kind": kind, "on": on})
}

// nudgeOffPressed answers 'Fewer of these': the kinds of that post stop for the
// one who pressed.
func nudgeOffPressed(t *turn, b store.Button) (chat.Reply, error) {
	own, err := t.settled(b)
	if err != nil {
		return chat.Reply{}, err
	}
	var kinds, told []string
	for _, s := range own {
		if err := t.tx.SetNudge(t.speaker.ID, string(s.Kind), false); err != nil {
			return chat.Reply{}, err
		}
		kinds = append(kinds, string(s.Kind))
		told = append(told, says(string(s.Kind)))
	}
	text := "I will not tell you again when " + render.List(told) + ". /nudges shows everything and brings it back."
	r := private(chat.Message{Text: text, Data: map[string]any{"off": kinds}})
	if len(kinds) == 1 {
		return r, nil
	}
	for _, kind := range kinds { // one tap stopped several, of which one may be wanted
		b, err := t.button("Keep "+kind, "nudge.on", nudge.Settles{Lifter: t.speaker.ID, Kind: nudge.Kind(kind)}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		r.Message.Buttons = append(r.Message.Buttons, b)
	}
	return r, nil
}

// nudgeOnPressed answers 'Keep …' after several kinds were stopped at once.
func nudgeOnPressed(t *turn, b store.Button) (chat.Reply, error) {
	s, err := args[nudge.Settles](b)
	if err != nil {
		return chat.Reply{}, err
	}
	t.about = t.speaker
	return t.switchNudge(string(s.Kind), true)
}

// nudgeKeepPressed answers 'Keep them': the kinds of that post go on although they
// went unanswered.
func nudgeKeepPressed(t *turn, b store.Button) (chat.Reply, error) {
	own, err := t.settled(b)
	if err != nil {
		return chat.Reply{}, err
	}
	var kept []string
	for _, s := range own {
		if err := t.tx.KeepNudge(t.speaker.ID, string(s.Kind), t.now); err != nil {
			return chat.Reply{}, err
		}
		kept = append(kept, says(string(s.Kind)))
	}
	return private(chat.Message{Text: "I go on telling you when " + render.List(kept) + "."}), nil
}

// enteredPressed answers 'I have entered' under a nudge about an entry that closes.
func enteredPressed(t *turn, b store.Button) (chat.Reply, error) {
	own, err := t.settled(b)
	if err != nil {
		return chat.Reply{}, err
	}
	meets, err := t.tx.Meets(t.speaker.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	wards, err := t.tx.WardsOf(t.speaker.ID, t.speaker.Captain)
	if err != nil {
		return chat.Reply{}, err
	}
	whose := map[planner.LifterID]string{}
	for _, w := range wards {
		whose[w.ID] = " (" + render.Called(w) + ")"
		theirs, err := t.tx.Meets(w.ID)
		if err != nil {
			return chat.Reply{}, err
		}
		meets = append(meets, theirs...)
	}
	var names []string
	for _, m := range meets {
		if !slices.ContainsFunc(own, func(s nudge.Settles) bool { return s.Meet == m.ID }) {
			continue
		}
		m.Entered = true
		if err := t.tx.SaveMeet(m, t.now); err != nil {
			return chat.Reply{}, err
		}
		names = append(names, m.Name+whose[m.Lifter])
	}
	if len(names) == 0 {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Your meets are under /meet list.", "That meet is no longer on your calendar")
	}
	return private(chat.Message{Text: "Entered: " + render.Some(names, namedAtOnce) + ". I stop asking."}), nil
}

// snoozePressed answers 'Remind me tomorrow'.
func snoozePressed(t *turn, b store.Button) (chat.Reply, error) {
	own, err := t.settled(b)
	if err != nil {
		return chat.Reply{}, err
	}
	until := t.now.Add(24 * time.Hour)
	for _, s := range own {
		if err := t.tx.Snooze(t.speaker.ID, s.Key, until); err != nil {
			return chat.Reply{}, err
		}
	}
	return private(chat.Message{Text: "I will remind you tomorrow."}), nil
}
