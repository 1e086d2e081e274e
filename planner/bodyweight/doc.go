// Package bodyweight reads a lifter's weighings: where the bodyweight stands, where
// it is going, how that compares with the class entered, and how fast a change
// would have to be. It gives figures and limits, never a way of losing weight.
//
// The level and its weekly change are a local linear trend through the weighings of the
// last six weeks: the change may bend, and how much it did in these weeks says how far
// it may be carried on. A body weighs a little more or less from day to day whatever it
// does, so no single weighing is believed more exactly than half a percent.
package bodyweight
