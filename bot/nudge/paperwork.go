package nudge

import (
	"fmt"

	"blockbell/bot/render"
	"blockbell/planner"
)

// step is one thing to tell so many days before or after a meet.
type step struct {
	days  int // before the meet; after it where negative
	fact  string
	first bool     // for those who have never competed only
	lines []string // what to do, and why
}

// checklist is what is to be done before a meet (common practice; the rule book in
// force decides what is allowed).
var checklist = []step{
	{42, "-6w-kit", false, []string{"Check your kit against the rule book in force: suit, shoes, belt, sleeves, socks.", "Six weeks leave time to replace what is not allowed."}},
	{28, "-4w-commands", false, []string{"Once a week from now, lift with the commands, to full depth and with the pause.", "Misses for commands are the cheapest to avoid."}},
	{21, "-3w-mock", true, []string{"Your first meet: do a practice run with all commands and three attempts a lift, nothing near your max.", "Ask your coach to play the referee."}},
	{7, "-1w-kit", false, []string{"Pack by a list: card, kit, food, warm-up notes.", "Check medicines and supplements against the anti-doping list in force; ask a doctor or pharmacist where you are not sure."}},
}

// openers are the days on which openers are written down and confirmed.
var openers = []step{
	{14, "-2w", false, []string{"Write down your openers: weights you could do for two or more on a bad day, to the rules.", "Talk them over with your coach."}},
	{2, "-2d", false, []string{"Confirm your openers with your coach or handler.", "From now on change them downwards only, unless training says otherwise."}},
}

// weighIns are the days on which bodyweight and weigh-in come up; all but the last
// only where the lifter is above the class.
var weighIns = []step{
	{28, "-4w", false, nil}, {14, "-2w", false, nil},
	{1, "-1d", false, []string{"Check the way there, the time of your weigh-in, and what to bring to it.", "Eat and drink as you are used to."}},
}

// after is what is left to do when a meet is over.
var after = []step{
	{-1, "+1d-result", false, []string{"How did it go? Put the result in with /meet result.", "The next plan counts from it."}},
	{-7, "+1w-review", false, []string{"Look back with your coach while it is fresh: what was missed, and was it strength, technique or a command?", "Two sentences now are worth more than a memory in a year: /meet review."}},
}

// entrySteps are the days before the entry closes on which that is told.
var entrySteps = []step{{21, "-21d", false, nil}, {7, "-7d", false, nil}, {2, "-2d", false, nil}}

// findChecklist: something is to be done before a meet in a hall.
func findChecklist(s *search) { s.findSteps(checklist, nil) }

// findAfter: a meet is over. The result is asked for only where there is none, and the
// review only where none was told. Of a lifter who has not joined the result alone.
func findAfter(s *search) {
	s.findSteps(after, func(m planner.Meet, i int) bool {
		return i == 0 && m.ResultEntered || i == 1 && s.member.Reviewed[m.ID]
	})
	for _, w := range s.member.Wards {
		for _, m := range w.Meets {
			if day := m.Date.AddDays(1); m.Kind != planner.Test && !m.ResultEntered && s.near(day) {
				s.add(Nudge{Day: day, Meet: m, Ward: w.Lifter}, meetObject(m), m.Date, after[0].fact)
			}
		}
	}
}

// findOpeners: openers are to be chosen or confirmed.
func findOpeners(s *search) { s.findSteps(openers, nil) }

// findWeighIns: the last known bodyweight is above the class entered, or the
// weigh-in is near.
func findWeighIns(s *search) {
	s.findSteps(weighIns, func(m planner.Meet, i int) bool { return weighIns[i].lines == nil && over(s.member.Lifter, m) <= 0 })
}

// findSteps adds what a list of steps says on the days near, for main and practice
// meets, but for what skip leaves out.
func (s *search) findSteps(steps []step, skip func(planner.Meet, int) bool) {
	for _, m := range s.member.Meets {
		if m.Kind == planner.Test {
			continue
		}
		for i, step := range steps {
			day := m.Date.AddDays(-step.days)
			if !s.near(day) || step.first && s.member.Lifter.HasCompeted || skip != nil && skip(m, i) {
				continue
			}
			s.add(Nudge{Day: day, Meet: m, Step: i}, meetObject(m), m.Date, step.fact)
		}
	}
}

