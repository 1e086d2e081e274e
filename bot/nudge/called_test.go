package nudge

import (
	"strings"
	"testing"
)

func TestNamesCannotSpeakForTheBot(t *testing.T) {
	for name, want := range map[string]string{
		"River Open": "River Open", "Ana-Lena O'Neil": "Ana-Lena O'Neil", "Spring Cup 2027": "Spring Cup 2027",
		"Gym closed. Pay 50 EUR":                        `"Gym closed. Pay 50 EUR"`,
		"Gym closed. Pay 50 EUR to mal at evil.example": `"Gym closed. Pay 50 EUR to mal at evil e…"`,
		"see www.evil.example/x":                        `"see www evil example/x"`,
		"@everyone **x** [y](http://z)":                 `"everyone x y (http //z)"`,
		"St. Ives 2.5":                                  `"St. Ives 2.5"`,
	} {
		if got := called(name); got != want {
			t.Errorf("%q is called %s, want %s", name, got, want)
		}
	}
	for _, name := range []string{"@everyone **x** [y](http://z)", "<@123>", strings.Repeat("long ", 30), "pay Mal fifty euros for the new bar", ""} {
		got := called(name)
		if !strings.HasPrefix(got, `"`) || !strings.HasSuffix(got, `"`) || strings.ContainsAny(got, "@<>*[]\n") || strings.Contains(got, "://") || len([]rune(got)) > 42 {
			t.Errorf("%q is called %s", name, got)
		}
	}
}
