package bot

import (
	"maps"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/planner"
)

// edited answers a changed message: its old sets go, the new ones come, on the day the
// message was about. Of whom it still says the same nothing changes: what was
// corrected, undone or answered meanwhile stays.
func (t *turn) edited() (chat.Reply, error) {
	same, err := t.saysTheSame()
	if err != nil || same {
		return chat.Reply{}, err
	}
	parts, team := parse.Several(t.event.Text)
	kept := map[planner.LifterID]bool{}
	if team {
		if kept, err = t.unchanged(parts); err != nil {
			return chat.Reply{}, err
		}
	}
	day, had, err := t.forget(kept)
	if err != nil {
		return chat.Reply{}, err
	}
	weighed, err := t.forgetWeighing()
	if err != nil {
		return chat.Reply{}, err
	}
	if !had && weighed == 0 && len(kept) == 0 {
		return t.said()
	}
	if day == 0 {
		day = weighed
	}
	r, handled, err := t.teamSaid(t.event.Text, t.event.Message, day, kept)
	if err == nil && !handled {
		r, err = t.read(t.event.Text, t.event.Message, day)
	}
	if err == nil {
		err = t.keepSaid()
	}
	if err == nil && r.Kind == chat.Silent && weighed != 0 && !had {
		return private(chat.Message{Text: "The bodyweight of that message is removed.", Data: t.logData(nil, 0, nil, nil)}), nil
	}
	if err == nil && r.Kind == chat.Silent && had {
		return private(chat.Message{Text: "The sets of that message are removed.", Data: t.logData(nil, 0, nil, nil)}), nil
	}
	return r, err
}

// gists are digests of what the event's message says: of each lifter that a team log
// speaks of, else of its author under 0.
func (t *turn) gists() (map[planner.LifterID]string, error) {
	all := map[planner.LifterID]string{}
	parts, team := parse.Several(t.event.Text)
	for _, p := range parts {
		l, found, err := t.lifterCalled(p.Who)
		if err != nil {
			return nil, err
		}
		if g := parse.Gist(p.Under + " " + p.Text); found {
			all[l.ID] += g
		}
	}
	if g := parse.Gist(t.event.Text); !team && g != "" {
		all[0] = g
	}
	return all, nil
}

// keepSaid keeps what the event's message says, to know an edit that changes nothing.
func (t *turn) keepSaid() error {
	if t.speaker.ID == 0 {
		return nil
	}
	now, err := t.gists()
	if err != nil {
		return err
	}
	return t.tx.KeepSaid(t.speaker.ID, t.event.Message, now, t.now)
}

// saysTheSame tells whether a changed message still says what it was logged with.
func (t *turn) saysTheSame() (bool, error) {
	if t.speaker.ID == 0 {
		return false, nil
	}
	before, err := t.tx.Said(t.speaker.ID, t.event.Message)
	if err != nil {
		return false, err
	}
	if len(before) == 0 {
		return t.asFirstWritten()
	}
	now, err := t.gists()
	return err == nil && maps.Equal(before, now), err
}

// asFirstWritten tells whether a changed message of which nothing else is known says
// the sets that it was logged with, before anybody corrected them.
func (t *turn) asFirstWritten() (bool, error) {
	sets, err := t.tx.SetsOfMessage(t.speaker.ID, t.event.Message)
	if err != nil || len(sets) == 0 {
		return false, err
	}
	first := make([]planner.Set, len(sets))
	for i, s := range sets {
		if first[i], err = t.tx.FirstForm(t.speaker.ID, s); err != nil {
			return false, err
		}
	}
	res, err := t.understand(t.event.Text, sets[0].Day, t.bests())
	return err == nil && len(res.Problems) == 0 && res.Alarm == parse.NoAlarm && alike(first, res.Sets), err
}

