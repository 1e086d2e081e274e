package nudge

import (
	"blockbell/planner"
	"blockbell/store"
)

// LongNow is what the alarm about a peaking block past its limit says on a day; empty
// where no such block runs. It is for the lifter and who coaches them: it tells of the
// log.
func LongNow(tx *store.Tx, lifter planner.LifterID, day planner.Date) ([]string, error) {
	f, err := loadOnly(tx, []planner.LifterID{lifter})
	if err != nil || len(f.Members) == 0 {
		return nil, err
	}
	s := search{facts: &f, member: &f.Members[0], last: day}
	at := s.on(day)
	if at.Index < 0 || at.Block.Kind != planner.Peaking || day <= at.Block.End || day < s.pastLimit(at.Index) {
		return nil, nil
	}
	n := Nudge{Kind: PeakingLong, Member: s.member, Day: day, Index: at.Index, Over: at.Week - 1}
	if err := fill(tx, &n); err != nil {
		return nil, err
	}
	return f.toldLong(&n), nil
}
