package nudge

import (
	"fmt"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// horizon is how far back the runner looks for what was missed. Every kind is
// worth saying for less than that.
const horizon = 14 * 24 * time.Hour

// Reasons that the ledger keeps for what was not said, or not there.
const (
	reasonOff    = "switched off by the lifter"
	reasonAbsent = "has not joined yet; what cannot wait is told to who speaks for them"
	reasonAsk    = "asked to be left alone until asking"
	reasonLate   = "too late to be useful"
	reasonPosted = "told too late for the day's post"
	// ReasonUnreachable is kept where somebody takes no direct messages.
	ReasonUnreachable = "takes no direct messages; counted in the club's post instead"
	// ReasonUndelivered is kept of a post whose day ended before it could be made.
	ReasonUndelivered = "could not be posted on its day"
	reasonBudget      = "told enough that week"
	reasonIgnored     = "the last ones went unanswered"
	reasonPaused      = "put off by the lifter"
	reasonQuiet       = "a quiet day of the lifter"
)

// past is what bears on whether to say something: what was said before, and what
// the lifters asked for.
type past struct {
	tx      *store.Tx
	off     map[planner.LifterID]map[string]bool
	snoozes map[planner.LifterID]map[string]time.Time
	ahead   *ahead // what is imagined to happen; nil: nothing
}

func newPast(tx *store.Tx) *past {
	return &past{tx: tx, off: map[planner.LifterID]map[string]bool{}, snoozes: map[planner.LifterID]map[string]time.Time{}}
}

// agenda returns what is still to be said or to be skipped among the nudges due
// in (from, to], those that come again included even where that is after to.
func (p *past) agenda(f Facts, from, to time.Time) ([]Nudge, error) {
	var open []Nudge
	for _, n := range Due(f, from, to) {
		more, err := p.unsaid(&f, n)
		if err != nil {
			return nil, err
		}
		open = append(open, more...)
	}
	return open, nil
}

// unsaid returns the nudge itself when the ledger does not know it, else the
// forms in which it comes again and which the ledger does not know.
func (p *past) unsaid(f *Facts, n Nudge) ([]Nudge, error) {
	fact, known, err := p.known(n.Key)
	if err != nil {
		return nil, err
	}
	if !known {
		return []Nudge{n}, nil
	}
	snoozed, err := p.snoozed(n)
	if err != nil {
		return nil, err
	}
	var open []Nudge
	for _, again := range f.comesAgain(n, fact, snoozed) {
		more, err := p.unsaid(f, again)
		if err != nil {
			return nil, err
		}
		open = append(open, more...)
	}
	return open, nil
}

// comesAgain lists the forms in which a nudge that the ledger knows comes again.
// Each is due later than n, so following them ends.
func (f *Facts) comesAgain(n Nudge, fact store.Fact, snoozed time.Time) []Nudge {
	var forms []Nudge
	if n.Key == n.base && !snoozed.IsZero() {
		if r, ok := f.reminder(n, snoozed); ok && r.Due.After(n.Due) {
			forms = append(forms, r)
		}
	}
	if fact.State != store.FactSkipped {
		return forms
	}
	switch fact.Reason {
	case ReasonUnreachable:
		if c, ok := f.counted(n); ok {
			forms = append(forms, c)
		}
	case ReasonUndelivered:
		if l, ok := f.late(n); ok {
			forms = append(forms, l)
		}
	}
	return forms
}

// snoozed returns until when the lifter put the nudge off; zero where not.
func (p *past) snoozed(n Nudge) (time.Time, error) {
	id := n.Member.Lifter.ID
	if p.snoozes[id] == nil {
		all, err := p.tx.Snoozes(id)
		if err != nil {
			return time.Time{}, err
		}
		if all == nil {
			all = map[string]time.Time{}
		}
		p.snoozes[id] = all
	}
	return p.snoozes[id][n.base], nil
}

// switchedOff tells whether the lifter switched the kind off.
func (p *past) switchedOff(n Nudge) (bool, error) {
	id := n.Member.Lifter.ID
	if p.off[id] == nil {
		all, err := p.tx.NudgeOff(id)
		if err != nil {
			return false, err
		}
		if all == nil {
			all = map[string]bool{}
		}
		p.off[id] = all
	}
	return p.off[id][string(n.Kind)], nil
}

// verdict is what to do with a nudge at a moment.
type verdict struct {
	skip string // the reason to skip it for good; empty: do not
	slot slot   // the post to put it in, where say is set
	say  bool
	wait time.Time // neither: nothing happens before this instant
}

// judge decides on a nudge at now. A nudge that waits will be said or skipped at
// the instant told, unless something else changes.
func (p *past) judge(f *Facts, n Nudge, now time.Time) (verdict, error) {
	if now.Before(n.Due) {
		return verdict{wait: n.Due}, nil
	}
	off, err := p.switchedOff(n)
	switch {
	case err != nil:
		return verdict{}, err
	case off:
		return verdict{skip: reasonOff}, nil
	case n.Member.Absent:
		return verdict{skip: reasonAbsent}, nil
	case n.Place == Nowhere:
		return verdict{skip: reasonAsk}, nil
	case !now.Before(n.Until):
		return verdict{skip: reasonLate}, nil
	}
	if v, held, err := p.restrain(f, n, now); err != nil || held {
		return v, err
	}
	s := f.slotAt(n, now)
	if s.open(now) {
		made, err := p.made(s.key)
		if err != nil || !made {
			return verdict{slot: s, say: err == nil}, err
		}
	}
	next := s.opens
	if !now.Before(next) {
		next = f.slotOn(n, s.day.AddDays(1)).opens
	}
	switch {
	case next.Before(n.Until):
		return verdict{wait: next}, nil
	case s.open(now):
		return p.judgePosted(f, n, now)
	}
	return verdict{skip: reasonLate}, nil
}

// judgePosted decides on a nudge that came up after the day's post had been made
// and that the next one would tell too late: whoever chose to be told directly is
// told at once, by day on their own clock, in a message beside the day's.
func (p *past) judgePosted(f *Facts, n Nudge, now time.Time) (verdict, error) {
	if n.Member.Lifter.Nudges != planner.Direct {
		return verdict{skip: reasonPosted}, nil
	}
	n.Place = Directly
	s := f.slotAt(n, now)
	switch {
	case now.Before(s.opens) && s.opens.Before(n.Until):
		return verdict{wait: s.opens}, nil
	case !s.open(now):
		return verdict{skip: reasonPosted}, nil
	}
	day := s.key
	for more := 2; ; more++ {
		made, err := p.made(s.key)
		if err != nil || !made {
			return verdict{slot: s, say: err == nil}, err
		}
		s.key = fmt.Sprintf("%s/%d", day, more)
	}
}
