package blocks

// flow is what a run of weeks does to a label, exactly. Every update of the
// model is affine in gap = m + c - s and e, and m and s enter the objective
// linearly, so with
//
//	y = value so far + lambda m + (strength weight of the marks ahead) s - preferences
//
// a run of weeks maps
//
//	gap -> a gap + b,   e -> f e + h,   y -> y + c + d gap + k e
//
// with numbers that do not depend on the state. At the end of the plan no mark
// lies ahead and y is the objective.
type flow struct{ a, b, f, h, c, d, k float64 }

var still = flow{a: 1, f: 1}

// week extends the flow by week w of a block that is training week t of the plan.
func (s *season) week(f flow, kind, w, t int) flow {
	m := &s.model
	ahead := s.ahead[t]
	switch kind {
	case iH:
		q := m.Rm * m.stimulus(iH, w)
		f.b += q + m.DS
		f.c += m.Lambda*q - ahead*m.DS
		if m.TauH > 0 {
			f = f.close(m.TauH, ahead)
		}
	case iS:
		f.b += m.Rc * m.stimulus(iS, w)
		f = f.close(m.TauG, ahead)
	case iP:
		if w >= m.Grace {
			f.b -= m.Dm
			f.c -= m.Lambda * m.Dm
		}
		f = f.close(m.TauP, ahead)
	}
	if w >= m.StaleAfter {
		f.b += m.StaleLoss
		f.c -= ahead * m.StaleLoss
	}
	keep := 1 - 1/m.ETau[kind]
	f.f *= keep
	f.h = f.h*keep + m.ET[kind]/m.ETau[kind]
	// Marks reached with this week take their share of e; their share of s is in
	// y since the start.
	f.k += s.express[t+1] * f.f
	f.c += s.express[t+1] * f.h
	return s.rest(f, t+1)
}

// pass extends a flow by the weeks from t up to next that are nobody's, because they
// begin on the day of a practice meet or test day: marks and weeks away in them count.
func (s *season) pass(f flow, t, next int) flow {
	for ; t < next; t++ {
		f.k += s.express[t+1] * f.f
		f.c += s.express[t+1] * f.h
		f = s.rest(f, t+1)
	}
	return f
}

// close moves strength toward muscle + skill by one part in tau of the gap.
func (f flow) close(tau, ahead float64) flow {
	f.c += ahead / tau * f.b
	f.d += ahead / tau * f.a
	f.a *= 1 - 1/tau
	f.b *= 1 - 1/tau
	return f
}

// weigh prepares the weights by training week: ahead[t] is the strength weight
// of the marks that come after week t, express[t] the weight of e at the marks
// that come after exactly t weeks.
func (s *season) weigh() {
	n := len(s.weeks)
	s.ahead = make([]float64, n+1)
	s.express = make([]float64, n+1)
	for i, m := range s.marks {
		if s.lapsed[i] == 0 {
			s.express[s.after[i]] += m.Expression
		}
		for t := 0; t < s.after[i]; t++ {
			s.ahead[t] += m.Strength
		}
	}
	s.weighLapses()
}

// start returns the label of the first day. Marks that come before any training
// week take their share of s and e at once.
func (s *season) start() label {
	x := s.model.Start.State
	l := label{gap: x.M + x.C - x.S, e: x.E, from: -1}
	l.y = s.model.Lambda*x.M + s.express[0]*x.E
	for i := range s.marks {
		l.y += s.marks[i].Strength * x.S
	}
	if s.Running != nil && s.stretches[0].weeks() == 0 {
		l.y -= s.model.preference(index(s.Running.Kind), s.done) + s.tuneUpsAtOnce()
	}
	f := s.rest(still, 0)
	l.y += f.c + f.d*l.gap + f.k*l.e
	l.gap, l.e = f.a*l.gap+f.b, f.f*l.e+f.h
	return l
}
