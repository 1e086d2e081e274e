// Package schedule makes the clock tick: once a minute it calls what has to be
// done each minute, once a night the upkeep. It knows nothing of lifters. Nothing
// is lost when a tick is late or missing, because what is due is written in the
// store and the next tick finds it.
package schedule
