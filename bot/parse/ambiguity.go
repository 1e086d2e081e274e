package parse

// Rule is one decision about lines that can be read in two ways.
type Rule struct {
	After string // a set that was logged a minute before; empty: none
	Typed string // an example; \n is a line break
	Read  string // what it is read as; "asks" where one tap decides, "left alone" for talk
	Why   string
}

// Rules are all such decisions, in one place. Two principles stand behind them: a
// wrong set is worse than a question, and a question is worse than a reading that
// nobody would doubt. Whatever is read in one of two ways is said, and one tap puts
// it right. The tests hold the reader against every example.
func Rules() []Rule {
	return []Rule{
		{"", "bench 92.5x5x3", "3 sets of 5 at 92.5 kg", "weight first: repetitions, then sets; it is said, and a tap swaps them"},
		{"", "bench 3x5 92.5", "3 sets of 5 at 92.5 kg", "without a weight in front: sets, then repetitions"},
		{"", "curls 20 3x15", "3 sets of 15 at 20 kg", "the competition lifts alone are done in many short sets; it is said, and a tap swaps them"},
		{"", "bench 80 5 5 5", "asks", "numbers behind a weight may be one repetition count after the other"},
		{"", "squat 140x5 @8 x2", "asks", "behind an effort it may be two sets, or a set of two"},
		{"", "squat 5x5 120 only got 4", "asks", "the short set is taken for the last; with \"on the last\" it is kept"},
		{"", "squat 140x50", "asks", "so many repetitions do not fit your best"},
		{"", "squat 150 for 3x5", "3 sets of 5 at 150 kg", "\"for\" spells out that the sets come first"},
		{"", "squat 5x140", "asks", "it may be 5 repetitions at 140 kg, or a slip"},
		{"", "squat 3/5", "asks", "sets of repetitions, or repetitions made of those tried"},
		{"", "squat 2/3 at 150", "150 kg, 2 of 3 made", "with a weight behind it a stroke counts what was made"},
		{"", "squat 140/5", "5 at 140 kg", "a number of 20 or more in front of a stroke is the weight"},
		{"", "bench 100,5x3", "3 at 100.5 kg", "one digit behind a comma is a decimal"},
		{"", "bench 100x5,5,4", "sets of 5, 5 and 4", "behind repetitions a comma goes on with the list"},
		{"", "squat 140x5 @8", "effort 8", "behind \"@\" up to 10 is effort, above it weight, with % a share of the max"},
		{"", "squat 140x5 @8-9", "effort 8.5", "a range is its middle"},
		{"", "squat 140x5 easy", "effort 7", "words for effort claim least: easy leaves three, hard one"},
		{"", "squat 200x1, 4x4 @ 80%", "asks", "a share behind a top set may be of it or of the max"},
		{"", "squat 200x1, drop 10% 4x4", "asks", "what is taken off is taken off the top set; the rounded weight is shown first"},
		{"", "squat 140-145x5", "asks", "one of two weights was on the bar"},
		{"", "deadlift 200", "asks", "a weight alone may be a single"},
		{"", "140x5", "asks", "a set without a lift"},
		{"squat 135x5", "140x5", "5 at 140 kg", "within ten minutes and near in weight it is the next set of the same lift; it is said, and a tap puts it right"},
		{"bench 60x5", "140x5", "asks", "too far in weight to be the next set; the last lift is the first answer"},
		{"", "Squat\\n140x5", "5 at 140 kg", "the lift of a line above carries over"},
		{"", "bench/squat 100x5", "asks", "two lifts, one set"},
		{"", "Maria: squat 140x5", "asks", "a name in front may say that somebody else lifted it"},
		{"", "squat 315x5", "asks", "far above or below your best: the other unit or a slip of the thumb is offered, nothing counts until you say so"},
		{"", "sqaut 140x5", "5 at 140 kg", "one slip in the name of a competition lift right before a number; how it was read is said"},
		{"", "squat 315lb x 5, bench 225x5", "5 at 315 lb and 5 at 225 lb", "a unit holds until another is said"},
		{"", "squat 3x5 140 missed", "asks", "which of several sets was missed"},
		{"", "squat 140x5 missed", "4 of 5 made", "a single miss is the last repetition"},
		{"", "3/1 squat 150x3", "refused", "a day that can be two days is never guessed"},
		{"", "squat one hundred for five", "5 at 100 kg", "a load and what is multiplied are read in words too"},
		{"", "squat one forty five", "asks", "145 kg, or 140 for five; \"one forty-five for three\" says it"},
		{"", "squat five", "refused", "a lift beside a number in words is never passed over in silence"},
		{"", "no 150", "the last set's weight", "within ten minutes; without a unit it is meant in that set's"},
		{"", "no pause bench 100x3", "touch and go bench", "\"no pause\" is a form of the lift and no correction"},
		{"", "squat 140x5 tomorrow?", "left alone", "plans, questions, quotes and code are talk"},
		{"", "row 60x8", "8 at 60 kg", "words that mean something else in talk are lifts only beside a weight and repetitions"},
	}
}
