// Package bodyweight reads a lifter's weighings: where the bodyweight stands, where
// it is going, how that compares with the class entered, and how fast a change
// would have to be. It gives figures and limits, never a way of losing weight.
//
// The level and its weekly change are a weighted straight line through the
// weighings of the last six weeks, newer ones counting more. A body weighs a
// little more or less from day to day whatever it does, so no line is believed
// more exactly than half a percent.
package bodyweight
