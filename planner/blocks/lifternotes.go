package blocks

import (
	"fmt"
	"math"
	"strings"

	"blockbell/planner"
)

// Acute limits in percent of bodyweight by the hours between weighing in and lifting
// (judgement from Schoffstall et al. 2001 and Nolan et al. 2022 for two hours, and
// from longer recovery in combat sports for a day), and the days before a meet from
// which nothing slower helps.
const (
	acuteShort   = 2.0
	acuteLong    = 3.0
	acuteDays    = 14
	longWeighIn  = 24
	adultAge     = 18
	heldTotalAge = 70
)

// lifterNotes says what of the lifter, not of the calendar, bears on the plan.
func (s *season) lifterNotes() (out []string) {
	l := s.Lifter
	age := planner.Age(l.Born, s.Today)
	if age >= heldTotalAge {
		out = append(out, "From 70 years on, holding your total is a good year: take what comes above it as a gift.")
	}
	if age >= 0 && age < adultAge {
		out = append(out, "Until a coach has said that your technique is proven and somebody watches: nothing above 85 %. Then 90 %, with 2 repetitions left.")
	}
	if l.Days == 2 {
		out = append(out, "On 2 days a week a block holds less work, not fewer weeks: about 20 hard sets and 100 minutes a day, heavy lifts first. The weekly plan says what did not fit.")
	}
	return append(append(out, s.firstMeetNote()...), append(s.gearNote(), s.classNotes(age)...)...)
}

// firstMeetNote is for who has never competed.
func (s *season) firstMeetNote() []string {
	if s.main < 0 || s.Lifter.HasCompeted {
		return nil
	}
	meet := s.stretches[s.main].end.AddDays(1)
	if s.Today.AddDays(14) > meet {
		return nil
	}
	return []string{fmt.Sprintf("Your first meet: practise it once with commands between %s and %s, with at most 3 heavy singles on the way and nothing above 90 %%.",
		max(s.Today, meet.AddDays(-21)).Short(), meet.AddDays(-14).Short())}
}

// gearNote says that weekly work is planned raw.
func (s *season) gearNote() []string {
	var names []string
	for _, m := range s.byDay {
		if m.Equipment == planner.SinglePly || m.Equipment == planner.MultiPly {
			names = append(names, namedShort(m))
		}
	}
	verb := "is"
	switch {
	case len(names) == 0:
		return nil
	case len(names) > 1:
		verb = "are"
	}
	return []string{fmt.Sprintf("%s %s lifted in gear: the blocks allow for it, the weekly work is planned raw. Put the days in suit and shirt in with your coach.",
		capital(list(names)), verb)}
}

// A class further below the bodyweight than cutFar percent is warned of: beyond it
// lifters did worse (Campbell et al. 2023). safeLoss is the percent of bodyweight a week
// at which strength came through a loss best (Garthe et al. 2011).
const (
	cutFar   = 5.0
	safeLoss = 0.7
)

// farBelow warns of a class that lies percent of bodyweight below, with so many weeks to
// the meet. Who should not cut is common medical advice.
func farBelow(percent float64, left int) string {
	weeks := int(math.Ceil(math.Log(1-percent/100) / math.Log(1-safeLoss/100)))
	text := fmt.Sprintf(", %.1f %% less: a higher class is the safe choice. At a safe pace, about %.1f %% a week, this takes %d weeks", percent, safeLoss, weeks)
	if weeks > left {
		text += fmt.Sprintf(", and %d are left", left)
	}
	return text + ". Speak with a doctor or dietitian first. No cut when pregnant, after an eating disorder, or with diabetes or a kidney or heart disease."
}

// weighs begins every note that tells a bodyweight.
const weighs = "You weigh "

// TellsBodyweight tells whether a note of a plan names the lifter's bodyweight, which
// not everybody who may see the plan may see.
func TellsBodyweight(note string) bool { return strings.HasPrefix(note, weighs) }

// classNotes names bodyweight and class where the class of a meet is too light.
func (s *season) classNotes(age int) (out []string) {
	l := s.Lifter
	for _, m := range s.byDay {
		class := m.Class
		if class.IsZero() {
			class = l.Class
		}
		over := l.Bodyweight - class.Limit
		if class.IsZero() || class.Plus || l.Bodyweight == 0 || over <= 0 || m.Kind == planner.Test {
			continue
		}
		what := fmt.Sprintf(weighs+"%s and the class for %s ends at %s", l.Bodyweight.Text(l.Unit), namedShort(m), class.Limit.Text(l.Unit))
		percent, acute := 100*float64(over)/float64(l.Bodyweight), acuteShort
		if m.WeighInHours >= longWeighIn {
			acute = acuteLong
		}
		switch {
		case age >= 0 && age < adultAge || !l.HasCompeted:
			out = append(out, what+": lift in the class you weigh.")
		case percent > acute && s.Today.DaysUntil(m.Date) <= acuteDays:
			out = append(out, what+fmt.Sprintf(", %.1f %% less: enter or move to the next class.", percent))
		case percent > cutFar:
			out = append(out, what+farBelow(percent, s.Today.DaysUntil(m.Date)/7))
		default:
			out = append(out, what+": a muscle block and a lower bodyweight work against each other, so settle the class before the entry closes.")
		}
		return out
	}
	return nil
}

// namedShort is a meet in words.
func namedShort(m planner.Meet) string {
	if m.Name == "" {
		return "the meet on " + m.Date.Short()
	}
	return m.Name
}
