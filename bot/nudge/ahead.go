package nudge

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"blockbell/planner"
	"blockbell/store"
)

// ahead is a ledger of what will be told and left out, as far as it is imagined. It
// lies on top of the one that is kept and is never written.
type ahead struct {
	facts map[string]store.Fact
	posts map[string]bool
	told  []store.Told
}

// imagine notes what a plan would write, as if every post arrived.
func (a *ahead) imagine(p plan) {
	for _, s := range p.skips {
		s.fact.State, s.fact.Reason = store.FactSkipped, s.reason
		a.facts[s.fact.Key] = s.fact
	}
	for _, d := range p.drafts {
		a.posts[d.slot.key] = true
		for _, n := range d.nudges {
			f := n.fact()
			f.State, f.Post = store.FactSent, d.slot.key
			a.facts[f.Key] = f
			a.told = append(a.told, store.Told{Key: f.Key, Kind: f.Kind, Post: d.slot.key, At: d.slot.opens})
		}
	}
}

// known returns the fact with that key, if the ledger has it.
func (p *past) known(key string) (store.Fact, bool, error) {
	if p.ahead != nil {
		if f, ok := p.ahead.facts[key]; ok {
			return f, true, nil
		}
	}
	return p.tx.KnownFact(key)
}

// made tells whether there is a post with that key.
func (p *past) made(key string) (bool, error) {
	if p.ahead != nil && p.ahead.posts[key] {
		return true, nil
	}
	_, made, err := p.tx.Post(key)
	return made, err
}

// ofKind returns a lifter's last facts of a kind due at until or before, the one due
// last first.
func (p *past) ofKind(id planner.LifterID, kind Kind, until time.Time, most int) ([]store.Fact, error) {
	all, err := p.tx.FactsOfKind(id, string(kind), until, most)
	if err != nil || p.ahead == nil {
		return all, err
	}
	for _, f := range p.ahead.facts {
		if f.Lifter == id && f.Kind == string(kind) && !f.Due.After(until) {
			all = append(all, f)
		}
	}
	slices.SortFunc(all, func(a, b store.Fact) int { return cmp.Or(b.Due.Compare(a.Due), strings.Compare(b.Key, a.Key)) })
	return all[:min(len(all), most)], nil
}

// toldSince returns what a lifter was told by posts due after a moment, in order.
func (p *past) toldSince(id planner.LifterID, since time.Time) ([]store.Told, error) {
	all, err := p.tx.ToldSince(id, since)
	if err != nil || p.ahead == nil {
		return all, err
	}
	for _, t := range p.ahead.told {
		if f := p.ahead.facts[t.Key]; f.Lifter == id && t.At.After(since) {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, func(a, b store.Told) int { return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Key, b.Key)) })
	return all, nil
}
