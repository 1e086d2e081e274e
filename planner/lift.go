package planner

// Lift names a movement. The three competition lifts are constants; any other
// name is an accessory.
type Lift string

// The competition lifts, in the order of a meet.
const (
	Squat    Lift = "squat"
	Bench    Lift = "bench"
	Deadlift Lift = "deadlift"
)

// CompetitionLifts lists the three lifts of a full meet in their order.
func CompetitionLifts() []Lift { return []Lift{Squat, Bench, Deadlift} }

// Competition tells whether the lift counts in a full meet.
func (l Lift) Competition() bool { return l == Squat || l == Bench || l == Deadlift }

// Variant names a form of a lift, such as "close-grip" or "paused". The empty
// variant is the lift as it is done in competition.
type Variant string
