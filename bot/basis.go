package bot

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// basis is what a proposal was computed from: a short digest of each part of it, by
// the part's name in words. The digests are taken as of one day, so that days that go
// by change none of them.
type basis struct {
	Day   planner.Date      `json:"day"`
	Parts map[string]string `json:"parts"`
}

// The parts of a basis, in the words in which a change of one is told.
const (
	partMeets   = "the meets"
	partAway    = "the times away"
	partFixed   = "what is fixed"
	partBounds  = "how long a block may be"
	partOff     = "the lifts off the plan"
	partProfile = "the profile"
	partPlan    = "the plan that runs"
	partDays    = "the days that are left" // no digest: it is told when too many went by
)

// partOrder is the order in which changed parts are told.
var partOrder = []string{partMeets, partAway, partFixed, partBounds, partOff, partProfile, partPlan, partDays}

// basis takes the digests of everything that bears on a plan of the course, as of a
// day.
func (t *turn) basis(c course, day planner.Date) (basis, error) {
	b := basis{Day: day, Parts: map[string]string{}}
	pins, err := t.tx.Pins(c.lifter.ID, day)
	if err != nil {
		return b, err
	}
	bounds, err := t.tx.Bounds(c.lifter.ID)
	if err != nil {
		return b, err
	}
	off, err := t.tx.LiftsOff(c.lifter.ID, c.today)
	if err != nil {
		return b, err
	}
	weighed, err := t.weighed(c.lifter, day)
	if err != nil {
		return b, err
	}
	for part, what := range map[string]any{
		partMeets:   meetsBehind(c.meets, day),
		partAway:    c.awaysAsOf(day),
		partFixed:   mapped(pins, func(p store.Pin) any { return []any{p.Number, p.Kind, p.Start, p.Weeks} }),
		partBounds:  mapped(bounds, func(b store.Bound) any { return []any{b.Lifter, b.Kind, b.Most} }),
		partOff:     mapped(off, func(o store.LiftOff) any { return []any{o.Lift, o.Until} }),
		partProfile: profileBasis(weighed, day, t.rules()),
		partPlan:    []any{c.agreed.ID, c.agreed.Season.Begun},
	} {
		if b.Parts[part], err = digestOf(what); err != nil {
			return b, err
		}
	}
	return b, nil
}

// meetsBehind is what a plan made on a day knows of the meets after it.
func meetsBehind(meets []planner.Meet, day planner.Date) (out []any) {
	for _, m := range meets {
		if m.Date > day {
			out = append(out, []any{m.ID, m.Date, m.Kind, m.Event, m.Equipment})
		}
	}
	return out
}

// awaysAsOf are the times away that a plan made on a day knows. Who is not back yet is
// planned for as if they came back tomorrow, so with one of those every day counts.
func (c course) awaysAsOf(day planner.Date) (out []any) {
	for _, a := range c.aways {
		if a.To.IsZero() {
			out = append(out, []any{a.From, "until", max(a.From, c.today)})
		} else if a.To >= day.AddDays(-awayReach) {
			out = append(out, []any{a.From, a.To})
		}
	}
	return out
}

// profileBasis is what the planner makes of a profile and the club's rules: numbers of
// the model instead of what was told, since a bodyweight belongs in no digest.
func profileBasis(l planner.Lifter, day planner.Date, rules blocks.Rules) any {
	return []any{blocks.NewModel(l, day, rules), blocks.PeakingLimit(l, day, rules), l.LongBlocks, l.HasCompeted, l.Days, l.Level}
}

func digestOf(what any) (string, error) {
	raw, err := json.Marshal(what)
	if err != nil {
		return "", fmt.Errorf("basis of a plan: %w", err)
	}
	sum := sha256.Sum256(raw)
	return hex.EncodeToString(sum[:8]), nil
}

// changed lists the parts in which two bases differ.
func (b basis) changed(now basis) (parts []string) {
	for _, part := range partOrder {
		if b.Parts[part] != now.Parts[part] {
			parts = append(parts, part)
		}
	}
	return parts
}

// without returns a basis that leaves parts out.
func (b basis) without(parts ...string) basis {
	kept := basis{Day: b.Day, Parts: maps.Clone(b.Parts)}
	for _, p := range parts {
		delete(kept.Parts, p)
	}
	return kept
}

// changedSince lists what a proposal was computed from and is otherwise by now; empty
// while it can be accepted as it was shown.
func (t *turn) changedSince(c course, p store.Plan) ([]string, error) {
	d, err := detailOf(p)
	if err != nil {
		return nil, err
	}
	now, err := t.basis(c, d.Basis.Day)
	if err != nil {
		return nil, err
	}
	parts := d.Basis.changed(now)
	if c.begunSince(p) && !slices.Contains(parts, partPlan) {
		parts = append(parts, partPlan)
	}
	if t.now.Sub(p.Built) >= buttonLife {
		parts = append(parts, partDays)
	}
	return parts, nil
}

// begunSince tells whether another block of the agreed plan has begun since a proposal
// was made; not one that began the day after, for which it was made.
func (c course) begunSince(p store.Plan) bool {
	if !c.has {
		return false
	}
	made := planner.DateOf(p.Built)
	return slices.ContainsFunc(c.agreed.Season.Blocks, func(b planner.Block) bool {
		return b.Start > made.AddDays(1) && b.Start <= c.today
	})
}
