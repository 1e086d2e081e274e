package nudge

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/planner/load"
)

// Nudge is one thing to tell one lifter.
type Nudge struct {
	Key    string // ledger key, lifter/kind/object/fact
	Kind   Kind
	Member *Member
	Place  Place
	Day    planner.Date // the civil day it belongs to
	Due    time.Time
	Last   planner.Date // the last civil day on which it is worth saying
	Until  time.Time    // the instant that day is over: no longer worth saying

	// What it is about; which of these are set depends on the kind.
	Index int // of the block in the member's season
	Next  int // of the block that waits, block-waits and block-late only
	Meet  planner.Meet
	Over  int           // training weeks run, peaking-long and stale only
	Sets  []planner.Set // of the last half year, peaking-long only, of four weeks, plateau only; where it is about to be said
	Shown []load.Day    // what was prescribed in those four weeks, plateau only
	Step  int           // place in its list of steps, kinds of paperwork only

	Heavy []Heavy        // last-heavy only
	Seen  planner.Date   // the last day with a set, silence only
	Done  Done           // done-for-you, and block-late for a coach
	Ward  planner.Lifter // whose meet it is, where that is somebody the member speaks for
	Asked Asked          // approval only

	Stall Stall           // plateau only
	Fit   load.Fitting    // work-fit only
	Said  [2]planner.Date // days of the two check-ins, very-tired and stale only

	// Asks tells that earlier ones went unanswered, so this one asks whether fewer
	// are wanted.
	Asks bool

	// base is the key under which the nudge first fell due; it differs from Key
	// where the nudge is said again.
	base string
}

// block is the block the nudge is about.
func (n *Nudge) block() planner.Block { return n.Member.Season.Blocks[n.Index] }

// Due returns every nudge whose due instant lies in (from, to], by due instant,
// then in the order of the table of kinds, then by key. It looks at nothing but
// its arguments: whether a nudge was told before, switched off or put off is the
// ledger's affair. A nudge of a plan is due only after the plan was agreed, since
// whoever has just agreed to it has just read it.
//
// A due instant is wall time: the club's hour on the clock of the place the nudge
// belongs to. An hour that daylight saving leaves out is the first instant after
// the gap, one that occurs twice the first of the two.
func Due(f Facts, from, to time.Time) []Nudge {
	if !to.After(from) {
		return nil
	}
	s := search{facts: &f, from: from, to: to}
	// No zone is further than a day from UTC, so these bounds let nothing slip;
	// the exact test is in add.
	s.first = planner.DateOf(from.UTC()).AddDays(-1)
	s.last = planner.DateOf(to.UTC()).AddDays(1)
	kinds := Kinds()
	for i := range f.Members {
		s.member = &f.Members[i]
		for _, spec := range kinds {
			s.spec = spec
			spec.find(&s)
		}
	}
	slices.SortFunc(s.found, compare)
	return s.found
}

// compare puts nudges in the order in which Due returns them.
func compare(a, b Nudge) int {
	return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(order[a.Kind], order[b.Kind]), strings.Compare(a.Key, b.Key))
}

// search collects the nudges of one span of time.
type search struct {
	facts       *Facts
	from, to    time.Time
	first, last planner.Date // civil days worth a closer look
	member      *Member
	spec        Spec
	found       []Nudge
}

// near tells whether a day can hold a due instant of the span. The rules ask it
// before anything costly.
func (s *search) near(day planner.Date) bool { return day >= s.first && day <= s.last }

// add completes a nudge and keeps it if its due instant lies in the span.
func (s *search) add(n Nudge, object string, date planner.Date, fact string) {
	n.Kind, n.Member = s.spec.Kind, s.member
	if s.member.silent(s.spec, n.Day) {
		return
	}
	n.Place = s.member.place(s.spec, n.Day)
	n.Due = s.facts.hour(s.member, n.Place, n.Day)
	if !n.Due.After(s.from) || n.Due.After(s.to) {
		return
	}
	if ofPlan := n.Meet.ID == 0 && n.Done.ID == 0 && n.Asked.Plan == 0; ofPlan && !n.Due.After(s.member.Agreed) {
		return
	}
	n.Last = n.Day.AddDays(s.spec.Keeps)
	n.Until = n.Last.AddDays(1).Midnight(s.facts.zone(s.member, n.Place))
	n.Key = key(s.member, n.Kind, object, date, fact)
	n.base = n.Key
	s.found = append(s.found, n)
}

// on tells where the member stands on a day, by the plan and the meets as they
// are now.
func (s *search) on(day planner.Date) planner.Standing {
	return s.member.Season.On(day, s.facts.WeekStart, s.facts.Ask, s.member.Meets, s.member.told())
}
