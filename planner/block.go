package planner

// BlockKind is the one aim of a run of weeks.
type BlockKind string

// The aims of a block. The taper is the end of peaking, not a kind of its own.
const (
	Hypertrophy BlockKind = "hypertrophy"
	Strength    BlockKind = "strength"
	Peaking     BlockKind = "peaking"
	Recovery    BlockKind = "recovery"
)

// Block is a run of weeks with one aim. Start and End are both inclusive; Weeks
// counts training weeks, so a block that begins with odd days or ends in a short
// meet week is not exactly 7*Weeks days long.
type Block struct {
	Kind       BlockKind `json:"kind"`
	Start      Date      `json:"start"`
	End        Date      `json:"end"`
	Weeks      int       `json:"weeks"`
	TaperStart Date      `json:"taper_start,omitzero"` // first day of the taper in a peaking block; zero elsewhere
	Reason     string    `json:"reason,omitempty"`     // one sentence: why this block, this long
}

// Contains tells whether d is a day of the block.
func (b Block) Contains(d Date) bool { return d >= b.Start && d <= b.End }

// DaysLeft returns how many days follow d inside the block: 0 on its last day.
func (b Block) DaysLeft(d Date) int { return d.DaysUntil(b.End) }

// At returns the index of the block that contains d, or -1.
func At(blocks []Block, d Date) int {
	for i, b := range blocks {
		if b.Contains(d) {
			return i
		}
	}
	return -1
}
