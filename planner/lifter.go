package planner

// LifterID identifies a lifter within one club.
type LifterID int64

// Level is how far a lifter has come; it scales how fast new strength arrives.
type Level string

// The levels, from first months to years of competing.
const (
	New          Level = "new"
	Novice       Level = "novice"
	Intermediate Level = "intermediate"
	Advanced     Level = "advanced"
	Elite        Level = "elite"
)

// Levels lists the levels in rising order.
func Levels() []Level { return []Level{New, Novice, Intermediate, Advanced, Elite} }

// Category is the category a lifter competes in.
type Category string

// The two categories of the sport's rule books.
const (
	Women Category = "women"
	Men   Category = "men"
)

// Where says how a lifter wants to be told things unasked.
type Where string

// Directly, in the channel by a neutral line, or only when asked.
const (
	Direct  Where = "direct"
	Channel Where = "channel"
	Ask     Where = "ask"
)

// BenchStyle is the form of the bench press that a lifter trains as the
// competition lift; empty is not told and counts as paused.
type BenchStyle string

// The bar waits on the chest as in competition, or goes up at once.
const (
	PausedBench BenchStyle = "paused"
	TouchAndGo  BenchStyle = "touch and go"
)

// DeadliftStyle is the stance that a lifter pulls with in competition; empty is
// not told and counts as conventional.
type DeadliftStyle string

// Hands outside the legs, or inside.
const (
	Conventional DeadliftStyle = "conventional"
	Sumo         DeadliftStyle = "sumo"
)

// Lifter is one member of the club. Every field but ID and Handle may be unset:
// a zero mass, an empty word and a zero date mean "not told".
type Lifter struct {
	ID          LifterID
	Handle      string // the name or number by which the chat knows this person
	Name        string // what to call them
	Captain     bool
	Coach       LifterID // 0: the captain coaches
	Group       string
	Category    Category
	Born        Date
	Bodyweight  Grams
	Class       Class
	Level       Level
	Zone        string // IANA name; empty: the club's
	Unit        Unit
	Days        int // training days a week, 2 to 6
	Squat       Grams
	Bench       Grams
	Deadlift    Grams
	Nudges      Where
	LongBlocks  bool // likes long blocks
	HasCompeted bool // false: the next meet is the first
	// The forms that are the competition lifts in training; the others are variants.
	BenchStyle    BenchStyle
	DeadliftStyle DeadliftStyle
}

// Best returns the maximum the lifter claims for a competition lift; 0 where
// none was told.
func (l Lifter) Best(lift Lift) Grams {
	switch lift {
	case Squat:
		return l.Squat
	case Bench:
		return l.Bench
	case Deadlift:
		return l.Deadlift
	}
	return 0
}

// Total returns the sum of the three claimed maxima, 0 unless all are told.
func (l Lifter) Total() Grams {
	if l.Squat == 0 || l.Bench == 0 || l.Deadlift == 0 {
		return 0
	}
	return l.Squat + l.Bench + l.Deadlift
}

// PlannedLevel returns the level the planner works with: novice for lifters who
// have not told one.
func (l Lifter) PlannedLevel() Level {
	if l.Level == "" {
		return Novice
	}
	return l.Level
}
