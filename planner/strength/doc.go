// Package strength turns sets into estimates of the one-repetition maximum and
// back into prescriptions.
//
// One relation between repetitions to failure and percent of the maximum serves
// both directions, so a lifter who does exactly what was prescribed is estimated
// at exactly the maximum the prescription was made from. Which of the published
// equations supplies the relation is a setting; Default is documented at its
// declaration.
//
// Masses are float64 kilograms here and nowhere else in the program: estimates
// are statistics, and rounding them to whole grams on the way would only add
// noise.
package strength
