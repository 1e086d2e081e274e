package store

import (
	"time"

	"blockbell/planner"
	"blockbell/store/internal/sqlgen"
)

// Advance says what happens on the day a block ends.
type Advance string

// The next block begins on its date as agreed, or only when somebody says so.
const (
	AdvanceAgreed Advance = "agreed"
	AdvanceAsk    Advance = "ask"
)

// Weeks says whose weeks somebody trains by.
type Weeks string

// The bot's, the club's own tables where it has them, or one's own: then nothing is
// prescribed.
const (
	BotWeeks  Weeks = "bot"
	ClubWeeks Weeks = "club"
	OwnWeeks  Weeks = "own"
)

// Club is the club's settings.
type Club struct {
	Zone         string        // IANA name
	WeekStart    time.Weekday  // first day of a training week
	Hour, Minute int           // of the daily post, on the club's clock
	LogChannel   string        // where lifters write their sets
	NudgeChannel string        // where the club is told things
	CaptainRole  string        // role that makes a captain; empty: only who manages the workspace
	Advance      Advance       // what ends a block
	WomenShorter bool          // the habit of a shorter peaking limit for women
	Equation     string        // for estimated maxima
	SmallestStep planner.Grams // smallest change of a bar's weight
	Weeks        Weeks         // whose weeks the club trains by
	Unit         planner.Unit  // in which new lifters begin
}

// DefaultClub returns the settings of a club that has set nothing.
func DefaultClub() Club {
	return Club{
		Zone: "UTC", WeekStart: time.Monday, Hour: 8, LogChannel: "#training-log", NudgeChannel: "#announcements",
		Advance: AdvanceAgreed, WomenShorter: true, Equation: "brzycki", SmallestStep: 2500, Weeks: BotWeeks, Unit: planner.KG,
	}
}

// Club returns the settings, the defaults where none were saved.
func (t *Tx) Club() (Club, error) {
	type key struct{}
	return recall(t, key{}, t.readClub)
}

func (t *Tx) readClub() (Club, error) {
	r, err := t.q.Club(t.ctx)
	if absent(err) {
		return DefaultClub(), nil
	}
	if err != nil {
		return Club{}, err
	}
	return Club{
		Zone: r.Zone, WeekStart: time.Weekday(r.WeekStart), Hour: int(r.Hour), Minute: int(r.Minute),
		LogChannel: r.LogChannel, NudgeChannel: r.NudgeChannel, CaptainRole: r.CaptainRole,
		Advance: Advance(r.Advance), WomenShorter: r.WomenShorter, Equation: r.Equation, SmallestStep: r.SmallestStepG, Weeks: Weeks(r.Weeks), Unit: planner.Unit(r.Unit),
	}, nil
}

// SaveClub keeps the settings.
func (t *Tx) SaveClub(c Club) error {
	return t.q.SaveClub(t.ctx, sqlgen.SaveClubParams{
		Zone: c.Zone, WeekStart: int64(c.WeekStart), Hour: int64(c.Hour), Minute: int64(c.Minute),
		LogChannel: c.LogChannel, NudgeChannel: c.NudgeChannel, CaptainRole: c.CaptainRole,
		Advance: string(c.Advance), WomenShorter: c.WomenShorter, Equation: c.Equation, SmallestStepG: c.SmallestStep, Weeks: string(c.Weeks), Unit: string(c.Unit),
	})
}
