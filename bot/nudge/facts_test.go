package nudge_test

import (
	"slices"
	"testing"
	"time"

	"blockbell/bot/nudge"
	"blockbell/planner"
)

// day is a day of 2027, the year of most tests.
func day(month time.Month, d int) planner.Date { return planner.NewDate(2027, month, d) }

func place(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// season is a plan to River Open on Sat 12 June 2027: muscle to 21 February,
// strength to 9 May, peaking with its taper from 31 May, then a week of recovery.
func season() planner.Season {
	return planner.Season{
		Blocks: []planner.Block{
			{Kind: planner.Hypertrophy, Start: day(time.January, 4), End: day(time.February, 21), Weeks: 7},
			{Kind: planner.Strength, Start: day(time.February, 22), End: day(time.May, 9), Weeks: 11},
			{Kind: planner.Peaking, Start: day(time.May, 10), End: day(time.June, 11), Weeks: 5, TaperStart: day(time.May, 31)},
			{Kind: planner.Recovery, Start: day(time.June, 13), End: day(time.June, 20), Weeks: 1},
		},
		Meets: []planner.SeasonMeet{{ID: 12, Name: "River Open", Date: day(time.June, 12), Kind: planner.Main}},
		Begun: make([]planner.Date, 4),
	}
}

// ana is an experienced lifter of 30 who is told things directly.
func ana() nudge.Member {
	return nudge.Member{
		Lifter: planner.Lifter{
			ID: 1, Handle: "ana", Name: "Ana", Born: planner.NewDate(1997, time.March, 1), Level: planner.Intermediate,
			Category: planner.Women, Bodyweight: 70 * planner.Kilogram, HasCompeted: true, Nudges: planner.Direct,
		},
		Zone: time.UTC, Public: true, Plan: 3, Agreed: time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC), Season: season(),
		Meets: []planner.Meet{{ID: 12, Lifter: 1, Name: "River Open", Date: day(time.June, 12), Kind: planner.Main}},
	}
}

// club is a club of the members given, with its post at eight in the morning UTC.
func club(members ...nudge.Member) nudge.Facts {
	return nudge.Facts{Zone: time.UTC, Hour: 8, WeekStart: time.Monday, Members: members}
}

// year is a span that holds everything due in 2027.
func year() (from, to time.Time) {
	return time.Date(2026, 12, 31, 0, 0, 0, 0, time.UTC), time.Date(2028, 1, 1, 0, 0, 0, 0, time.UTC)
}

// due lists the keys of everything due in 2027 but the paperwork of meets.
func due(f nudge.Facts) []string {
	var keys []string
	for _, n := range training(nudge.Due(f, yearFrom, yearTo)) {
		keys = append(keys, n.Key)
	}
	return keys
}

var yearFrom, yearTo = year()

// training leaves the paperwork of meets and what weeks tell out of what is due.
func training(all []nudge.Nudge) []nudge.Nudge {
	return slices.DeleteFunc(all, func(n nudge.Nudge) bool {
		return slices.Contains(paperwork, n.Kind) || slices.Contains(ofWeeks, n.Kind)
	})
}

var ofWeeks = []nudge.Kind{nudge.DeloadWeek, nudge.LastHeavy}

var paperwork = []nudge.Kind{nudge.EntryCloses, nudge.Openers, nudge.WeighIn, nudge.Checklist, nudge.AfterMeet}
