package parse

import (
	"fmt"
	"strconv"

	"blockbell/planner"
)

// finish decides what a line that has been read means and adds it to the result.
func (s *session) finish(r *reader) {
	works := r.works()
	if r.hidden > 0 {
		s.refuseHidden(r)
		return
	}
	if r.dayless || s.dayless && !r.hasDay {
		if !s.dayless || r.hasDay {
			s.out.Problems = append(s.out.Problems, r.problems...)
		}
		s.dayless = s.dayless || works == 0 && r.words() == 0
		return
	}
	if r.void || s.planning || r.talk() {
		if works == 0 && !s.planning {
			s.hear(r)
		}
		return
	}
	if r.hasDay && works == 0 && r.words() == 0 {
		s.day, s.dayless = r.day, false
	}
	if r.mass != 0 {
		s.out.Bodyweight, s.out.BodyweightDay = r.mass, s.dayOf(r)
	}
	s.heading(r)
	s.weakLifts(r)
	r.series()
	s.out.Questions = append(s.out.Questions, r.asked...)
	logged := s.place(r)
	if works == 0 {
		s.hear(r)
	}
	if !logged && len(r.asked) == 0 {
		r.spelledSet()
	}
	// Numbers in a line that speaks of no lift at all are not worth a word.
	if logged || r.serious || r.words() == 0 && (works > 0 || r.mass != 0 || r.hasLift()) || r.words() == 0 && len(r.problems) > 0 && r.short() {
		s.out.Problems = append(s.out.Problems, r.problems...)
	}
}

// refuseHidden reports a number that is not what it looks like, where the line is
// for the log. Nothing of it is kept.
func (s *session) refuseHidden(r *reader) {
	if r.void || s.planning || r.works() == 0 && r.mass == 0 && len(r.problems) == 0 || !r.hasLift() && !s.hasLift && r.mass == 0 && len(r.problems) == 0 && r.words() > 0 {
		return
	}
	from := r.hidden
	for from > 1 && (numeral(r.runes[from-2]) || odd(r.runes[from-2])) {
		from--
	}
	r.problems = nil
	r.problem(r.hidden, "Type the line again instead of pasting it.", r.typed(from)+": there is an invisible character in this number")
	s.out.Problems = append(s.out.Problems, r.problems...)
}

func (s *session) dayOf(r *reader) planner.Date {
	if r.hasDay {
		return r.day
	}
	return s.day
}

// place gives each work its lift and adds its sets; it tells whether any were
// added. In a line that begins with a set and ends with a lift the lift stands
// behind its sets, else in front of them.
func (s *session) place(r *reader) bool {
	behind := len(r.items) > 1 && r.items[0].work != nil && r.items[len(r.items)-1].said != nil
	before := len(s.out.Sets) + len(s.homeless) + len(s.out.Questions)
	p := placer{session: s, r: r, day: s.dayOf(r)}
	if n, ok := r.paired(); ok {
		for i := range n {
			s.lift, s.hasLift = *r.items[i].said, true
			p.work(r.items[n+i].work)
		}
		r.items = nil
	}
	for i, it := range r.items {
		switch {
		case it.said != nil && !behind:
			s.lift, s.hasLift = *it.said, true
			p.among = r.otherLifts(r.items, i)
		case it.work != nil && it.work.void:
			r.serious = true
		case it.work != nil:
			if behind || it.work.ahead && hasLiftBehind(r.items[i:]) {
				at := nextLift(r.items, i)
				s.lift, s.hasLift = *r.items[at].said, true
				p.among = r.otherLifts(r.items, at)
			}
			p.work(it.work)
		}
	}
	p.ask()
	if len(s.out.Sets)+len(s.homeless)+len(s.out.Questions) > before {
		s.out.Notes = append(s.out.Notes, r.read...)
	}
	return len(s.out.Sets)+len(s.homeless)+len(s.out.Questions) > before
}

// hasLiftBehind tells whether a lift comes among the items.
func hasLiftBehind(items []item) bool {
	for _, it := range items {
		if it.said != nil {
			return true
		}
	}
	return false
}

// nextLift returns the item of the lift behind item i: the last of several that
// stand side by side. The caller knows that there is one.
func nextLift(items []item, i int) int {
	for items[i].said == nil {
		i++
	}
	for i+1 < len(items) && items[i+1].said != nil {
		i++
	}
	return i
}

// placer turns the works of one line into sets, problems and questions.
type placer struct {
	*session
	r     *reader
	day   planner.Date
	among []spoken // lifts named beside the one spoken of, where it is not clear
	light doubt    // sets far below the best
	heavy doubt    // sets far above it
	many  doubt    // sets of more repetitions than the best allows
}

