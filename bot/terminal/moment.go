package terminal

import (
	"fmt"
	"strings"
	"time"
)

// units are the lengths a clock line may add. A day is 24 hours: the clock
// knows no zone.
var units = map[byte]time.Duration{'w': 7 * 24 * time.Hour, 'd': 24 * time.Hour, 'h': time.Hour, 'm': time.Minute}

// longestStep bounds one clock line; a hundred years is more than any season.
const longestStep = 100 * 366 * 24 * time.Hour

func parseClock(rest string) (line, error) {
	if steps, found := strings.CutPrefix(rest, "+"); found {
		by, err := parseSteps(steps)
		return line{verb: clockOn, by: by}, err
	}
	at, err := time.Parse(time.RFC3339, strings.ToUpper(rest))
	if err != nil {
		return line{}, fmt.Errorf("%q is not a moment: write clock 2027-01-04T08:00:00Z or clock +14d (w, d, h, m)", rest)
	}
	if at = at.UTC(); at.Year() < firstYear || at.Year() > lastYear {
		return line{}, fmt.Errorf("%q is too far off: the clock runs from %d to %d", rest, firstYear, lastYear)
	}
	return line{verb: clockTo, at: at}, nil
}

// The clock runs through the years for which zones and calendars mean anything.
const (
	firstYear = 2000
	lastYear  = 2200
)

// parseSteps reads "14d" or "1d12h".
func parseSteps(s string) (time.Duration, error) {
	bad := fmt.Errorf("%q is not a length of time: write a number with w, d, h or m, such as +14d or +90m", "+"+s)
	var sum time.Duration
	var number int64
	digits := 0
	for i := range len(s) {
		c := s[i]
		if c >= '0' && c <= '9' && digits < 7 {
			number, digits = number*10+int64(c-'0'), digits+1
			continue
		}
		unit, known := units[c|0x20] // either case
		if !known || digits == 0 || number > int64(longestStep/unit) {
			return 0, bad
		}
		sum += time.Duration(number) * unit
		number, digits = 0, 0
	}
	if digits > 0 || sum <= 0 || sum > longestStep {
		return 0, bad
	}
	return sum, nil
}
