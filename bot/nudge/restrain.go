package nudge

import (
	"time"

	"blockbell/planner"
	"blockbell/store"
)

const (
	// budget is how many personal messages a lifter gets in a week (common
	// practice: what comes oftener is muted). What cannot wait is told beyond it.
	budget = 2
	week   = 7 * 24 * time.Hour
	// patienceFor is how many nudges of a kind in a row may go unanswered before the
	// next one asks whether they are wanted.
	patienceFor = 2
)

// restrain holds a nudge back that its lifter does not want now: on a quiet day, in
// a pause, after enough was told this week, or when the question whether more of
// its kind are wanted went unanswered. What cannot wait goes out all the same.
func (p *past) restrain(f *Facts, n Nudge, now time.Time) (v verdict, held bool, err error) {
	s := specs[n.Kind]
	if s.Answer {
		unanswered, err := p.unanswered(n)
		if err != nil || unanswered > patienceFor {
			return verdict{skip: reasonIgnored}, true, err
		}
	}
	if s.Audience == Personal && !s.Urgent && !isReminder(n.Key) {
		if n.Member.Times.Paused.After(now) {
			return f.hold(n, n.Member.Times.Paused, reasonPaused), true, nil
		}
		free, err := p.budgetFree(n, now)
		if err != nil || free.After(now) {
			return f.hold(n, free, reasonBudget), true, err
		}
	}
	if day := planner.DateOf(now.In(f.zone(n.Member, n.Place))); n.Member.quiet(n.Place, day) {
		v := f.hold(n, now, reasonQuiet)
		return v, v.skip == "" || !s.Urgent, nil
	}
	return verdict{}, false, nil
}

// hold makes a nudge wait for the first hour of its place from an instant on that
// is not on a quiet day, or gives it up where that is too late.
func (f *Facts) hold(n Nudge, from time.Time, reason string) verdict {
	day := planner.DateOf(from.In(f.zone(n.Member, n.Place)))
	for range 9 { // a week of quiet days, and a day on each side
		if opens := f.slotOn(n, day).opens; !opens.Before(from) && !n.Member.quiet(n.Place, day) {
			if opens.Before(n.Until) {
				return verdict{wait: opens}
			}
			break
		}
		day = day.AddDays(1)
	}
	return verdict{skip: reason}
}

// asks tells whether a nudge about to be said asks whether its kind is wanted.
func (p *past) asks(n Nudge) (bool, error) {
	if !specs[n.Kind].Answer {
		return false, nil
	}
	unanswered, err := p.unanswered(n)
	return unanswered == patienceFor, err
}

// unanswered counts the nudges of a kind that the lifter was told last and did not
// answer, since one was answered or the kind was asked for.
func (p *past) unanswered(n Nudge) (int, error) {
	facts, err := p.ofKind(n.Member.Lifter.ID, n.Kind, n.Due.Add(-time.Millisecond), 10*patienceFor)
	if err != nil {
		return 0, err
	}
	since, err := p.tx.NudgeKept(n.Member.Lifter.ID, string(n.Kind))
	if err != nil {
		return 0, err
	}
	count := 0
	for _, fact := range facts {
		if fact.State != store.FactSent || fact.Key == n.Key {
			continue
		}
		answered, err := p.answered(n, fact)
		if err != nil {
			return 0, err
		}
		if answered || !fact.Due.After(since) {
			break
		}
		count++
	}
	return count, nil
}

// answered tells whether the lifter pressed any button under the post that told a
// fact of the nudge's kind.
func (p *past) answered(n Nudge, fact store.Fact) (bool, error) {
	for _, o := range append([]Offer{mine, keep}, specs[n.Kind].Offers...) {
		if used, err := p.tx.ButtonUsed(token(fact.Post, o.Label), n.Member.Lifter.ID); err != nil || used {
			return used, err
		}
	}
	return false, nil
}

// budgetFree returns from when on the lifter may be told one more personal thing
// that can wait: a week after the last but one message of that sort, for spare kinds
// after the last one.
func (p *past) budgetFree(n Nudge, now time.Time) (time.Time, error) {
	facts, err := p.toldSince(n.Member.Lifter.ID, now.Add(-week))
	if err != nil {
		return time.Time{}, err
	}
	var told []time.Time // when each message fell due, in order
	seen := map[string]bool{}
	for _, fact := range facts {
		s := specs[Kind(fact.Kind)]
		if s.Audience != Personal || s.Urgent || isReminder(fact.Key) || fact.At.After(now) || seen[fact.Post] {
			continue
		}
		seen[fact.Post] = true
		told = append(told, fact.At)
	}
	most := budget
	if specs[n.Kind].Spare {
		most--
	}
	if len(told) < most {
		return time.Time{}, nil
	}
	return told[len(told)-most].Add(week), nil
}
