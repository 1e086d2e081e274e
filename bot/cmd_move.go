package bot

import (
	"errors"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// reasonMost is how many characters a captain's reason may have.
const reasonMost = 120

// longestPeak is the longest peaking that common practice knows, in weeks: three
// months, and rare.
const longestPeak = 13

// moveParams are what /club move takes.
func moveParams() []Param {
	return []Param{
		{Name: "block", About: "the kind of block that begins, today or with the next training week", Required: true, Choices: blockWords},
		{Name: "reason", About: "a few words that the lifter reads; nothing about health"},
	}
}

// moveLifter answers /club move: another block begins, today or with the next training
// week, and the rest of the plan follows from it. Where plans are the lifter's to decide it becomes a proposal to
// them, else the captain's tap settles it.
func moveLifter(t *turn) (chat.Reply, error) {
	if t.options["lifter"] == "" {
		return chat.Reply{}, planner.Errorf(planner.Invalid, usage(*t.command), "Say who moves: lifter:")
	}
	why, err := moveReason(t.options["reason"])
	if err != nil {
		return chat.Reply{}, err
	}
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	kind := planner.BlockKind(t.options["block"])
	if c.at.Index >= 0 && c.at.Block.Kind == kind {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "How long it lasts is fixed with /season pin.", "%s is in a %s already", render.Called(t.about), render.BlockShort(kind))
	}
	m, err := t.moveOf(c, kind, why)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, r, err := t.proposeMove(c, m)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("proposed a move to a " + string(kind) + " block"); err != nil {
		return chat.Reply{}, err
	}
	return t.handMove(kept, r, movedBack{Plan: kept.ID, Before: c.agreed.ID}, m)
}

// moveReason reads a captain's reason as the end of a note. Words of pain or alarm are
// not kept anywhere.
func moveReason(v string) (string, error) {
	v = strings.TrimSpace(strings.ReplaceAll(parse.Quiet(v), "\n", " "))
	if v == "" {
		return "", nil
	}
	if n := len([]rune(v)); n > reasonMost {
		return "", planner.Errorf(planner.Invalid, "Keep it shorter.", "reason: has %d characters of at most %d", n, reasonMost)
	}
	if parse.SpeaksOfPain(v) {
		return "", planner.Errorf(planner.Invalid, "Leave it out, or say what is planned. /season rest takes a lift off the plan without a reason.", "reason: I keep no word about health")
	}
	return " Why: " + strings.TrimSuffix(v, ".") + ".", nil
}

// moveOf is a move wanted today, with what stops being fixed for it.
func (t *turn) moveOf(c course, kind planner.BlockKind, why string) (*move, error) {
	m := &move{Kind: kind, Start: c.today, Why: why, Until: c.pinEnd(), By: t.speaker.ID}
	old, err := t.tx.Pins(c.lifter.ID, c.today)
	for _, o := range old {
		if sameSubject(o, m.pin(c.lifter.ID)) || o.Start == m.Start {
			m.Frees = append(m.Frees, o)
		}
	}
	return m, err
}

// proposeMove proposes the plan that follows from a move. Nothing is fixed before
// somebody accepts it.
func (t *turn) proposeMove(c course, m *move) (store.Plan, chat.Reply, error) {
	made, err := t.buildMoved(c, m)
	var impossible *planner.Error
	if errors.As(err, &impossible) {
		return store.Plan{}, chat.Reply{}, t.cannotMove(m, impossible)
	}
	if err != nil {
		return store.Plan{}, chat.Reply{}, err
	}
	if err := m.begins(made, c.today); err != nil {
		return store.Plan{}, chat.Reply{}, err
	}
	kept, err := t.proposeFor(c, made, m)
	if err != nil {
		return store.Plan{}, chat.Reply{}, err
	}
	r, err := t.proposal(c, kept, "Proposed move", "The plan goes on as agreed until somebody accepts this one.")
	return kept, r, err
}

// cannotMove says why a block cannot begin now.
func (t *turn) cannotMove(m *move, why *planner.Error) error {
	sentence, help := why.Sentence, "Choose another block or another day; /season compare tries splits out."
	if _, rest, ok := strings.Cut(sentence, `" leaves no legal plan`); ok && strings.HasPrefix(sentence, "the pin ") {
		sentence = "it leaves no legal plan" + rest
	}
	if m.Kind == planner.Recovery {
		help = "A recovery comes after a main meet. For easy days: /season away, or /week version:cautious."
	}
	return planner.Errorf(why.Kind, help, "%s cannot begin now: %s", strings.TrimSuffix(render.Sentence(render.BlockShort(m.Kind)), "."), sentence)
}

// begins finds out on which day the block of a move begins in the plan made for it:
// today, or with the next training week. A peaking longer than anybody knows is refused.
func (m *move) begins(made blocks.Plan, today planner.Date) error {
	i := slices.IndexFunc(made.Blocks, func(b planner.Block) bool { return b.Kind == m.Kind && b.Start >= today })
	if i < 0 {
		return planner.Errorf(planner.Impossible, "Choose another block, or another day.", "No plan has a %s now", render.BlockShort(m.Kind))
	}
	b := made.Blocks[i]
	if b.Kind == planner.Peaking && b.Weeks > longestPeak {
		return planner.Errorf(planner.Impossible, "Move to a strength block, or wait.", "Peaking from now on would last %d weeks; at most %d are sensible (common practice)", b.Weeks, longestPeak)
	}
	m.Start = b.Start
	return nil
}

// buildMoved is build as if the move were fixed already. A block that began only today
// has not begun where another one is to begin today.
func (t *turn) buildMoved(c course, m *move) (blocks.Plan, error) {
	pins, err := t.tx.Pins(c.lifter.ID, c.today)
	if err != nil {
		return blocks.Plan{}, err
	}
	pins = slices.DeleteFunc(pins, m.frees)
	r, err := t.decidedWith(c, append(pins, m.pin(c.lifter.ID)))
	if err != nil {
		return blocks.Plan{}, err
	}
	if r.Running != nil && r.Running.Start == m.Start {
		r.Running = nil
		return blocks.Build(r)
	}
	r.Agreed = c.ahead()
	return blocks.Build(r)
}

// handMove leaves the proposal to the lifter, who is told, or to the captain's tap.
func (t *turn) handMove(kept store.Plan, r chat.Reply, back movedBack, m *move) (chat.Reply, error) {
	who, err := t.decider(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	if t.about.ID == t.speaker.ID || who == store.CoachDecides {
		return r, nil
	}
	if err := t.tx.AskApproval(kept, store.LifterDecides, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.note(t.about, "Your coach proposes another block for you. "+m.words()+" It waits for your yes: /season.", undo{"move.back", back}); err != nil {
		return chat.Reply{}, err
	}
	r.Message.Buttons = nil
	r.Message.Text = "Proposed to " + render.Called(t.about) + ", who is told and decides.\n" + r.Message.Text
	return r, nil
}