// work decides about one work.
func (p *placer) work(w *work) {
	quiet := p.r.clauses[w.clause].unknown > 0
	if len(w.reps) == 0 && w.missed {
		w.reps = []amount{{value: 1, col: w.col}} // "200 F"
	}
	own := w.own || p.hasLift && p.lift.own && !w.hasLoad
	switch {
	case len(w.reps) == 0 && w.hasLoad:
		p.onlyWeight(w, quiet)
	case !w.hasLoad && !own:
		p.noWeight(w, quiet)
	case !p.hasLift && w.own || p.hasLift && !p.lift.own && (w.own || w.load.own):
		p.problem(w, quiet, "Write the weight on the bar in kg or lb.", "a bodyweight is no load for this lift")
	default:
		p.sets(w, own)
	}
}

func (p *placer) problem(w *work, quiet bool, hint, text string) {
	if !quiet {
		p.r.quoted(w.col, hint, text)
	}
}

// onlyWeight asks about "deadlift 200!!": one repetition?
func (p *placer) onlyWeight(w *work, quiet bool) {
	if quiet || !p.hasLift || w.load.percent {
		return
	}
	if p.r.works() > 1 || w.other != nil {
		p.problem(w, quiet, "Write the repetitions too, for example 100x5.", "the repetitions are missing")
		return
	}
	w.reps, w.alone = []amount{{value: 1, col: w.col}}, true
	p.propose(w)
}

// noWeight says that the weight is missing, or asks about "5x140".
func (p *placer) noWeight(w *work, quiet bool) {
	if !p.hasLift || quiet {
		return
	}
	reps := w.reps[0]
	if w.hasSets && len(w.reps) == 1 && reps.load() && reps.value > 0 {
		w.reps, w.load, w.hasLoad, w.hasSets = []amount{w.sets}, reps, true, false
		p.propose(w)
		return
	}
	if p.lostZero(w) || p.likeAbove(w) {
		return
	}
	if w.hasSets && !p.lift.lift.Competition() && w.sets.value > 5 {
		w.load, w.hasLoad, w.hasSets = w.sets, true, false
		p.propose(w)
		return
	}
	p.problem(w, quiet, "Write the weight too, for example "+string(p.lift.lift)+" 5x5 @ 100.", "the weight is missing")
}

// propose asks whether a set was meant; nothing is logged until then.
func (p *placer) propose(w *work) {
	sets, err := p.build(w)
	if err != nil {
		p.r.refuse(w.col, err)
		return
	}
	q := Question{Line: p.r.number, Column: p.r.within(w.col), Text: fmt.Sprintf("Was that %s?", p.words(sets)),
		Answers: []Answer{{Label: "Yes", Sets: sets}}}
	if others, err := p.build(w.inTwo()); w.load.tail > 0 && err == nil {
		q.Text = fmt.Sprintf("Was that %s, or %s?", p.words(sets), p.words(others))
		q.Answers = []Answer{{Label: p.words(sets), Sets: sets}, {Label: p.words(others), Sets: others}}
	}
	q.Answers = append(q.Answers, Answer{Label: "No"})
	p.out.Questions = append(p.out.Questions, q)
}

// inTwo reads the end of a spelled weight apart from it: "one forty five" is 140 for
// five, "one hundred five by five" five sets of five at 100.
func (w *work) inTwo() *work {
	two := *w
	tail := amount{value: float64(w.load.tail), col: w.load.col}
	two.load.value -= tail.value
	if two.alone {
		two.reps = []amount{tail}
	} else {
		two.sets, two.hasSets = tail, true
	}
	return &two
}

// words writes sets as a question names them: "5 sets of 3 at 90 kg".
func (p *placer) words(sets []planner.Set) string {
	text := ""
	for i, set := range sets {
		if i > 0 {
			text += ", "
		}
		text += p.say(set)
	}
	return text
}

// say writes one set in words, without its lift.
func (p *placer) say(set planner.Set) string {
	reps := set.Reps
	if set.Missed {
		reps++ // the one that was tried last
	}
	text := plural(reps, "repetition")
	if set.Sets > 1 {
		text = plural(set.Sets, "set") + " of " + strconv.Itoa(reps)
	}
	switch {
	case set.Weight == 0:
		text += " with your own weight"
	default:
		text += " at " + set.Weight.Text(p.c.Unit)
	}
	if set.Missed {
		text += ", the last one missed"
	}
	if set.Reserve != nil {
		text += ", effort " + figure(mostEffort-*set.Reserve)
	}
	return text
}
