package bot

import (
	"strconv"
	"strings"

	"blockbell/bot/parse"
	"blockbell/planner"
	"blockbell/store"
)

// reviewWith reads the options of /meet review into what was said before.
func (t *turn) reviewWith(m planner.Meet, r store.Review) (store.Review, error) {
	counted := liftsOf(m.Event)
	told := 0
	for _, lift := range counted {
		v, given := t.options[string(lift)]
		if !given {
			continue
		}
		g, err := goodLift(string(lift), v, t.about.Unit)
		if err != nil {
			return r, err
		}
		told++
		switch lift {
		case planner.Squat:
			r.Squat = g
		case planner.Bench:
			r.Bench = g
		case planner.Deadlift:
			r.Deadlift = g
		}
	}
	if told > 0 && told < len(counted) && !r.LiftsTold {
		return r, planner.Errorf(planner.Invalid, "0 is a lift without a good attempt.", "Tell all lifts that count: %s", strings.Join(words(counted), ", "))
	}
	r.LiftsTold = r.LiftsTold || told > 0
	if v, given := t.options["misses"]; given {
		var err error
		if r.Strength, r.Technique, r.Command, err = missesOf(v); err != nil {
			return r, err
		}
	}
	var err error
	if v, given := t.options["well"]; given {
		if r.Well, err = t.shortWords("well", v); err != nil {
			return r, err
		}
	}
	if v, given := t.options["next"]; given {
		r.NextTime, err = t.shortWords("next", v)
	}
	return r, err
}

// goodLift reads the heaviest good attempt of a lift; 0: none.
func goodLift(name, v string, unit planner.Unit) (planner.Grams, error) {
	if strings.TrimSpace(v) == "0" {
		return 0, nil
	}
	g, err := parse.Weight(v, unit)
	return g, named(name, err)
}

// mostMisses is all attempts of a meet.
const mostMisses = 9

// missesOf reads how many attempts were missed for strength, technique and commands.
func missesOf(v string) (strength, technique, command int, err error) {
	parts := strings.FieldsFunc(v, func(r rune) bool { return strings.ContainsRune(" ,/;", r) })
	var n [3]int
	bad := len(parts) != 3
	for i := 0; i < len(parts) && !bad; i++ {
		n[i], err = strconv.Atoi(parts[i])
		bad = err != nil || n[i] < 0
	}
	if bad || n[0]+n[1]+n[2] > mostMisses {
		return 0, 0, 0, planner.Errorf(planner.Invalid, "Three numbers, together at most 9: for strength, technique and commands, for example 1 0 2.", "misses: %q cannot be read", parse.Clean(v))
	}
	return n[0], n[1], n[2], nil
}

// longestWords is how much of somebody's own words about a meet is kept.
const longestWords = 200

// shortWords reads a few words about a meet; none forgets them. Words about pain or
// health are not kept: that belongs to a coach or a doctor.
func (t *turn) shortWords(name, v string) (string, error) {
	v = strings.TrimSpace(v)
	if strings.EqualFold(v, "none") {
		return "", nil
	}
	if parse.SpeaksOfPain(v) {
		return "", planner.Errorf(planner.Invalid, "I keep no words about pain or health. Stop what hurts, and talk to your coach or a doctor.", "%s: that is not kept", name)
	}
	if len([]rune(v)) > longestWords {
		return "", planner.Errorf(planner.Invalid, "The two most useful sentences are enough.", "%s: that has more than %d characters", name, longestWords)
	}
	return parse.Clean(v), nil
}
