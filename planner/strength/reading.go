package strength

import (
	"math"

	"blockbell/planner"
)

// Verdict says whether a lift is moving.
type Verdict string

// The verdicts. Holding and Falling are only said when the evidence is strong; most
// short logs give TooLittle, which is an answer.
const (
	Rising    Verdict = "rising"
	Holding   Verdict = "holding"
	Falling   Verdict = "falling"
	TooLittle Verdict = "too little data"
)

// Reading is everything that a lifter may be told about one lift.
type Reading struct {
	Known bool // false: nothing in the log gives an estimate; the rest is zero, but for Verdict, Reason and Records
	// Kg is the estimated maximum by the competition standard and SD its standard
	// deviation, both in kg, on Today.
	Kg, SD float64
	// TrainingKg is the maximum in the form in which the lift is trained. It differs
	// from Kg for those who bench touch and go only. Loads are made from it, and
	// never from Kg: else each week would repeat the discount.
	TrainingKg float64
	// AtLeast: nobody has said how hard a set was, so the level is a lower bound.
	AtLeast bool
	// TouchAndGo: Kg is 4 % below what was lifted touch and go, with an error of 3 %.
	TouchAndGo bool
	// Slope is the weekly change in percent, SlopeSD its standard deviation.
	Slope, SlopeSD float64
	Verdict        Verdict
	Reason         string // a plain sentence, or two
	// Notes are plain sentences on what the level rests on, where it is less than
	// rated sets in the form of the competition; mostly none.
	Notes []string
	// Test holds the figures behind the verdict.
	Test Test
	// Trend is the smoothed level on the days with observations, oldest first.
	Trend []TrendPoint
	// Points are the observations with the part they play.
	Points  []Point
	Records []Record
	// Variances are those of the filter; Learnt tells that they come from this log
	// and not from the level's defaults.
	Variances Variances
	Learnt    bool
}

// TrendPoint is the smoothed level of one day with its band: about two thirds
// (one standard deviation) lie between Low and High.
type TrendPoint struct {
	Day           planner.Date
	Kg, Low, High float64
}

// Point is an observation in kg. Used: it moves the trend; Weight is 1 for an
// ordinary one and falls towards 0 the further it lies from all others.
type Point struct {
	Observation
	Used   bool
	Weight float64
}

const (
	// touchAndGoShare and touchAndGoError turn a bench press touch and go into a
	// paused one: 4 % lower, give or take 3 % (common practice).
	touchAndGoShare = 0.96
	touchAndGoError = 0.03
)

// Read gives everything about one lift. It never fails: where the log says nothing
// the reading says so.
func Read(h History) Reading {
	obs, touch := h.observations()
	r := Reading{Verdict: TooLittle, TouchAndGo: touch, Records: h.records()}
	if len(obs) == 0 {
		r.Reason = "Nothing in the log gives an estimate of this lift yet: log a set of up to 12 with how hard it was."
		return r
	}
	t := follow(&h, obs)
	r.Known, r.Variances, r.Learnt = true, t.variances, t.learnt
	r.level(&h, t)
	r.draw(t)
	r.Test = judge(&h, t)
	r.Verdict, r.Reason = r.Test.verdict(&h, t)
	if r.Verdict == Rising && r.Slope < 0.5*r.SlopeSD {
		r.Verdict, r.Reason = TooLittle, "It rose over the months, but hardly in the last weeks; it is too early to call that a halt."
		if r.Test.Expected < 100*slowest {
			r.Reason = "It rose over the months, but hardly in the last weeks. " + r.Test.waiting(&h)
		}
	}
	r.note(obs)
	return r
}

// observations returns the evidence, and whether it was all lifted touch and go by
// somebody who is asked about the bench press as in competition.
func (h *History) observations() (obs []Observation, touch bool) {
	obs = Observe(*h)
	bench := h.Lift == planner.Bench && h.Variant == ""
	if !bench || h.BenchStyle == planner.TouchAndGo {
		return obs, bench && lifted(obs)
	}
	if lifted(obs) {
		return obs, false
	}
	other := *h
	other.Variant, other.Claim = touchAndGo, nil
	if form := Observe(other); len(form) > 0 {
		return form, true
	}
	return obs, false
}

// lifted tells whether any observation comes from a set.
func lifted(obs []Observation) bool {
	for _, o := range obs {
		if !o.Claim {
			return true
		}
	}
	return false
}

// level fills in today's level and slope. After the last observation the level
// stands still and its error grows: a slope is not carried into silence.
func (r *Reading) level(h *History, t *track) {
	n := len(t.obs) - 1
	last := t.path.after[n]
	from := t.obs[n].Day
	later := last.after(weeks(from, h.Today), t.variances, h.unsure(from, h.Today))
	r.TrainingKg = math.Exp(last.l)
	r.Kg = r.TrainingKg
	sd := math.Sqrt(later.ll)
	if r.TouchAndGo {
		r.Kg *= touchAndGoShare
		sd = math.Hypot(sd, touchAndGoError)
	}
	r.SD = r.Kg * sd
	r.Slope, r.SlopeSD = 100*last.b, 100*math.Sqrt(later.bb)
	r.AtLeast = true
	for i, o := range t.obs {
		if t.used[i] && o.Kind != AtLeast && o.Kind != AtMost {
			r.AtLeast = false
		}
	}
}

// note says what the level rests on.
func (r *Reading) note(obs []Observation) {
	switch {
	case !lifted(obs):
		r.Notes = append(r.Notes, "No set in the log tells the max of this lift yet; the figure comes from the best you told.")
	case r.AtLeast:
		r.Notes = append(r.Notes, "No set says how hard it was, so this is the least it can be.")
	}
	if r.TouchAndGo {
		r.Notes = append(r.Notes, "All of it was touch and go: the figure is 4 % lower, for a bench press with the pause, give or take 3 %.")
	}
}

// draw fills in what a picture needs.
func (r *Reading) draw(t *track) {
	share := 1.0
	if r.TouchAndGo {
		share = touchAndGoShare
	}
	for i, s := range t.smoothed {
		kg, sd := share*math.Exp(s.l), math.Sqrt(s.ll)
		r.Trend = append(r.Trend, TrendPoint{t.obs[i].Day, kg, kg * math.Exp(-sd), kg * math.Exp(sd)})
		o := t.obs[i]
		o.Log += math.Log(share)
		r.Points = append(r.Points, Point{o, t.used[i], t.weight[i]})
	}
}
