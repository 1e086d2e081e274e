package bot

import (
	"fmt"
	"strings"
	"unicode"

	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// sameMeetDays is how far apart, in days, two entries of one name may lie and still
// be taken for one meet of which somebody has a wrong date.
const sameMeetDays = 60

// sameMeet says what stands out between a new entry and those of the rest of the
// club: the same name on another day, or nearly the same name on the same day. The
// others are counted, never named.
func (t *turn) sameMeet(m planner.Meet) (string, error) {
	all, err := t.tx.AllMeets()
	if err != nil {
		return "", err
	}
	otherDay, otherName := map[planner.Date]int{}, map[string]int{}
	for _, o := range all {
		same := plainName(o.Name) == plainName(m.Name)
		switch days := max(o.Date.DaysUntil(m.Date), m.Date.DaysUntil(o.Date)); {
		case o.Lifter == m.Lifter:
		case same && days == 0:
			return "", nil
		case same && days <= sameMeetDays:
			otherDay[o.Date]++
		case days == 0 && o.Kind != planner.Test && nearlyNamed(o.Name, m.Name):
			otherName[o.Name]++
		}
	}
	for day, n := range otherDay {
		return fmt.Sprintf("%s of the club %s %s on %s: check the date.", others(n), has(n), parse.Clean(m.Name), day.Long()), nil
	}
	for name, n := range otherName {
		return fmt.Sprintf("%s of the club %s %s on that day: is it the same meet?", others(n), has(n), parse.Clean(name)), nil
	}
	return "", nil
}

func others(n int) string {
	return render.Sentence(render.Count(n, "other"))[:len(render.Count(n, "other"))]
}

func has(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// plainName is a meet's name without case, blanks and punctuation.
func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// nearlyNamed tells whether two names are a slip of the pen apart.
func nearlyNamed(a, b string) bool {
	_, near := parse.Near(strings.ToLower(a), []string{strings.ToLower(b)})
	return near
}
