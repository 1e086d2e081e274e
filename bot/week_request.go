package bot

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/planner/strength"
	"blockbell/store"
)

// recentDays is how far back the planner of loads is shown the log.
const recentDays = 42

// weeksOf says whose weeks a lifter trains by.
func (t *turn) weeksOf(tr store.Training) store.Weeks {
	if tr.Weeks != "" {
		return tr.Weeks
	}
	return t.club.Weeks
}

// weekRequest is what the planner of loads is asked for the training week that
// holds a day of the block b.
func (t *turn) weekRequest(c course, tr store.Training, b planner.Block, on planner.Date) (load.Request, error) {
	r := load.Request{
		Lifter: c.lifter, Today: on, WeekStart: t.club.WeekStart, Season: c.agreed.Season.Blocks, Block: b,
		Meets: c.meets, Aways: c.told(), Training: tr.Weekdays, Supervised: tr.Supervised,
		Equation: strength.Equation(t.club.Equation),
	}
	if tr.Cautious {
		r.Version = load.Cautious
	}
	off, err := t.tx.LiftsOff(c.lifter.ID, c.today)
	if err != nil {
		return r, err
	}
	for _, o := range off {
		r.Off = append(r.Off, load.Off{Lift: o.Lift, From: o.From, Until: o.Until})
	}
	if r.Gym, err = t.gym(); err != nil {
		return r, err
	}
	if err := t.addClubWeek(&r, tr); err != nil {
		return r, err
	}
	changes, err := t.tx.WeekChanges(c.lifter.ID)
	for _, x := range changes {
		r.Overrides = append(r.Overrides, x.Override)
	}
	if err != nil {
		return r, err
	}
	sets, err := t.tx.Sets(c.lifter.ID, c.today.AddDays(-recentDays), c.today)
	if len(sets) > 0 {
		r.Recent = sets
	}
	return r, err
}

// addClubWeek adds the club's own week where the lifter trains by it.
func (t *turn) addClubWeek(r *load.Request, tr store.Training) error {
	if t.weeksOf(tr) != store.ClubWeeks {
		return nil
	}
	lines, has, err := t.tx.ClubWeek(r.Block.Kind)
	if err != nil || !has {
		return err
	}
	r.Table, err = load.ParseTable(lines)
	return err
}

// addStrength adds an estimate per lift. It reads years of the log, so it is done only
// where a week is made.
func (t *turn) addStrength(r *load.Request, c course) error {
	if r.Estimates != nil {
		return nil
	}
	r.Estimates = map[planner.Lift]load.Estimate{}
	sets, err := t.longLog(c)
	if err != nil {
		return err
	}
	for _, lift := range planner.CompetitionLifts() {
		h, err := t.historyIn(sets, c, lift, "")
		if err != nil {
			return err
		}
		if e, known := estimateOf(strength.Read(h), c.lifter.Best(lift)); known {
			r.Estimates[lift] = e
		}
	}
	return nil
}

// estimateOf is the max to reckon a lift's loads from: the trend in the form in
// which it is trained or, where no set was logged, what the lifter told.
func estimateOf(r strength.Reading, told planner.Grams) (load.Estimate, bool) {
	lifted := false
	for _, p := range r.Points {
		lifted = lifted || !p.Claim
	}
	switch {
	case r.Known && lifted:
		return load.Estimate{Kg: r.TrainingKg, SD: r.SD, Source: load.Trend}, true
	case told > 0:
		return load.Estimate{Kg: told.Kg(), SD: 0.05 * told.Kg(), Source: load.Claimed}, true
	}
	return load.Estimate{}, false
}

// gym is the club's bar and discs. Where nothing was set but the smallest step, a
// pair of discs that makes that step is added to the usual ones.
func (t *turn) gym() (load.Gym, error) {
	g, err := t.tx.Gym()
	half := t.club.SmallestStep / 2
	if err != nil || len(g.Discs) > 0 || g.Unit == planner.LB || half <= 0 || half >= usualDiscs[len(usualDiscs)-1] {
		return g, err
	}
	g.Discs = append(append([]planner.Grams{}, usualDiscs...), half)
	return g, nil
}

// usualDiscs are the kg discs of a gym that has said nothing (common practice).
var usualDiscs = []planner.Grams{25000, 20000, 15000, 10000, 5000, 2500, 1250}

// basisOf is a digest of everything a week is made from but the log, so that a week
// is made again when a plan or a setting changes, and stays when a set is logged.
func basisOf(r load.Request) (string, error) {
	l := planner.Lifter{Level: r.Lifter.Level, Category: r.Lifter.Category, Born: r.Lifter.Born, Days: r.Lifter.Days,
		Squat: r.Lifter.Squat, Bench: r.Lifter.Bench, Deadlift: r.Lifter.Deadlift, HasCompeted: r.Lifter.HasCompeted}
	table := ""
	if r.Table != nil {
		table = r.Table.String()
	}
	r.Lifter, r.Today, r.Estimates, r.Recent, r.Table, r.Previous = l, 0, nil, nil, nil, nil
	text, err := json.Marshal(struct {
		Request load.Request
		Table   string
	}{r, table})
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8]), err
}
