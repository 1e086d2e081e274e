// Package planner is the vocabulary of training that the whole program shares:
// masses, civil dates, lifts, lifters, meets, blocks, seasons and the one error
// type whose sentence a lifter may read.
//
// It imports nothing of the project, does no input or output and never asks the
// clock: every date it needs is an argument.
package planner
