package load

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"blockbell/planner"
)

var (
	setsForm    = regexp.MustCompile(`^(\d{1,3})\s*x\s*(\d{1,3})`)
	percentForm = regexp.MustCompile(`^(?:at\s+)?(\d{1,3}(?:[.,]\d{1,2})?)\s*%`)
	leftForm    = regexp.MustCompile(`^(\d{1,2}(?:[.,]5|[.,]0)?)\s*left\b`)
	wordForm    = regexp.MustCompile(`^[a-z-]+`)
	nameForm    = regexp.MustCompile(`^[a-z][a-z0-9 -]*$`)
)

// cursor walks over the part of a line behind the colon.
type cursor struct {
	text string // lower case
	at   int    // byte of the line
}

func (c *cursor) skip() {
	for len(c.text) > 0 && strings.ContainsRune(" \t,", rune(c.text[0])) {
		c.text, c.at = c.text[1:], c.at+1
	}
}

// take reads a form at the cursor; nil where it is not there.
func (c *cursor) take(form *regexp.Regexp) []string {
	c.skip()
	m := form.FindStringSubmatch(c.text)
	if m != nil {
		c.text, c.at = c.text[len(m[0]):], c.at+len(m[0])
	}
	return m
}

// work reads a line of work; body begins at byte at of the line.
func (r *tableReader) work(body string, at int) error {
	if len(r.table.Weeks) == 0 || len(r.table.Weeks[len(r.table.Weeks)-1].Days) == 0 {
		return r.bad(at, "Write day 1 above the work.", "work without a day")
	}
	name, rest, ok := strings.Cut(asciiLower(body), ":")
	if !ok {
		return r.bad(at, "Write for example: squat: 3 x 5 at 75 %", "a colon is missing behind the movement")
	}
	m, ok := movementNamed(strings.TrimSpace(name))
	if !ok {
		return r.bad(at, "Use letters, as in: close-grip bench", "%q names no movement", strings.TrimSpace(name))
	}
	if like, slip := slipOf(m); slip {
		return r.bad(at, "Write "+like+", or another name if it is an exercise of your own.", "%q is no movement I know; it looks like %s", string(m.Lift), like)
	}
	line := TableLine{Movement: m, Reserve: -1}
	if err := r.amounts(&line, &cursor{rest, at + len(name) + 1}); err != nil {
		return err
	}
	w := &r.table.Weeks[len(r.table.Weeks)-1]
	d := len(w.Days) - 1
	w.Days[d] = append(w.Days[d], line)
	return nil
}

// asciiLower keeps every byte in its place, so that columns stay true.
func asciiLower(s string) string {
	return strings.Map(func(c rune) rune {
		if c >= 'A' && c <= 'Z' {
			return c + 'a' - 'A'
		}
		return c
	}, s)
}

// amounts reads what stands behind the colon.
func (r *tableReader) amounts(l *TableLine, c *cursor) error {
	c.skip()
	start := c.at
	m := c.take(setsForm)
	if m == nil {
		return r.bad(start, "Write sets x repetitions, for example 3 x 5.", "sets and repetitions are missing")
	}
	l.Sets, _ = strconv.Atoi(m[1]) // the form holds digits
	l.Reps, _ = strconv.Atoi(m[2])
	if l.Sets < 1 || l.Sets > maxSessionSets || l.Reps < 1 || l.Reps > maxTableReps {
		return r.bad(start, fmt.Sprintf("Sets run from 1 to %d, repetitions from 1 to %d.", maxSessionSets, maxTableReps), "%d x %d is out of bounds", l.Sets, l.Reps)
	}
	if err := r.effort(l, c); err != nil {
		return err
	}
	return r.role(l, c)
}

// effort reads a percent or what is left.
func (r *tableReader) effort(l *TableLine, c *cursor) error {
	c.skip()
	start := c.at
	if m := c.take(percentForm); m != nil {
		l.Percent = decimal(m[1])
		if l.Percent < 30 || l.Percent > 100 {
			return r.bad(start, "", "%s %% is outside 30 to 100 %%", m[1])
		}
	} else if m := c.take(leftForm); m != nil {
		l.Reserve = decimal(m[1])
		if l.Reserve > 10 {
			return r.bad(start, "", "%s left is outside 0 to 10", m[1])
		}
	}
	known := l.Percent > 0 || l.Reserve >= 0
	switch {
	case l.Movement.Lift.Competition() && !known:
		return r.bad(start, "Write for example: at 75 %, or: 3 left", "%s needs a percent or what is left", l.Movement.Name())
	case !l.Movement.Lift.Competition() && known:
		return r.bad(start, "Only squat, bench, deadlift and their variants have a max here.", "%s takes sets and repetitions only", l.Movement.Name())
	}
	return nil
}

func (r *tableReader) role(l *TableLine, c *cursor) error {
	c.skip()
	start := c.at
	if m := c.take(wordForm); m != nil {
		role := Role(m[0])
		if !slices.Contains([]Role{Top, BackOff, FirstHeavy, WorkSets, Technique}, role) || !l.Movement.Lift.Competition() {
			return r.bad(start, "Roles are top, back-off, first-heavy, work and technique.", "%q is no role here", m[0])
		}
		l.Role = role
	}
	if c.skip(); c.text != "" {
		return r.bad(c.at, "", "%q is left over", strings.TrimSpace(c.text))
	}
	return nil
}

// decimal reads digits with a point or a comma.
func decimal(s string) float64 {
	f, _ := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64) // the form holds a number
	return f
}

// movementNamed finds a movement by the name it is written with; other names of
// letters are accessories of the club's own.
func movementNamed(name string) (Movement, bool) {
	name = strings.Join(strings.Fields(name), " ")
	for _, e := range catalogued {
		if strings.EqualFold(e.Name(), name) || strings.ReplaceAll(e.Name(), "-", " ") == strings.ReplaceAll(name, "-", " ") {
			return e.Movement, true
		}
	}
	if !nameForm.MatchString(name) || len(name) > 40 {
		return Movement{}, false
	}
	return Movement{Lift: planner.Lift(name)}, true
}
