package planner

import (
	"fmt"
	"time"
)

// Date is a civil day in somebody's own zone: no hour, no zone of its own. It
// counts days from 1 January of year 1, which is day 1, so the zero value means
// "no date".
type Date int32

// secondsToEpoch is the distance from 1 January of year 1 to the Unix epoch.
const secondsToEpoch = 62135596800

const secondsPerDay = 86400

// NewDate makes a date from year, month and day; days out of range roll over as
// in time.Date, so check with ParseDate where the input is a person's.
func NewDate(year int, month time.Month, day int) Date {
	return DateOf(time.Date(year, month, day, 0, 0, 0, 0, time.UTC))
}

// DateOf returns the civil day that t's own location shows at t.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	seconds := time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() + secondsToEpoch
	return Date(seconds/secondsPerDay + 1)
}

// ParseDate reads an ISO 8601 day, YYYY-MM-DD, and refuses days that do not
// exist.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return 0, Errorf(Invalid, "Write a date as year-month-day, for example 2027-06-12.",
			"%q is not a day of the calendar", text)
	}
	return DateOf(t), nil
}

// IsZero tells whether there is no date.
func (d Date) IsZero() bool { return d == 0 }

// Midnight returns the first instant of the day in loc. Where midnight does not
// exist (daylight saving), it is the first instant that does.
func (d Date) Midnight(loc *time.Location) time.Time {
	return d.At(loc, 0, 0)
}

// At returns the instant at which clocks in loc show hour:minute on this day. A
// time that a daylight-saving gap leaves out becomes the first instant after
// the gap; a time that occurs twice is the first of the two.
func (d Date) At(loc *time.Location, hour, minute int) time.Time {
	y, m, day := d.Civil()
	t := time.Date(y, m, day, hour, minute, 0, 0, loc)
	if h, mi, _ := t.Clock(); h == hour && mi == minute {
		return firstOfTwo(t, hour, minute)
	}
	return gapEnd(t)
}

// firstOfTwo returns the earlier instant with the same wall time, if any.
func firstOfTwo(t time.Time, hour, minute int) time.Time {
	for _, back := range []time.Duration{time.Hour, 30 * time.Minute} {
		e := t.Add(-back)
		if h, m, _ := e.Clock(); h == hour && m == minute {
			return e
		}
	}
	return t
}

// gapEnd returns the first instant after the daylight-saving gap next to t.
func gapEnd(t time.Time) time.Time {
	start, end := t.ZoneBounds()
	if !start.IsZero() && t.Sub(start) < 3*time.Hour {
		return start
	}
	return end
}

// Civil returns year, month and day.
func (d Date) Civil() (int, time.Month, int) {
	return d.utc().Date()
}

func (d Date) utc() time.Time {
	return time.Unix((int64(d)-1)*secondsPerDay-secondsToEpoch, 0).UTC()
}

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

// AddDays returns the date n days later (earlier where n is negative).
func (d Date) AddDays(n int) Date { return d + Date(n) }

// DaysUntil returns the number of days from d to later; negative if it is past.
func (d Date) DaysUntil(later Date) int { return int(later - d) }

// OnOrAfter returns the first day of the given weekday on or after d.
func (d Date) OnOrAfter(w time.Weekday) Date {
	return d.AddDays((int(w) - int(d.Weekday()) + 7) % 7)
}

// OnOrBefore returns the last day of the given weekday on or before d.
func (d Date) OnOrBefore(w time.Weekday) Date {
	return d.AddDays(-((int(d.Weekday()) - int(w) + 7) % 7))
}

// String writes the day in ISO 8601; "no date" for the zero value.
func (d Date) String() string {
	if d.IsZero() {
		return "no date"
	}
	return d.utc().Format(time.DateOnly)
}

// Short writes the day as a person would say it, for example "Sat 12 June".
func (d Date) Short() string {
	return d.utc().Format("Mon 2 January")
}

// Long writes the day with its year, for example "Sat 12 June 2027".
func (d Date) Long() string {
	return d.utc().Format("Mon 2 January 2006")
}

// MarshalText writes the ISO form, and nothing for no date.
func (d Date) MarshalText() ([]byte, error) {
	if d.IsZero() {
		return nil, nil
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads the ISO form; empty text is no date.
func (d *Date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = 0
		return nil
	}
	v, err := ParseDate(string(text))
	if err != nil {
		return fmt.Errorf("date: %w", err)
	}
	*d = v
	return nil
}

// Age returns whole years from born to d; -1 where born is unknown.
func Age(born, d Date) int {
	if born.IsZero() {
		return -1
	}
	by, bm, bd := born.Civil()
	y, m, day := d.Civil()
	years := y - by
	if m < bm || (m == bm && day < bd) {
		years--
	}
	return years
}

// Weekday is the day of the week, Sunday = 0, as in package time.
type Weekday = time.Weekday
