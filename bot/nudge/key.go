package nudge

import (
	"fmt"

	"blockbell/planner"
)

// key names a nudge for ever: lifter/kind/object/date/fact, for example
// ana/block-end/b20270104/2027-02-21/-3d.
func key(m *Member, k Kind, object string, date planner.Date, fact string) string {
	return fmt.Sprintf("%s/%s/%s/%s/%s", m.Lifter.Handle, k, object, date, fact)
}

// blockObject names a block by its first day. A lifter has one block at a time,
// so the day is enough, and unlike the number of a plan it stays the same when a
// new version of the plan leaves the block alone.
func blockObject(b planner.Block) string {
	y, m, d := b.Start.Civil()
	return fmt.Sprintf("b%04d%02d%02d", y, int(m), d)
}

// meetObject names a meet entry.
func meetObject(m planner.Meet) string { return fmt.Sprintf("m%d", m.ID) }
