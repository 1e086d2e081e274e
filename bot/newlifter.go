package bot

import (
	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// learnDays is when to look again at a lifter who is new: after eight of the 8 to 12
// weeks that learning the lifts takes (common practice).
const learnDays = 8 * 7

// learnFirst answers a new lifter who asks for a plan: no blocks yet, but a day to
// look again. The day is counted from when it was first said.
func (t *turn) learnFirst(c course, keep bool) (chat.Reply, error) {
	days, err := t.tx.LifterDays(c.lifter.ID)
	if err != nil {
		return chat.Reply{}, err
	}
	since, known := days[store.LearningDay]
	if !known {
		since = c.today
		if keep {
			if err := t.tx.SetLifterDay(c.lifter.ID, store.LearningDay, since); err != nil {
				return chat.Reply{}, err
			}
		}
	}
	var next *planner.Meet
	if m, ok := c.nextMeet(); ok {
		next = &m
	}
	return private(render.LearnFirst(c.today, since.AddDays(learnDays), next)), nil
}
