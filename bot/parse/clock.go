package parse

import (
	"regexp"
	"strconv"
	"strings"
)

var clockForm = regexp.MustCompile(`^(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm|a\.m\.|p\.m\.|h|o'clock)?$`)

// Clock reads a time of day: 08:00, 8, 8am, 8:30 pm, 20.30, noon, midnight. The
// hour is 0 to 23.
func Clock(text string) (hour, minute int, err error) {
	t := strings.ToLower(strings.TrimSpace(text))
	switch t {
	case "noon", "midday":
		return 12, 0, nil
	case "midnight":
		return 0, 0, nil
	}
	m := clockForm.FindStringSubmatch(t)
	if m == nil {
		return 0, 0, notClock(text)
	}
	hour, _ = strconv.Atoi(m[1]) // the form allows digits only
	if m[2] != "" {
		minute, _ = strconv.Atoi(m[2])
	}
	if half := strings.ReplaceAll(m[3], ".", ""); half == "am" || half == "pm" {
		if hour < 1 || hour > 12 {
			return 0, 0, notClock(text)
		}
		hour %= 12
		if half == "pm" {
			hour += 12
		}
	}
	if hour > 23 || minute > 59 {
		return 0, 0, notClock(text)
	}
	return hour, minute, nil
}

func notClock(text string) error {
	return invalid("Write a time between 00:00 and 23:59, for example 08:00.", "%q is not a time of day", Clean(text))
}
