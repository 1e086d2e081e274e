package nudge_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// Wall times around changes of the clock. Sources: the zone table's rules for New
// York in 2027 (forward on 14 March, back on 7 November at 02:00), Lord Howe Island
// (half an hour, 3 October 2027 at 02:00) and Beirut, where the clock goes forward at
// midnight (28 March 2027).
func TestDueKeepsWallTimeThroughChangesOfTheClock(t *testing.T) {
	tests := []struct {
		name, zone   string
		day          planner.Date
		hour, minute int
		want         string
	}{
		{"winter", "America/New_York", day(time.March, 13), 2, 30, "2027-03-13T02:30:00-05:00"},
		{"left out: first instant after the gap", "America/New_York", day(time.March, 14), 2, 30, "2027-03-14T03:00:00-04:00"},
		{"summer", "America/New_York", day(time.March, 15), 2, 30, "2027-03-15T02:30:00-04:00"},
		{"twice: the first", "America/New_York", day(time.November, 7), 1, 30, "2027-11-07T01:30:00-04:00"},
		{"half an hour left out", "Australia/Lord_Howe", day(time.October, 3), 2, 15, "2027-10-03T02:30:00+11:00"},
		{"midnight left out", "Asia/Beirut", day(time.March, 28), 0, 15, "2027-03-28T01:00:00+03:00"},
		{"leap day", "Pacific/Kiritimati", planner.NewDate(2028, time.February, 29), 8, 0, "2028-02-29T08:00:00+14:00"},
		{"last day of the year", "Pacific/Pago_Pago", day(time.December, 31), 8, 0, "2027-12-31T08:00:00-11:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			want, err := time.Parse(time.RFC3339, tt.want)
			if err != nil {
				t.Fatal(err)
			}
			m := ana()
			m.Season, m.Plan, m.Public = planner.Season{}, 0, false // told directly, on the lifter's clock
			m.Zone = place(t, tt.zone)
			m.Meets[0].Date = tt.day.AddDays(7)
			f := club(m)
			f.Hour, f.Minute = tt.hour, tt.minute
			got := training(nudge.Due(f, want.Add(-time.Second), want))
			if len(got) != 1 || got[0].Day != tt.day || !got[0].Due.Equal(want) {
				t.Fatalf("due %v, want one at %s", got, want)
			}
			if again := training(nudge.Due(f, want, want.Add(20*time.Hour))); len(again) != 0 {
				t.Errorf("due again after %s: %v", want, again)
			}
		})
	}
}

// The club's post follows the club's clock, a direct message the lifter's own.
func TestEachPlaceHasItsOwnClock(t *testing.T) {
	m := ana()
	m.Zone = place(t, "Asia/Tokyo")
	f := club(m)
	f.Zone = place(t, "Europe/Lisbon")
	for _, n := range training(nudge.Due(f, yearFrom, yearTo)) {
		zone := f.Zone
		if n.Place == nudge.Directly {
			zone = m.Zone
		}
		if h, mi, _ := n.Due.In(zone).Clock(); h != 8 || mi != 0 || planner.DateOf(n.Due.In(zone)) != n.Day {
			t.Errorf("%s falls due at %s, want eight o'clock on %s in %s", n.Key, n.Due.In(zone), n.Day, zone)
		}
		if !n.Until.After(n.Due) {
			t.Errorf("%s is useless at %s already when it falls due at %s", n.Key, n.Until, n.Due)
		}
	}
}

// However a span of time is cut, the pieces hold what the whole holds.
func TestDueOfPiecesIsDueOfTheWhole(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	for range 60 {
		f := randomClub(t, r)
		from := time.Date(2027, 9, 1, 0, 0, 0, 0, time.UTC)
		to := from.AddDate(1, 0, 0)
		whole := training(nudge.Due(f, from, to))
		var pieces []nudge.Nudge
		for at := from; at.Before(to); {
			next := at.Add(time.Duration(r.Int64N(int64(20 * 24 * time.Hour))))
			if next.After(to) {
				next = to
			}
			if len(whole) > 0 && r.IntN(3) == 0 { // cut exactly where something is due
				if d := whole[r.IntN(len(whole))].Due; d.After(at) {
					next = d
				}
			}
			pieces = append(pieces, training(nudge.Due(f, at, next))...)
			at = next
		}
		if len(pieces) != len(whole) {
			t.Fatalf("%d due in pieces, %d in the whole", len(pieces), len(whole))
		}
		seen := map[string]bool{}
		for i, n := range whole {
			if pieces[i].Key != n.Key || !pieces[i].Due.Equal(n.Due) {
				t.Fatalf("number %d is %s in pieces, %s in the whole", i, pieces[i].Key, n.Key)
			}
			if seen[n.Key] {
				t.Fatalf("%s is due twice", n.Key)
			}
			seen[n.Key] = true
		}
	}
}

