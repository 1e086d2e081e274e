package nudge

import (
	"fmt"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// Mine is what the club's posts counted for a lifter without saying it: every
// such nudge that is still worth saying, with its buttons, for the lifter's eyes
// only. It writes the buttons, so tx must be one that may write.
func Mine(tx *store.Tx, lifter planner.LifterID, now time.Time) (chat.Message, error) {
	f, err := loadOnly(tx, []planner.LifterID{lifter})
	if err != nil {
		return chat.Message{}, err
	}
	counted, err := newPast(tx).counted(f, now)
	if err != nil || len(counted) == 0 {
		return chat.Message{Private: true, Text: "Nothing new for you."}, err
	}
	m := counted[0].Member
	s := slot{
		key: fmt.Sprintf("mine/%s/%d", m.Lifter.Handle, now.UnixMilli()), person: m.Lifter.Handle,
		day: planner.DateOf(now.In(m.Zone)), opens: now,
	}
	d, err := f.gather(s, counted)
	if err != nil {
		return chat.Message{}, err
	}
	for _, b := range d.buttons {
		_, there, err := tx.Button(b.Token) // asked twice within one moment
		if err == nil && !there {
			err = tx.AddButton(b)
		}
		if err != nil {
			return chat.Message{}, err
		}
	}
	d.message.Private = true
	return d.message, nil
}

// counted lists the nudges that went into a club post as a count and are still
// worth saying, once each, as nudges told directly.
func (p *past) counted(f Facts, now time.Time) ([]Nudge, error) {
	var told []Nudge
	for _, n := range Due(f, now.Add(-horizon), now) {
		if !now.Before(n.Until) {
			continue
		}
		was, err := p.wasCounted(&f, n)
		if err != nil {
			return nil, err
		}
		if was {
			n.Place = Directly
			if err := fill(p.tx, &n); err != nil {
				return nil, err
			}
			told = append(told, n)
		}
	}
	return told, nil
}

// wasCounted tells whether the nudge, or a form in which it came again, went into
// a club post as a count.
func (p *past) wasCounted(f *Facts, n Nudge) (bool, error) {
	fact, known, err := p.known(n.Key)
	if err != nil || !known {
		return false, err
	}
	if n.Place == Counted && fact.Post != "" && fact.State != store.FactSkipped {
		return true, nil
	}
	snoozed, err := p.snoozed(n)
	if err != nil {
		return false, err
	}
	for _, again := range f.comesAgain(n, fact, snoozed) {
		if was, err := p.wasCounted(f, again); err != nil || was {
			return was, err
		}
	}
	return false, nil
}
