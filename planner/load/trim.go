package load

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// minutes estimates how long a session takes: general warm-up, ramps of each
// barbell lift, sets at four seconds a repetition, and the pauses (common
// practice).
func minutes(work []Work) int {
	if len(work) == 0 {
		return 0
	}
	seconds := 300.0
	ramped := map[string]bool{}
	for _, w := range work {
		seconds += float64(w.Sets) * float64(4*w.Reps+w.Rest)
		if ramped[w.Name] {
			continue
		}
		ramped[w.Name] = true
		switch {
		case w.Role == Accessory:
			seconds += 60
		case len(ramped) == 1:
			seconds += 360
		default:
			seconds += 240
		}
	}
	return int(math.Round(seconds / 60))
}

// trim holds every session to its most sets and minutes and says what it took out.
func (j *job) trim(days []Day) {
	cut := map[string]int{}
	for i := range days {
		for fits := false; !fits; {
			n := days[i].sets()
			fits = n <= maxSessionSets && minutes(days[i].Work) <= maxMinutes || n <= 1
			if fits {
				break
			}
			name := days[i].dropOne()
			cut[name]++
		}
	}
	var said []string
	for name, n := range cut {
		said = append(said, fmt.Sprintf("%s of %s", plural(n, "set"), name))
	}
	slices.Sort(said)
	if len(said) > 0 {
		j.leftOut = append(j.leftOut, "Left out, because a session holds at most 20 sets and 100 minutes: "+strings.Join(said, ", ")+".")
	}
}

func (d Day) sets() int {
	n := 0
	for _, w := range d.Work {
		n += w.Sets
	}
	return n
}

// dropOne takes one set off the last work of a session, accessories first.
func (d *Day) dropOne() string {
	at := len(d.Work) - 1
	for i := len(d.Work) - 1; i >= 0; i-- {
		if d.Work[i].Role == Accessory {
			at = i
			break
		}
	}
	name := d.Work[at].Name
	d.Work[at].Sets--
	if d.Work[at].Sets == 0 {
		d.Work = slices.Delete(d.Work, at, at+1)
	}
	return name
}