// findEntries: an entry closes soon and nobody said it was made.
func findEntries(s *search) {
	s.findEntriesOf(s.member.Meets, planner.Lifter{})
	for _, w := range s.member.Wards {
		s.findEntriesOf(w.Meets, w.Lifter)
	}
}

func (s *search) findEntriesOf(meets []planner.Meet, ward planner.Lifter) {
	for _, m := range meets {
		if m.Entered || m.EntryCloses.IsZero() {
			continue
		}
		for i, step := range entrySteps {
			if day := m.EntryCloses.AddDays(-step.days); s.near(day) {
				s.add(Nudge{Day: day, Meet: m, Step: i, Ward: ward}, meetObject(m), m.EntryCloses, step.fact)
			}
		}
	}
}

// class is the class a meet was entered in, or else the lifter's own.
func class(l planner.Lifter, m planner.Meet) planner.Class {
	if !m.Class.IsZero() {
		return m.Class
	}
	return l.Class
}

// over is by how much the lifter's bodyweight is above the class of a meet; at most
// zero where it is not, or not known.
func over(l planner.Lifter, m planner.Meet) planner.Grams {
	c := class(l, m)
	if c.IsZero() || c.Plus || l.Bodyweight == 0 {
		return 0
	}
	return l.Bodyweight - c.Limit
}

// toldPaper says what is to be done about a meet.
func (n *Nudge) toldPaper(today planner.Date) []string {
	switch n.Kind {
	case EntryCloses:
		missing := "Without an entry you cannot lift there: enter, or ask who enters for the club."
		if n.Ward.ID != 0 {
			missing = "Nobody lifts there without an entry: make it, or ask who enters for the club."
		}
		return []string{
			"The entry for " + n.meetName() + " closes " + render.InDays(today.DaysUntil(n.Meet.EntryCloses)) + ": " + n.Meet.EntryCloses.Short() + "; the organiser's own date wins.",
			missing + " Done already? Say so, and I stop asking.",
		}
	case LicenceEnds:
		return n.toldLicence()
	case AfterMeet:
		if n.Ward.ID != 0 {
			return []string{n.meetName() + " was on " + n.Meet.Date.Short() + ".", "How did it go? /meet result with lifter: keeps it; the next plan counts from it."}
		}
		return append([]string{n.meetName() + " was on " + n.Meet.Date.Short() + "."}, after[n.Step].lines...)
	case WeighIn:
		if weighIns[n.Step].lines == nil {
			return n.toldClass(today)
		}
		return n.toldEve(today)
	}
	return append([]string{n.meetName() + " " + n.away(today) + "."}, paperSteps[n.Kind][n.Step].lines...)
}

// paperSteps are the steps whose lines are told as they stand.
var paperSteps = map[Kind][]step{Checklist: checklist, Openers: openers, WeighIn: weighIns}

// toldClass says that a bodyweight is above the class, and what that does not mean.
// Nobody is told to make weight: entering the next class comes first.
func (n *Nudge) toldClass(today planner.Date) []string {
	l := n.Member.Lifter
	lines := []string{fmt.Sprintf("%s %s. Your class is %s; your last bodyweight was %s above it.",
		n.meetName(), n.away(today), class(l, n.Meet), over(l, n.Meet).Text(l.Unit))}
	age := planner.Age(l.Born, n.Meet.Date)
	if !l.HasCompeted || age >= 0 && age < 18 {
		return append(lines, "First meets and lifters under 18: lift in the class you weigh. Your coach can change the entry.")
	}
	return append(lines,
		"First choice: enter, or move to, the next class; ask until when that is possible.",
		"Making weight costs strength and can hurt. Decide with your coach, and with a doctor if you were ever told not to.")
}
