package parse

import (
	"fmt"

	"blockbell/planner"
)

// finish decides what a line that has been read means and adds it to the result.
func (s *session) finish(r *reader) {
	works := r.works()
	if r.dayless {
		s.out.Problems = append(s.out.Problems, r.problems...)
		return
	}
	if r.void || s.planning || r.talk() {
		if works == 0 && !s.planning {
			s.hear(r)
		}
		return
	}
	if r.hasDay && works == 0 && r.words() == 0 {
		s.day = r.day
	}
	if r.mass != 0 {
		s.out.Bodyweight, s.out.BodyweightDay = r.mass, s.dayOf(r)
	}
	s.weakLifts(r)
	s.out.Questions = append(s.out.Questions, r.asked...)
	logged := s.place(r)
	if works == 0 {
		s.hear(r)
	}
	// Numbers in a line that speaks of no lift at all are not worth a word.
	if logged || r.serious || r.words() == 0 && (works > 0 || r.mass != 0 || r.hasLift()) || r.words() == 0 && len(r.problems) > 0 && r.short() {
		s.out.Problems = append(s.out.Problems, r.problems...)
	}
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
	for i, it := range r.items {
		switch {
		case it.said != nil && !behind:
			s.lift, s.hasLift = *it.said, true
		case it.work != nil && it.work.void:
			r.serious = true
		case it.work != nil:
			if behind {
				s.lift, s.hasLift = nextLift(r.items[i:]), true
			}
			p.work(it.work)
		}
	}
	p.ask()
	return len(s.out.Sets)+len(s.homeless)+len(s.out.Questions) > before
}

func nextLift(items []item) spoken {
	for _, it := range items {
		if it.said != nil {
			return *it.said
		}
	}
	return spoken{}
}

// placer turns the works of one line into sets, problems and questions.
type placer struct {
	*session
	r     *reader
	day   planner.Date
	light doubt // sets far below the best
	heavy doubt // sets far above it
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
	case !p.hasLift && w.own || p.hasLift && p.lift.lift.Competition() && (w.own || w.load.own):
		p.problem(w, quiet, "Write the weight on the bar in kg or lb.", "A bodyweight is no load for this lift")
	default:
		p.sets(w, own)
	}
}

func (p *placer) problem(w *work, quiet bool, hint, text string) {
	if !quiet {
		p.r.problem(w.col, hint, text)
	}
}

// onlyWeight asks about "deadlift 200!!": one repetition?
func (p *placer) onlyWeight(w *work, quiet bool) {
	if quiet || !p.hasLift || w.load.percent {
		return
	}
	if p.r.works() > 1 {
		p.problem(w, quiet, "Write the repetitions too, for example 100x5.", "The repetitions are missing")
		return
	}
	w.reps = []amount{{value: 1, col: w.col}}
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
	if w.hasSets && !p.lift.lift.Competition() && w.sets.value > 5 {
		w.load, w.hasLoad, w.hasSets = w.sets, true, false
		p.propose(w)
		return
	}
	p.problem(w, quiet, "Write the weight too, for example "+string(p.lift.lift)+" 5x5 @ 100.", "The weight is missing")
}

// propose asks whether a set was meant; nothing is logged until then.
func (p *placer) propose(w *work) {
	sets, err := p.build(w)
	if err != nil {
		p.r.refuse(w.col, err)
		return
	}
	p.out.Questions = append(p.out.Questions, Question{
		Line: p.r.number, Column: p.r.within(w.col),
		Text:    fmt.Sprintf("Was that %s?", p.words(sets)),
		Answers: []Answer{{Label: "Yes", Sets: sets}, {Label: "No"}},
	})
}

// words writes sets as a question names them.
func (p *placer) words(sets []planner.Set) string {
	text := ""
	for i, set := range sets {
		if i > 0 {
			text += ", "
		}
		text += Print(set, p.c.Unit)
	}
	return text
}