// unchanged are the lifters of whom a changed team log says the same as before. Whose
// sets wait for an answer is read anew: the buttons under the old message go.
func (t *turn) unchanged(parts []parse.Part) (map[planner.LifterID]bool, error) {
	before, err := t.tx.Said(t.speaker.ID, t.event.Message)
	if err != nil {
		return nil, err
	}
	now, err := t.gists()
	if err != nil {
		return nil, err
	}
	kept := map[planner.LifterID]bool{}
	for l, g := range now {
		if before[l] != g {
			continue
		}
		sets, err := t.tx.SetsOfMessage(l, t.event.Message)
		if err != nil {
			return nil, err
		}
		waits := false
		for _, s := range sets {
			waits = waits || s.Pending
		}
		if !waits {
			kept[l] = true
		}
	}
	return kept, nil
}

// deleted answers a removed message: its sets go with it, in silence. Others whose
// sets they were are told.
func (t *turn) deleted() (chat.Reply, error) {
	_, _, err := t.forget(nil)
	if err == nil {
		_, err = t.forgetWeighing()
	}
	if err == nil && t.speaker.ID != 0 {
		err = t.tx.KeepSaid(t.speaker.ID, t.event.Message, nil, t.now)
	}
	return chat.Reply{}, err
}

// forgetWeighing removes the bodyweight that the event's message told, and returns its
// day; 0 where it told none or another was told since. What the lifter is known to weigh
// is then the weighing before.
func (t *turn) forgetWeighing() (planner.Date, error) {
	if t.speaker.ID == 0 {
		return 0, nil
	}
	gone, had, err := t.tx.DropWeighing(t.speaker.ID, t.event.Message)
	if err != nil || !had || t.speaker.Bodyweight != gone.Mass {
		return gone.Day, err
	}
	rest, err := t.tx.Bodyweights(t.speaker.ID, 1, t.today())
	if err != nil {
		return 0, err
	}
	t.speaker.Bodyweight = 0
	if n := len(rest); n > 0 {
		t.speaker.Bodyweight = rest[n-1].Mass
	}
	t.about = t.speaker
	return gone.Day, t.tx.SaveLifter(t.speaker, t.now)
}

// forget removes the sets of the event's message, whosever they are but for those
// named in but, and the buttons that could bring others in its name, and returns their
// day.
func (t *turn) forget(but map[planner.LifterID]bool) (day planner.Date, had bool, err error) {
	if t.speaker.ID == 0 {
		return 0, false, nil
	}
	if err := t.tx.ForgetAnswers(t.speaker.ID, t.event.Message); err != nil {
		return 0, false, err
	}
	whose, err := t.tx.LiftersOfMessage(t.event.Message)
	if err != nil || t.event.Message == "" {
		return 0, false, err
	}
	for _, l := range whose {
		sets, err := t.tx.SetsOfMessage(l, t.event.Message)
		if err != nil {
			return 0, false, err
		}
		if len(sets) > 0 {
			day = sets[len(sets)-1].Day
		}
		if but[l] {
			continue
		}
		had = had || len(sets) > 0
		if err := t.forgetSets(l, sets); err != nil {
			return 0, false, err
		}
	}
	done, err := t.tx.SetsOfMessage(t.speaker.ID, donePrefix+t.event.Message)
	if err != nil || len(done) == 0 {
		return day, had, err
	}
	return done[0].Day, true, t.forgetSets(t.speaker.ID, done)
}

// forgetSets takes sets out of a lifter's log, and tells them where somebody else does.
func (t *turn) forgetSets(id planner.LifterID, sets []planner.Set) error {
	for _, s := range sets {
		if err := t.tx.DropSet(id, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
			return err
		}
	}
	if len(sets) == 0 || id == t.speaker.ID {
		return nil
	}
	l, err := t.tx.Lifter(id)
	if err != nil {
		return err
	}
	return t.note(l, "Taken out of your log, since the message was changed or removed: "+setLines(sets, l.Unit)+".", undo{})
}
