package parse

import "unicode"

// hiddenIn returns the 1-based character of the first thing that cannot be seen,
// or that strikes a digit out or is a digit of another script, between the digits
// of one number; 0 where there is none. Such a number is not what it looks like.
func hiddenIn(runes []rune) int {
	for i, r := range runes {
		if r < 0x80 && r >= ' ' && r != 0x7f || r == '\t' || !odd(r) {
			continue
		}
		if i > 0 && numeral(runes[i-1]) && numberGoesOn(runes[i+1:]) {
			return i + 1
		}
	}
	return 0
}

// numberGoesOn tells whether a digit comes next, behind any more odd characters.
func numberGoesOn(rest []rune) bool {
	for _, r := range rest {
		if !odd(r) {
			return numeral(r)
		}
	}
	return false
}

func numeral(r rune) bool { return isDigit(r) || r == '.' || r == ',' || r >= '０' && r <= '９' }

// odd tells whether a character has no place inside a number although it does not
// part it in two for the eye.
func odd(r rune) bool {
	switch r {
	case '\u115f', '\u1160', '\u2800', '\u3164', '\uffa0': // letters and signs that show nothing
		return true
	case '\u2028', '\u2029':
		return true
	case '½', '\t':
		return false
	}
	if r >= '０' && r <= '９' {
		return false
	}
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Mn, unicode.Me, unicode.Variation_Selector) || r > 0x7f && unicode.IsNumber(r)
}
