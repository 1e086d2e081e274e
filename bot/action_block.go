package bot

import (
	"errors"
	"fmt"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// settled returns what a button under a nudge settles for the one who pressed,
// and a refusal where it concerns others only.
func (t *turn) settled(b store.Button) ([]nudge.Settles, error) {
	own, err := nudge.Pressed(b.Args, t.speaker.ID)
	if err != nil {
		return nil, err
	}
	if len(own) == 0 {
		return nil, planner.Errorf(planner.Forbidden, "Yours is under /block.", "%q is about other lifters", b.Label)
	}
	return own, nil
}

// blockPressed reads which block of the speaker's agreed plan a button means. A
// button under an older version of the plan is refused: its numbers no longer
// hold.
func (t *turn) blockPressed(b store.Button) (course, int, error) {
	own, err := t.settled(b)
	if err != nil {
		return course{}, 0, err
	}
	c, err := t.course(t.speaker)
	if err != nil {
		return c, 0, err
	}
	s := own[0]
	if !c.has || int64(c.agreed.ID) != s.Plan || s.Index < 0 || s.Index >= len(c.agreed.Season.Blocks) {
		return c, 0, planner.Errorf(planner.Conflict, "Look at /block to see where you are.", "Your plan has changed since that message")
	}
	return c, s.Index, nil
}

// graceDays is how long after a block has ended it can still be made longer.
const graceDays = 3

// extendPressed answers 'Not yet, one more week': the block becomes a week
// longer and what follows is laid out anew. The lifter's own decision needs no
// second yes.
func extendPressed(t *turn, b store.Button) (chat.Reply, error) {
	c, index, err := t.blockPressed(b)
	if err != nil {
		return chat.Reply{}, err
	}
	held := c.agreed.Season.Blocks[index]
	if over := index + 1; over < c.at.Index || over == c.at.Index && c.agreed.Season.Blocks[over].Start.DaysUntil(c.today) > graceDays {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /block to see where you are.", "That block is over")
	}
	c.at = planner.Standing{Index: index, Block: held, Waiting: -1, Next: -1}
	p, err := t.longer(c, held)
	if err != nil {
		return chat.Reply{}, err
	}
	kept, err := t.propose(c, p)
	if err != nil {
		return chat.Reply{}, err
	}
	agreed, err := t.tx.AgreePlan(kept.ID, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	return private(render.Extended(agreed.Season, index, c.today, c.lifter)), t.tellCoaches(agreed.Season.Blocks[index])
}

// tellCoaches tells the coaches of a lifter whose plans they decide on that a block
// was made longer. The week itself is the lifter's own decision.
func (t *turn) tellCoaches(b planner.Block) error {
	who, err := t.decider(t.speaker)
	if err != nil || who == store.LifterDecides {
		return err
	}
	coaches, err := nudge.CoachesOf(t.tx, t.speaker)
	for _, c := range coaches {
		what := fmt.Sprintf("One more week of %s for %s, to %s.", render.BlockName(b.Kind), render.Called(t.speaker), b.End.Short())
		if err := t.note(c, what, undo{}); err != nil {
			return err
		}
	}
	return err
}

// longer plans with the held block one week longer than agreed, or as long as it
// has run already where it is later than that.
func (t *turn) longer(c course, held planner.Block) (blocks.Plan, error) {
	weeks := max(held.Weeks+1, planner.WeekOf(held.Start, c.today, t.club.WeekStart))
	r, err := t.decided(c)
	if err != nil {
		return blocks.Plan{}, err
	}
	r.Pins = append(r.Pins, blocks.Pin{Ordinal: 1, Kind: held.Kind, Weeks: weeks})
	p, err := blocks.Build(r)
	var impossible *planner.Error
	if errors.As(err, &impossible) || err == nil && len(p.Relaxed) > 0 {
		return p, &planner.Error{Kind: planner.Impossible,
			Sentence: fmt.Sprintf("There is no room for one more week of your %s", render.BlockName(held.Kind)),
			Hint:     "The blocks after it need their weeks before the meet. Go on as planned, or move the meet."}
	}
	return p, err
}

// beginPressed answers 'Begin it': the block that waits begins today.
func beginPressed(t *turn, b store.Button) (chat.Reply, error) {
	c, index, err := t.blockPressed(b)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.begin(c, index)
}

func (t *turn) begin(c course, index int) (chat.Reply, error) {
	block := c.agreed.Season.Blocks[index]
	if block.End < c.today {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Lay out a new plan with /season build.", "That block was planned to end on %s", block.End.Long())
	}
	if block.Start > c.today {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "Look at /block to see where you are.", "That block begins on %s", block.Start.Long())
	}
	if err := t.tx.BeginBlock(c.agreed.ID, index, c.today, t.now); err != nil {
		return chat.Reply{}, err
	}
	text := fmt.Sprintf("Begun: %s, until %s.", render.BlockName(block.Kind), block.End.Short())
	return private(chat.Message{Text: text, Data: map[string]any{"begun": block}}), nil
}

// beginAllPressed answers the captain's 'Begin all that wait'.
func beginAllPressed(t *turn, _ store.Button) (chat.Reply, error) {
	all, err := t.tx.Members()
	if err != nil {
		return chat.Reply{}, err
	}
	names := []string{}
	for _, l := range all {
		c, err := t.course(l)
		if err != nil {
			return chat.Reply{}, err
		}
		if _, away := awayNow(c.aways, c.today); away || c.at.Waiting < 0 {
			continue // who is away begins when they are back
		}
		if err := t.tx.BeginBlock(c.agreed.ID, c.at.Waiting, c.today, t.now); err != nil {
			return chat.Reply{}, err
		}
		if err := t.tx.Audit(t.speaker.ID, l.ID, "began the next block", t.now); err != nil {
			return chat.Reply{}, err
		}
		names = append(names, render.Called(l))
	}
	text := "Nobody was waiting."
	if len(names) > 0 {
		text = "Begun for " + render.Some(names, namedAtOnce) + "."
	}
	return private(chat.Message{Text: text, Data: map[string]any{"begun": names}}), nil
}
