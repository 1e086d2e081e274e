package chart

import (
	"testing"

	"gonum.org/v1/plot/vg"
)

// The line of today never crosses a meet's name, wherever both stand.
func TestTodayCrossesNoName(t *testing.T) {
	const right, wide = vg.Length(1150), vg.Length(120)
	for x := vg.Length(200); x <= right; x += 7 {
		for line := vg.Length(150); line <= right; line += 5 {
			end := clearOf(x, wide, line, right)
			if end > right {
				t.Fatalf("meet at %v, today at %v: the name ends at %v, behind the card's %v", x, line, end, right)
			}
			if line > end-wide && line < end {
				t.Fatalf("meet at %v, today at %v: crosses the name from %v to %v", x, line, end-wide, end)
			}
		}
		if end := clearOf(x, wide, -1, right); end != x {
			t.Fatalf("without a line the name ends at %v, want %v", end, x)
		}
	}
}
