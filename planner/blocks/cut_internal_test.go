package blocks

import (
	"strings"
	"testing"
)

// 80 kg to 66 kg is 17.5 %; at 0.7 % a week (Garthe et al. 2011) ln(66/80)/ln(0.993) =
// 27.4 weeks.
func TestFarCutIsWarnedOf(t *testing.T) {
	got := farBelow(17.5, 20)
	for _, want := range []string{"17.5 % less", "higher class", "0.7 % a week", "28 weeks, and 20 are left", "doctor or dietitian", "No cut when pregnant"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	if got := farBelow(17.5, 30); strings.Contains(got, "are left") {
		t.Errorf("with time enough: %q", got)
	}
}
