package nudge

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// Facts is all that the rules look at. Nothing in it depends on the moment at
// which it is asked.
type Facts struct {
	Zone         *time.Location // the club's
	Channel      string         // where the club's post stands
	Hour, Minute int            // wall time of the daily post, and of direct messages where a lifter chose none
	WeekStart    planner.Weekday
	WomenShorter bool // the club's habit of shorter peaking for women
	Ask          bool // a block begins only when somebody says so
	Members      []Member
}

// Member is one lifter with what is planned for them.
type Member struct {
	Lifter planner.Lifter
	Zone   *time.Location // the lifter's own; never nil
	Public bool           // may be named in public
	Absent bool           // added before joining: there is nobody to tell anything
	Times  store.NudgeTimes
	Meets  []planner.Meet // as they stand now

	// The agreed plan; Plan is 0 where there is none.
	Plan   int64
	Agreed time.Time
	Season planner.Season
	Detail json.RawMessage // the planner's whole answer; may be empty

	Making Making // how the weeks are made

	LastLogged planner.Date // the last day with a set; zero: never logged
	Trained    planner.Date // the last day said to be training without logging
	Quiet      planner.Date // up to this day silence is not asked about
	Aways      []Away       // oldest first
	Done       []Done       // what others did for the member
	Late       []Done       // blocks of lifters the member coaches that wait too long, By the lifter
	Asked      []Asked      // plans that wait for the member as a coach

	Stalls   []Stall       // lifts read as standing still or falling
	LiftsOff []LiftOff     // lifts that are, were or will be off the plan
	Recent   []planner.Set // the last weeks of the log, up to LastLogged
	CheckIns []CheckIn     // oldest first

	Wards    []Ward                          // whom the member speaks for, since they have not joined
	Licence  planner.Date                    // its last day; zero: not told
	Reviewed map[planner.MeetID]bool         // meets with a review
	Places   map[planner.MeetID]store.Roster // where the member has to be at a meet
}

// name is what the member is called.
func (m *Member) name() string {
	if m.Lifter.Name != "" {
		return called(m.Lifter.Name)
	}
	return called(m.Lifter.Handle)
}

// Place is where a nudge belongs.
type Place string

// By name in the club's post, counted there without a name, directly to the
// lifter, or nowhere because the lifter wants to hear things only when asking, or has
// not joined.
const (
	Named    Place = "named"
	Counted  Place = "counted"
	Directly Place = "directly"
	Nowhere  Place = "nowhere"
)

// place decides where a nudge of the given kind belongs on a day. Who is away and has not
// told until when is not named.
func (m *Member) place(s Spec, day planner.Date) Place {
	if m.Absent {
		return Nowhere
	}
	age := planner.Age(m.Lifter.Born, day)
	byName := m.Public && (s.Minors || age < 0 || age >= 18)
	if s.Audience == News && byName && !m.gone(day) {
		return Named
	}
	switch m.Lifter.Nudges {
	case planner.Direct:
		return Directly
	case planner.Ask:
		return Nowhere
	}
	return Counted
}

// zone is whose wall clock rules a place.
func (f *Facts) zone(m *Member, p Place) *time.Location {
	if p == Directly {
		return m.Zone
	}
	return f.Zone
}

// hour is the instant at which a day's post of a place is made.
func (f *Facts) hour(m *Member, p Place, day planner.Date) time.Time {
	if p == Directly && m.Times.Own {
		return day.At(m.Zone, m.Times.Hour, m.Times.Minute)
	}
	return day.At(f.zone(m, p), f.Hour, f.Minute)
}

// quiet tells whether a place is silent on a day.
func (m *Member) quiet(p Place, day planner.Date) bool {
	return p == Directly && m.Times.Quiet[day.Weekday()]
}
