package parse

import (
	"strings"

	"blockbell/planner"
)

// maxTotal is three times the heaviest single the program believes.
const maxTotal = 3 * planner.MaxWeight

// Total reads the sum of a meet's lifts: 0, which means none was made, or a mass
// up to 2,100 kg.
func Total(text string, unit planner.Unit) (planner.Grams, error) {
	if strings.TrimSpace(text) == "0" {
		return 0, nil
	}
	return mass(text, unit, planner.MinWeight, maxTotal)
}
