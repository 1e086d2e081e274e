// Package parse reads what people type: arguments of commands (dates, weights,
// times of day, names of lifts, choices) and the free lines in which lifters log
// their work.
//
// Everything it returns is a value of package planner or a problem that says
// where in the text it lies, counted in characters from 1. It keeps no text of a
// message: what it quotes back has gone through Clean.
package parse
