package parse

// short tells whether the line is nothing but one thing, so that what is wrong
// with it is worth a word.
func (r *reader) short() bool { return len(r.clauses) == 1 && len(r.tokens) <= 4 && r.mass == 0 }

// talk tells whether the line is no log: a question, a remainder such as
// "tomorrow?", or sets of somebody else. Where good sets came first, what follows
// "next week" is dropped and they are kept.
func (r *reader) talk() bool {
	works := 0
	for i := range r.clauses {
		c := &r.clauses[i]
		switch {
		case c.void && c.works > 0 && works > 0:
			r.drop(i)
			return false
		case c.late && c.works > 0, c.void && c.works > 0, c.asks && r.asksFirst():
			return true
		case c.asks && works == 0 && c.works == 0 && c.words <= 2, c.asks && c.future:
			return true
		case c.void && !c.denies && works > 0 && c.words <= 2:
			return true
		}
		works += c.works
	}
	return false
}

// asksFirst tells whether the line begins like a question.
func (r *reader) asksFirst() bool {
	t := r.tok(0)
	return t.kind == word && r.s.lang.plays(asking, t.text)
}

// drop removes the works from clause i on.
func (r *reader) drop(i int) {
	var kept []item
	for _, it := range r.items {
		if it.work == nil || it.work.clause < i {
			kept = append(kept, it)
		}
	}
	r.items = kept
	r.clauses = r.clauses[:i]
}

// words counts the words of the line that mean nothing here.
func (r *reader) words() int {
	n := 0
	for _, c := range r.clauses {
		n += c.unknown
	}
	return n
}

func (r *reader) hasLift() bool {
	for _, it := range r.items {
		if it.said != nil {
			return true
		}
	}
	return false
}

// hear lets a line without sets that names one lift be the heading of those below.
func (s *session) hear(r *reader) {
	var found *spoken
	for _, it := range r.items {
		if it.said != nil && !it.said.weak {
			if found != nil && found.lift != it.said.lift {
				s.hasLift = false
				return
			}
			found = it.said
		}
	}
	if found != nil {
		s.lift, s.hasLift = *found, true
	}
}

// weakLifts drops weak names that no complete set stands beside.
func (s *session) weakLifts(r *reader) {
	if _, ok := r.paired(); ok {
		return // "s/b/d 140x1 100x1 180x1"
	}
	kept := make([]item, 0, len(r.items))
	for i, it := range r.items {
		if it.said != nil && it.said.weak && !r.complete(i+1) && !(i == len(r.items)-1 && r.complete(i-1)) {
			r.clauses[0].unknown++
			continue
		}
		kept = append(kept, it)
	}
	r.items = kept
}

// complete tells whether item i is a work with weight and repetitions.
func (r *reader) complete(i int) bool {
	if i < 0 || i >= len(r.items) {
		return false
	}
	w := r.items[i].work
	return w != nil && (w.hasLoad || w.own) && (len(w.reps) > 0 || w.missed)
}
