//go:build !race

package nudge_test

// raced tells that the race detector is on.
const raced = false
