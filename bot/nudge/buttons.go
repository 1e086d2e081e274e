package nudge

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// Settles is what one press of a button settles for one lifter. Which fields are
// set depends on the action: block.extend and block.begin name a block, nudge.off
// and nudge.keep a kind, nudge.snooze a ledger key, meet.entered a meet, stall.lift
// and stall.coach a lift.
type Settles struct {
	Lifter planner.LifterID `json:"lifter,omitempty"`
	Plan   int64            `json:"plan,omitempty"`
	Index  int              `json:"index"`
	Key    string           `json:"key,omitempty"`
	Kind   Kind             `json:"kind,omitempty"`
	Meet   planner.MeetID   `json:"meet,omitempty"`
	Lift   planner.Lift     `json:"lift,omitempty"`
}

// carried is what a button carries: one thing to settle at the top, and under
// Each all of them where the post gathers several lifters or several things.
type carried struct {
	Settles
	Each []Settles `json:"each,omitempty"`
}

// Pressed returns what a button under a nudge settles for the lifter who pressed
// it. It is empty where the button is about other lifters only.
func Pressed(args json.RawMessage, by planner.LifterID) ([]Settles, error) {
	var c carried
	if err := json.Unmarshal(args, &c); err != nil {
		return nil, err
	}
	if len(c.Each) == 0 {
		c.Each = []Settles{c.Settles}
	}
	var own []Settles
	for _, s := range c.Each {
		if s.Lifter == 0 || s.Lifter == by {
			own = append(own, s)
		}
	}
	return own, nil
}

// addButtons puts the buttons under a post: one per label, however many nudges
// offer it. In the club's post they belong to nobody and act for whoever presses.
func (d *draft) addButtons(f *Facts) error {
	var owner planner.Lifter
	if d.slot.person != "" {
		owner = d.nudges[0].Member.Lifter
	}
	var offers []Offer
	settles := map[Offer][]Settles{}
	add := func(o Offer, all ...Settles) {
		if settles[o] == nil {
			offers = append(offers, o)
		}
		for _, s := range all {
			settles[o] = appendNew(settles[o], s)
		}
	}
	for i := range d.nudges {
		n := &d.nudges[i]
		for _, o := range n.offers() {
			if o != entered {
				add(o, n.settles(o))
				continue
			}
			for _, e := range d.entries() {
				add(e.offer, e.settles...)
			}
		}
	}
	for _, o := range offers {
		if err := d.addButton(o, settles[o], owner); err != nil {
			return err
		}
	}
	return nil
}

func appendNew(all []Settles, s Settles) []Settles {
	for _, old := range all {
		if old == s {
			return all
		}
	}
	return append(all, s)
}

func (d *draft) addButton(o Offer, s []Settles, owner planner.Lifter) error {
	c := carried{Each: s}
	switch {
	case o == mine:
		c = carried{}
	case owner.ID != 0 && len(s) == 1:
		c = carried{Settles: s[0]}
	case owner.ID != 0:
		c.Settles = s[0]
	}
	args, err := json.Marshal(c)
	if err != nil {
		return err
	}
	b := store.Button{
		Token: token(d.slot.key, o.Label), Label: o.Label, Owner: owner.ID, Action: o.Action, Args: args,
		Made: d.slot.opens, Expires: d.slot.opens.Add(buttonLife),
	}
	d.buttons = append(d.buttons, b)
	d.message.Buttons = append(d.message.Buttons, chat.Button{Label: b.Label, Token: b.Token, Owner: owner.Handle, For: d.concerned(o, owner), Expires: b.Expires})
	return nil
}

// concerned lists the handles of the lifters that an ownerless button does
// something for.
func (d *draft) concerned(o Offer, owner planner.Lifter) []string {
	if owner.ID != 0 {
		return nil
	}
	var handles []string
	for i := range d.nudges {
		n := &d.nudges[i]
		if handle := n.Member.Lifter.Handle; slices.Contains(n.offers(), o) && !slices.Contains(handles, handle) {
			handles = append(handles, handle)
		}
	}
	slices.Sort(handles)
	return handles
}

// token names a button by its post and label, so that writing the same post again
// names the same button.
func token(post, label string) string {
	sum := sha256.Sum256([]byte(post + "\x00" + label))
	return "n" + hex.EncodeToString(sum[:10])
}

// offers lists the buttons that make sense under the nudge at its place.
func (n *Nudge) offers() []Offer {
	if n.Place == Counted {
		return []Offer{mine}
	}
	var fits []Offer
	for _, o := range specs[n.Kind].Offers {
		if o == extend && !n.extendable() || o == tellCoach && n.Member.Lifter.Coach == 0 || o == lookBack && n.Ward.ID != 0 ||
			n.Kind == BlockLate && n.Done.ID != 0 && o != fewer {
			continue
		}
		fits = append(fits, o)
	}
	if n.Asks {
		fits = append(fits, keep)
	}
	return fits
}

// held is the block that 'one more week' makes longer: the one before a block
// that begins, the nudge's own otherwise.
func (n *Nudge) held() int {
	if n.Kind == BlockBegin {
		return n.Index - 1
	}
	return n.Index
}

// extendable tells whether one more week of the block makes sense: not for a
// peaking block, which ends with its meet; not for a recovery of two weeks, which
// is as long as recovery gets; not where no block would follow.
func (n *Nudge) extendable() bool {
	i := n.held()
	if i < 0 || i+1 >= len(n.Member.Season.Blocks) {
		return false
	}
	b := n.Member.Season.Blocks[i]
	return b.Kind == planner.Hypertrophy || b.Kind == planner.Strength || b.Kind == planner.Recovery && b.Weeks < 2
}

// settles is what the offer settles for the nudge's lifter.
func (n *Nudge) settles(o Offer) Settles {
	s := Settles{Lifter: n.Member.Lifter.ID}
	switch o {
	case extend:
		s.Plan, s.Index = n.Member.Plan, n.held()
	case beginIt:
		s.Plan, s.Index = n.Member.Plan, n.Next
	case snooze:
		s.Key = n.base
	case fewer, keep:
		s.Kind = n.Kind
	case entered, lookBack:
		s.Meet = n.Meet.ID
	case showLift, tellCoach:
		s.Lift = n.Stall.Lift
	}
	return s
}
