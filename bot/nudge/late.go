package nudge

import (
	"encoding/json"
	"fmt"
	"time"

	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// lateWeek is how long after the planned first day of peaking the waiting for the
// block just before it has cost a week of it; the usual reminders are over by then.
const lateWeek = 7

// findLate: the plan has reached the peaking before a meet while an earlier block waits
// to be ended. It is told where the usual reminders have run out: on the planned first
// day of peaking, or a week later where the block before it is the one that waits; and
// once more when the taper should start. A coach is told of those they coach.
func findLate(s *search) {
	if s.facts.Ask {
		for i, b := range s.member.Season.Blocks {
			if b.Kind != planner.Peaking || s.member.meetMoved(i) {
				continue
			}
			day := b.Start
			if s.on(day).Index == i-1 {
				day = day.AddDays(lateWeek)
			}
			if b.TaperStart.IsZero() || day < b.TaperStart {
				s.late(i, day, "peak")
			}
			if !b.TaperStart.IsZero() {
				s.late(i, b.TaperStart, "taper")
			}
		}
	}
	for _, d := range s.member.Late {
		if day := s.nextHour(d.At); s.near(day) {
			s.add(Nudge{Day: day, Done: d}, fmt.Sprintf("n%d", d.ID), day, "late")
		}
	}
}

// late adds that peaking block i waits on a day, where it does.
func (s *search) late(i int, day planner.Date, fact string) {
	if !s.near(day) {
		return
	}
	b := s.member.Season.Blocks[i]
	if st := s.on(day); st.Index >= 0 && st.Waiting == i && st.Block.Kind != planner.Peaking {
		s.add(Nudge{Day: day, Index: st.Index, Next: i}, blockObject(b), b.Start, fact)
	}
}

// toldLate says which block still runs, how much of the peaking is gone, and the two
// things that settle it.
func (n *Nudge) toldLate(today planner.Date) []string {
	if n.Done.ID != 0 {
		by := "One of yours"
		if n.Done.By != "" {
			by = called(n.Done.By)
		}
		return []string{by + ": " + n.Done.What, "Talk to them, or let it begin for all that wait: /club board."}
	}
	return []string{
		n.stillRuns(today),
		n.eaten(today),
		"Without peaking your heavy singles are out of practice on the day. Begin it now, or lay out the weeks that are left: /season build.",
	}
}

// stillRuns says which block goes on past its end.
func (n *Nudge) stillRuns(today planner.Date) string {
	return fmt.Sprintf("Your %s ended %s ago, and no next block was begun since.", render.BlockName(n.block().Kind), render.Count(n.block().End.DaysUntil(today), "day"))
}

// eaten says how much of the peaking, or that the taper, has gone by in the waiting.
func (n *Nudge) eaten(today planner.Date) string {
	b := n.Member.Season.Blocks[n.Next]
	text := "By plan peaking (heavy singles, less work) began on " + b.Start.Short()
	if b.Start == today {
		text = "By plan peaking (heavy singles, less work) begins today"
	}
	if !b.TaperStart.IsZero() && b.TaperStart <= today {
		text += " and its taper (easing off) starts " + b.TaperStart.Short()
	}
	if m, ok := n.Member.Season.MeetOf(b); ok {
		text += "; " + called(m.Name) + " is " + render.InDays(today.DaysUntil(m.Date))
	}
	return text + "."
}

// lateNote marks a note as telling a coach that a lifter's block waits too long.
type lateNote struct {
	Late bool `json:"late"`
}

// isLate tells whether a note was left by tellCoaches.
func isLate(n store.Note) bool {
	var l lateNote
	return n.Undo == "" && json.Unmarshal(n.Args, &l) == nil && l.Late
}

// tellCoaches leaves word for who coaches the nudge's lifter, whether or not the lifter
// can be told: it is the last time that anything is said of the block that waits.
func (n *Nudge) tellCoaches(tx *store.Tx, now time.Time) error {
	if n.Kind != BlockLate || n.Done.ID != 0 || !now.Before(n.Until) {
		return nil
	}
	coaches, err := CoachesOf(tx, n.Member.Lifter)
	if err != nil {
		return err
	}
	args, err := json.Marshal(lateNote{true})
	if err != nil {
		return err
	}
	over := render.Count(n.block().End.DaysUntil(n.Day), "day")
	what := fmt.Sprintf("their %s ended %s ago, and no next block was begun since. %s", render.BlockShort(n.block().Kind), over, n.eaten(n.Day))
	for _, c := range coaches {
		if _, err := tx.AddNote(store.Note{Lifter: c.ID, By: n.Member.Lifter.ID, What: what, Args: args}, now); err != nil {
			return err
		}
	}
	return nil
}

// CoachesOf lists who decides for a lifter where the coach does: the lifter's own
// coach, else every captain, as far as they are still here. Nobody is their own coach,
// and a captain without one decides alone.
func CoachesOf(tx *store.Tx, l planner.Lifter) ([]planner.Lifter, error) {
	all, err := tx.Members()
	if err != nil {
		return nil, err
	}
	var out []planner.Lifter
	for _, c := range all {
		if c.ID == l.Coach && c.ID != l.ID {
			return []planner.Lifter{c}, nil
		}
		if c.Captain && c.ID != l.ID && !l.Captain {
			out = append(out, c)
		}
	}
	return out, nil
}
