package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/blocks"
	"blockbell/store"
)

// showBlock answers /block.
func showBlock(t *turn) (chat.Reply, error) {
	c, err := t.course(t.about)
	if err != nil {
		return chat.Reply{}, err
	}
	v, err := t.blockView(c)
	if err != nil {
		return chat.Reply{}, err
	}
	// Aloud is the lifter's own choice; nobody else can make it for them. What was told
	// about being away is for nobody else's ears even then.
	aloud := t.options["aloud"] == "yes" && t.about.ID == t.speaker.ID
	if aloud {
		v.Told, v.Away = nil, false
	}
	// Only past its end, since the alarm reads all that bears on a lifter's nudges.
	past := c.at.Index >= 0 && c.at.Block.Kind == planner.Peaking && c.today > c.at.Block.End
	if past && !aloud && !v.Away && (t.about.ID == t.speaker.ID || t.coaches(t.about)) {
		if v.Long, err = nudge.LongNow(t.tx, c.lifter.ID, c.today); err != nil {
			return chat.Reply{}, err
		}
	}
	r := private(render.Block(v))
	r.Message.Private = !aloud
	if t.about.ID != t.speaker.ID {
		return r, err
	}
	if c.at.Waiting >= 0 {
		r.Message.Buttons, err = t.waitingButtons(c)
		return r, err
	}
	if v.Away {
		b, err := t.backButton(c.lifter.ID)
		r.Message.Buttons = []chat.Button{b}
		return r, err
	}
	return r, err
}

// waitingButtons are the two answers to a block that has ended and waits.
func (t *turn) waitingButtons(c course) ([]chat.Button, error) {
	begin, err := t.button("Begin it", "block.begin", nudge.Settles{Lifter: c.lifter.ID, Plan: int64(c.agreed.ID), Index: c.at.Waiting}, t.speaker)
	if err != nil {
		return nil, err
	}
	extend, err := t.button("Not yet, one more week", "block.extend", nudge.Settles{Lifter: c.lifter.ID, Plan: int64(c.agreed.ID), Index: c.at.Index}, t.speaker)
	return []chat.Button{begin, extend}, err
}

// blockView gathers what the answer to /block shows.
func (t *turn) blockView(c course) (render.BlockView, error) {
	v := render.BlockView{Lifter: c.lifter, Today: c.today, At: c.at, HasPlan: c.has}
	if m, ok := c.nextMeet(); ok {
		v.Meet = &m
	}
	_, v.JustLifted = c.recovering(c.request(t.rules()))
	if c.has {
		v.Season = c.agreed.Season
		v.Limit = blocks.PeakingLimit(c.lifter, c.today, t.rules())
	}
	var err error
	if v.Told, v.Away, err = t.told(c); err != nil {
		return v, err
	}
	p, waiting, err := t.openProposal(c)
	if err != nil || !waiting {
		return v, err
	}
	v.Proposal = true
	a, asked, err := t.tx.Approval(p.ID)
	v.ForCoach = asked && a.State == store.ApprovalWaiting && a.Wants == store.CoachDecides
	return v, err
}
