package bot

import "blockbell/planner"

// Maxes beyond these, or beyond 5 times the bodyweight (bench 4 times), are doubted:
// hardly anybody has lifted as much without gear (from memory).
const (
	farSquat = 500 * planner.Kilogram
	farBench = 400 * planner.Kilogram
)

// farMaxes doubts maxes that were told just now and lie beyond what people lift.
func farMaxes(was, is planner.Lifter) (doubts []string) {
	for _, lift := range planner.CompetitionLifts() {
		most, times := farSquat, planner.Grams(5)
		if lift == planner.Bench {
			most, times = farBench, 4
		}
		if is.Bodyweight > 0 {
			most = min(most, times*is.Bodyweight)
		}
		if told := is.Best(lift); told != was.Best(lift) && told > most {
			doubts = append(doubts, "A "+string(lift)+" of "+told.Text(is.Unit)+" is more than I can believe at once. A slip, or pounds? Loads are reckoned from it.")
		}
	}
	return doubts
}
