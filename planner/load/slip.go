package load

import "slices"

// slipOf tells whether a name that is no known movement is one slip of the fingers away
// from one: a letter too many, too few, another, or two changed round. Such a line would
// be an exercise of the club's own, and the lift would be missing unsaid.
func slipOf(m Movement) (like string, slip bool) {
	if m.Variant != "" || slices.ContainsFunc(catalogued, func(e entry) bool { return e.Movement == m }) {
		return "", false
	}
	for _, e := range catalogued {
		if name := e.Name(); len(name) > 3 && oneSlip(string(m.Lift), name) {
			return name, true
		}
	}
	return "", false
}

// oneSlip tells whether two different words are one slip apart.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	switch len(b) - len(a) {
	case 0:
		turned := i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		return i < len(a) && (a[i+1:] == b[i+1:] || turned)
	case 1:
		return a[i:] == b[i+1:]
	}
	return false
}