// zones lie on both sides of the date line and change their clocks both ways, at
// odd times and by odd amounts, or never.
var zones = []string{"UTC", "Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Pacific/Kiritimati", "Pacific/Pago_Pago", "America/Sao_Paulo", "Asia/Kathmandu", "Pacific/Chatham"}

// randomClub makes a club of one to four lifters whose seasons begin in August or
// September 2027 and so run over both changes of the clock, the turn of the year
// and the leap day of 2028.
func randomClub(t testing.TB, r *rand.Rand) nudge.Facts {
	f := nudge.Facts{
		Zone: place(t, zones[r.IntN(len(zones))]), Hour: r.IntN(24), Minute: r.IntN(4) * 15,
		WeekStart: time.Weekday(r.IntN(7)), Ask: r.IntN(3) == 0,
	}
	for i := range 1 + r.IntN(4) {
		f.Members = append(f.Members, randomMember(t, r, i))
	}
	return f
}

func randomMember(t testing.TB, r *rand.Rand, i int) nudge.Member {
	m := nudge.Member{
		Lifter: planner.Lifter{
			ID: planner.LifterID(i + 1), Handle: []string{"ana", "ben", "cy", "dee"}[i], Name: []string{"Ana", "Ben", "Cy", "Dee"}[i],
			HasCompeted: r.IntN(4) > 0, Level: planner.Levels()[r.IntN(5)],
			Nudges: []planner.Where{planner.Direct, planner.Channel, planner.Ask, ""}[r.IntN(4)],
			Zone:   zones[r.IntN(len(zones))],
		},
		Public: r.IntN(4) > 0, Plan: int64(i + 1),
	}
	if r.IntN(3) == 0 {
		m.Lifter.Born = planner.NewDate(2008+r.IntN(4), time.November, 20)
	}
	m.Zone = place(t, m.Lifter.Zone)
	m.Season, m.Meets = randomSeason(r, planner.MeetID(10*i+1))
	m.Agreed = m.Season.Blocks[0].Start.At(m.Zone, 7, 30)
	return m
}

// randomSeason lays out two runs of three blocks, each to a meet, of which the
// first may have been moved later or dropped since.
func randomSeason(r *rand.Rand, id planner.MeetID) (planner.Season, []planner.Meet) {
	var s planner.Season
	var meets []planner.Meet
	start := planner.NewDate(2027, time.August, 20).AddDays(r.IntN(30))
	for run := range 2 {
		for _, k := range []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking} {
			weeks := 3 + r.IntN(5)
			end := start.AddDays(7*weeks - 1 - r.IntN(4))
			b := planner.Block{Kind: k, Start: start, End: end, Weeks: weeks}
			if k == planner.Peaking {
				b.TaperStart = end.AddDays(-7 - r.IntN(7))
			}
			s.Blocks = append(s.Blocks, b)
			start = end.AddDays(1)
		}
		m := planner.Meet{ID: id + planner.MeetID(run), Name: []string{"River Open", "Hill Cup"}[run], Date: start,
			Kind: []planner.MeetKind{planner.Main, planner.TuneUp, planner.Test}[r.IntN(3)]}
		s.Meets = append(s.Meets, planner.SeasonMeet{ID: m.ID, Name: m.Name, Date: m.Date, Kind: m.Kind})
		if m.Date = m.Date.AddDays(r.IntN(2) * r.IntN(30)); r.IntN(6) > 0 {
			meets = append(meets, m)
		}
		s.Blocks = append(s.Blocks, planner.Block{Kind: planner.Recovery, Start: start.AddDays(1), End: start.AddDays(7), Weeks: 1})
		start = start.AddDays(8)
	}
	s.Begun = make([]planner.Date, len(s.Blocks))
	for i, b := range s.Blocks {
		if r.IntN(3) > 0 {
			s.Begun[i] = b.Start
		}
	}
	return s, meets
}
