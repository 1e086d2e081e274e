package parse

import (
	"strings"
	"testing"

	"blockbell/planner"
)

func TestQuietRingsNobodysBell(t *testing.T) {
	got := Quiet("Gym closed,\r\n@everyone <@123> <@&9> @here\x00\u202egnp.exe\u200b ok ")
	for _, bad := range []string{"@", "<", ">", "\x00", "\u202e", "\u200b", "\r"} {
		if strings.Contains(got, bad) {
			t.Errorf("%q is left in %q", bad, got)
		}
	}
	if !strings.HasPrefix(got, "Gym closed,\n") || !strings.HasSuffix(got, "ok") {
		t.Errorf("the words are gone: %q", got)
	}
}

func TestTotalMayBeNothing(t *testing.T) {
	for text, want := range map[string]planner.Grams{"0": 0, "412,5": 412500, "1000lb": 453592, " 700 kg ": 700000} {
		if got, err := Total(text, planner.KG); err != nil || got != want {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "-5", "2100.5", "9999", "many", "0kgs0"} {
		if got, err := Total(text, planner.KG); err == nil {
			t.Errorf("%q was taken as %d", text, got)
		}
	}
}
