package blocks

import (
	"fmt"
	"sort"

	"blockbell/planner"
)

// season is one request made ready: its calendar, model and pins.
type season struct {
	Request
	calendar
	model Model
	limit Limit
	pins  []pin
	caps  [4]int // most weeks by kind, noCap where no bound speaks of it
	done  int    // training weeks done in the running block
	spans []Away
	hold  int // least weeks of the running block in all, where it must last as agreed
	since int // first finished block after the last time away that ended one
	// endedAway are running blocks that a time away has ended
	endedAway []endedAway
	barred    []bool // training weeks without peaking, too soon after a time away
	// before is the kind of the block before the running one, "" unknown
	before         planner.BlockKind
	days           map[planner.Date]planner.Meet // the meet that counts on a day
	byDay          []planner.Meet                // the same in order
	ahead, express []float64                     // weights by training week
}

// check refuses requests that make no sense.
func check(r Request) error {
	if r.Today.IsZero() {
		return planner.Errorf(planner.Invalid, "", "a plan needs the day it is made on")
	}
	if run := r.Running; run != nil {
		if index(run.Kind) == iLayoff {
			return planner.Errorf(planner.Invalid, "Blocks are hypertrophy, strength, peaking and recovery.", "%q is not a kind of block", run.Kind)
		}
		if run.Start > r.Today || run.Start.IsZero() {
			return planner.Errorf(planner.Invalid, "Leave the running block out, or give the day it began.",
				"the running %s block begins on %s, after today, %s", run.Kind, run.Start.Long(), r.Today.Long())
		}
	}
	for _, m := range r.Meets {
		if err := checkMeet(m, r.Today); err != nil {
			return err
		}
	}
	for _, b := range r.Bounds {
		if err := checkBound(b); err != nil {
			return err
		}
	}
	if len(r.Away) > maxAway {
		return planner.Errorf(planner.Invalid, "Leave out those that are long over.", "%d times away: at most %d are possible", len(r.Away), maxAway)
	}
	for _, a := range r.Away {
		if err := checkAway(a); err != nil {
			return err
		}
	}
	for _, p := range r.History {
		if p.Weeks < 0 {
			return planner.Errorf(planner.Invalid, "", "a finished %s block of %d weeks: weeks cannot be negative", p.Kind, p.Weeks)
		}
	}
	return nil
}

func checkMeet(m planner.Meet, today planner.Date) error {
	switch {
	case m.Date.IsZero():
		return planner.Errorf(planner.Invalid, "Give the meet a date.", "the meet %q has no date", m.Name)
	case m.Date < today:
		return planner.Errorf(planner.Impossible, "Enter its result, or move it: the earliest day to plan for is "+today.AddDays(1).Long()+".",
			"the meet %q was on %s, before today, %s", m.Name, m.Date.Long(), today.Long())
	case m.Date == today && m.Kind == planner.Main:
		return planner.Errorf(planner.Impossible, "Enter its result tonight; the next plan begins tomorrow.", "the meet is today (%s)", m.Name)
	case m.Kind != planner.Main && m.Kind != planner.TuneUp && m.Kind != planner.Test:
		return planner.Errorf(planner.Invalid, "A meet is main, tune-up or test.", "%q is not a kind of meet", m.Kind)
	}
	return nil
}

func newSeason(r Request) (*season, error) {
	s := &season{Request: r, model: NewModel(r.Lifter, r.Today, r.Rules), spans: spans(r.Away)}
	s.endRunning()
	s.begin()
	s.readBounds()
	s.chooseMeets()
	if err := s.readPins(); err != nil {
		return nil, err
	}
	return s, nil
}

// rank orders kinds of meets by weight: where two entries share a date, the
// heavier one is the meet of that day. They are one day's lifting, so weights are
// not added up.
func rank(k planner.MeetKind) int {
	switch k {
	case planner.Main:
		return 2
	case planner.TuneUp:
		return 1
	}
	return 0
}

// chooseMeets keeps the meets a plan can consider, one a day, and lays out the
// calendar.
func (s *season) chooseMeets() {
	days, notes := s.meetsByDay()
	s.byDay = days
	s.days = map[planner.Date]planner.Meet{}
	for _, m := range days {
		s.days[m.Date] = m
	}
	mains, others, more := promote(days)
	s.setCalendar(s.layOut(mains, others, rollingLengths[0]))
	s.notes = append(append(notes, more...), s.notes...)
	if end := s.end(); len(mains) > 0 {
		for _, m := range others {
			if m.Date > end {
				s.notes = append(s.notes, fmt.Sprintf("The test day on %s comes after the last main meet and is planned once that is over.", m.Date.Long()))
			}
		}
	}
	s.meets = s.consider()
}

