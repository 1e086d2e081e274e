package column

import (
	"database/sql/driver"
	"fmt"
	"time"

	"blockbell/planner"
)

// Day is a civil day as ISO 8601 text; the zero date is NULL.
type Day planner.Date

// Date returns the day in the program's vocabulary.
func (d Day) Date() planner.Date { return planner.Date(d) }

// Value writes the ISO text, NULL for no date.
func (d Day) Value() (driver.Value, error) {
	if d == 0 {
		return nil, nil
	}
	return planner.Date(d).String(), nil
}

// Scan reads ISO text or NULL and refuses anything else.
func (d *Day) Scan(value any) error {
	switch v := value.(type) {
	case nil:
		*d = 0
		return nil
	case string:
		date, err := planner.ParseDate(v)
		if err != nil {
			return err
		}
		*d = Day(date)
		return nil
	}
	return fmt.Errorf("a day is text, not %T", value)
}

// Instant is a moment in whole milliseconds UTC since 1970; the zero time is
// NULL. Finer parts of a time are cut off.
type Instant struct{ time.Time }

// At wraps a time for the database.
func At(t time.Time) Instant { return Instant{t} }

// Value writes milliseconds, NULL for the zero time.
func (i Instant) Value() (driver.Value, error) {
	if i.IsZero() {
		return nil, nil
	}
	return i.UnixMilli(), nil
}

// Scan reads milliseconds or NULL and refuses anything else.
func (i *Instant) Scan(value any) error {
	switch v := value.(type) {
	case nil:
		i.Time = time.Time{}
		return nil
	case int64:
		i.Time = time.UnixMilli(v).UTC()
		return nil
	}
	return fmt.Errorf("an instant is a whole number, not %T", value)
}
