package parse

import (
	"strings"
	"testing"
	"time"

	"blockbell/planner"
)

func TestZone(t *testing.T) {
	for text, want := range map[string]string{
		"Europe/Lisbon": "Europe/Lisbon", " europe/lisbon ": "Europe/Lisbon", "America/New York": "America/New_York", "UTC": "UTC",
	} {
		if got, err := Zone(text); err != nil || got != want {
			t.Errorf("%q: %q, %v", text, got, err)
		}
	}
}

func TestZoneAsksForTheClosest(t *testing.T) {
	for text, near := range map[string]string{
		"Europe/Lisabon": "Europe/Lisbon", "Lisbon": "Europe/Lisbon", "Ljubjana": "Europe/Ljubljana",
		"Amerika/New_York": "America/New_York", "newyork": "America/New_York", "kiev": "Europe/Kiev",
	} {
		_, err := Zone(text)
		e, ok := err.(*planner.Error)
		if !ok || !strings.Contains(e.Sentence, Clean(text)) || !strings.HasPrefix(e.Hint, "Did you mean "+near+"?") {
			t.Errorf("%q: %v", text, err)
		}
	}
	for _, text := range []string{"", "Local", "local", "../../etc/passwd", strings.Repeat("x", 5000), "Europe/\x00", "+02:00", "qqqqqqqqq"} {
		_, err := Zone(text)
		if e, ok := err.(*planner.Error); !ok || !strings.Contains(e.Hint, "area and city") {
			t.Errorf("%.40q: %v", text, err)
		}
	}
}

// Every name that is suggested can be set.
func TestZoneNamesAreKnown(t *testing.T) {
	if len(zoneNames()) < 400 {
		t.Fatalf("only %d names", len(zoneNames()))
	}
	for _, name := range zoneNames() {
		if _, err := time.LoadLocation(name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