// consider lists every entry inside the time of the plan, by date.
func (s *season) consider() []planner.SeasonMeet {
	var list []planner.SeasonMeet
	for _, m := range s.sorted() {
		if _, ok := s.days[m.Date]; ok && m.Date <= s.end().AddDays(1) {
			list = append(list, planner.SeasonMeet{ID: m.ID, Name: m.Name, Date: m.Date, Kind: m.Kind})
		}
	}
	return list
}

func (s *season) sorted() []planner.Meet {
	all := append([]planner.Meet(nil), s.Meets...)
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].Date != all[j].Date {
			return all[i].Date < all[j].Date
		}
		return rank(all[i].Kind) > rank(all[j].Kind)
	})
	return all
}

// meetsByDay returns one meet a day, at most maxMeets within maxWeeks, and says
// what it left out.
func (s *season) meetsByDay() (days []planner.Meet, notes []string) {
	horizon := s.Today.AddDays(7 * maxWeeks)
	for _, m := range s.sorted() {
		switch n := len(days); {
		case m.Date == s.Today:
			notes = append(notes, capital(named(m, ""))+" is today and is not planned for.")
		case n > 0 && days[n-1].Date == m.Date:
			notes = append(notes, fmt.Sprintf("Two entries on %s are planned as one day.", m.Date.Long()))
		case m.Date > horizon:
			notes = append(notes, fmt.Sprintf("%s is more than %d weeks away and is not planned yet.", capital(named(m, m.Date.Long())), maxWeeks))
		case n == maxMeets:
			notes = append(notes, fmt.Sprintf("Only the next %d meets are planned; %s comes later.", maxMeets, named(m, m.Date.Long())))
		default:
			days = append(days, m)
		}
	}
	return days, notes
}

// promote splits meets into main meets and the rest. A tune-up with no main meet
// behind it prepares for nothing, so it is peaked for as a main meet.
func promote(days []planner.Meet) (mains, others []planner.Meet, notes []string) {
	last := -1
	for i, m := range days {
		if m.Kind != planner.Test {
			last = i
		}
	}
	for i, m := range days {
		switch {
		case m.Kind == planner.Main:
			mains = append(mains, m)
		case i == last:
			mains = append(mains, m)
			notes = append(notes, fmt.Sprintf("No main meet follows %s, so the plan peaks for it.", namedShort(m)))
		default:
			others = append(others, m)
		}
	}
	return mains, others, notes
}

// setCalendar takes over a calendar and fills in weights and limits.
func (s *season) setCalendar(c calendar) {
	s.calendar = c
	w := s.model.Weights
	for i := range s.marks {
		m := &s.marks[i]
		switch m.Kind {
		case planner.Main:
			m.Strength, m.Expression = w.Main, w.Main
		case planner.TuneUp:
			m.Strength, m.Expression = w.TuneUp, w.TuneUp
		default:
			m.Strength = w.Test
		}
	}
	s.bar()
	s.model.Away = s.aways
	s.model.RunUp = 0
	if s.main >= 0 {
		s.model.RunUp = s.stretches[s.main].start
	}
	l := s.Lifter
	for i := range s.stretches {
		st := &s.stretches[i]
		lim := s.capped(PeakingLimitIn(l, s.Today, s.Rules, s.days[st.end.AddDays(1)].Equipment))
		st.limit = lim.Weeks
		if i == max(0, s.main) {
			s.limit, s.model.Limit = lim, lim.Weeks
		}
		if st.kind == planner.Main {
			l.HasCompeted = true // after the first meet of the plan
		}
	}
}

func (s *season) rolling() bool { return s.main < 0 }

// listedAtOnce tells whether a running block that gets no further week is still
// in the plan: today is inside its last training week.
func (s *season) listedAtOnce() bool {
	return s.Running != nil && len(s.weeks) > 0 && s.weeks[0] > s.Today && s.stretches[0].start < s.weeks[0]
}

// peaks tells whether a peaking block runs on the day of the plan.
func (s *season) peaks() bool { return s.Running != nil && s.Running.Kind == planner.Peaking }
