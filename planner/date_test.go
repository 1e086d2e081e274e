package planner_test

import (
	"errors"
	"testing"
	"time"

	"blockbell/planner"
)

func TestDateAgreesWithTheCalendarOfTheStandardLibrary(t *testing.T) {
	// Every day of 1900 to 2100, by package time as the reference.
	day := time.Date(1900, time.January, 1, 0, 0, 0, 0, time.UTC)
	d := planner.DateOf(day)
	for ; day.Year() <= 2100; day = day.AddDate(0, 0, 1) {
		y, m, dd := d.Civil()
		if y != day.Year() || m != day.Month() || dd != day.Day() || d.Weekday() != day.Weekday() || d.String() != day.Format(time.DateOnly) {
			t.Fatalf("%s became %s (%v)", day.Format(time.DateOnly), d, d.Weekday())
		}
		if back, err := planner.ParseDate(d.String()); err != nil || back != d {
			t.Fatalf("%s read back as %s, %v", d, back, err)
		}
		d = d.AddDays(1)
	}
}

func TestDatesThatDoNotExistAreRefused(t *testing.T) {
	for _, text := range []string{"2027-02-29", "2100-02-29", "2027-04-31", "2027-13-01", "2027-00-10", "27-01-01", "2027-1-1", "", "today"} {
		d, err := planner.ParseDate(text)
		var e *planner.Error
		if !errors.As(err, &e) || e.Kind != planner.Invalid || !d.IsZero() {
			t.Errorf("%q gave %s, %v", text, d, err)
		}
	}
	if _, err := planner.ParseDate("2028-02-29"); err != nil {
		t.Errorf("a leap day: %v", err)
	}
}

func TestWallTimeOnDaysWhenClocksChange(t *testing.T) {
	newYork, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Skip("no time zones on this machine")
	}
	lordHowe, err := time.LoadLocation("Australia/Lord_Howe")
	if err != nil {
		t.Skip("no time zones on this machine")
	}
	tests := []struct {
		name         string
		loc          *time.Location
		day          planner.Date
		hour, minute int
		want         string // UTC
	}{
		// US rules of 2007: clocks go from 02:00 to 03:00 on the second Sunday of
		// March and from 02:00 to 01:00 on the first Sunday of November.
		{"an ordinary morning", newYork, planner.NewDate(2027, 3, 13), 8, 0, "2027-03-13T13:00:00Z"},
		{"left out: the first instant after", newYork, planner.NewDate(2027, 3, 14), 2, 30, "2027-03-14T07:00:00Z"},
		{"the morning after the change", newYork, planner.NewDate(2027, 3, 14), 8, 0, "2027-03-14T12:00:00Z"},
		{"twice: the first", newYork, planner.NewDate(2027, 11, 7), 1, 30, "2027-11-07T05:30:00Z"},
		{"after the second", newYork, planner.NewDate(2027, 11, 7), 8, 0, "2027-11-07T13:00:00Z"},
		// Lord Howe Island moves by half an hour: back from 02:00 to 01:30 on the
		// first Sunday of April.
		{"half an hour twice: the first", lordHowe, planner.NewDate(2027, 4, 4), 1, 45, "2027-04-03T14:45:00Z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.day.At(tt.loc, tt.hour, tt.minute).UTC().Format(time.RFC3339); got != tt.want {
				t.Errorf("%s, want %s", got, tt.want)
			}
		})
	}
}

func TestWeekdaysAndDistances(t *testing.T) {
	sat := planner.NewDate(2027, 6, 12)
	if got := sat.OnOrBefore(time.Monday); got != planner.NewDate(2027, 6, 7) {
		t.Errorf("Monday before: %s", got)
	}
	if got := sat.OnOrAfter(time.Saturday); got != sat {
		t.Errorf("Saturday on or after itself: %s", got)
	}
	if got := planner.NewDate(2027, 12, 31).DaysUntil(planner.NewDate(2028, 3, 1)); got != 61 {
		t.Errorf("over a leap day: %d", got)
	}
	if got := sat.Long(); got != "Sat 12 June 2027" {
		t.Errorf("in words: %s", got)
	}
}

func TestAgeTurnsOnTheBirthday(t *testing.T) {
	born := planner.NewDate(2008, 2, 29)
	for _, tt := range []struct {
		on   planner.Date
		want int
	}{
		{planner.NewDate(2026, 2, 28), 17}, {planner.NewDate(2026, 3, 1), 18}, {planner.NewDate(2028, 2, 29), 20},
	} {
		if got := planner.Age(born, tt.on); got != tt.want {
			t.Errorf("on %s: %d, want %d", tt.on, got, tt.want)
		}
	}
	if got := planner.Age(0, planner.NewDate(2026, 3, 1)); got != -1 {
		t.Errorf("unknown birth date: %d", got)
	}
}

func TestDateTextKeepsNoDateApart(t *testing.T) {
	var d planner.Date
	text, err := d.MarshalText()
	if err != nil || len(text) != 0 {
		t.Errorf("no date is written as %q, %v", text, err)
	}
	if err := d.UnmarshalText([]byte("2027-02-30")); err == nil || !d.IsZero() {
		t.Errorf("a day that does not exist was read as %s", d)
	}
	if err := d.UnmarshalText([]byte("2027-06-12")); err != nil || d != planner.NewDate(2027, 6, 12) {
		t.Errorf("read %s, %v", d, err)
	}
}
