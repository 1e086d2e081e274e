package blocks

import "testing"

// sparse is by how much sweeps are thinned out where -short asks for it: n times,
// and not at all otherwise.
func sparse(n int) int {
	if testing.Short() {
		return n
	}
	return 1
}
