package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// What members are told that time does happens in a rehearsal too: who left is erased
// after 30 days, and what came at joining is known as such for a week.
func TestTimePassesInARehearsal(t *testing.T) {
	const script = `clock 2027-01-04T08:00:00Z
@cap /me
@ana /me set level:intermediate
@cap /club left lifter:ana
@cap /club import table:"name, squat; Zora K, 120"
press @cap "Add 1 lifter"
@ben /me claim name:"Zora K"
@cap /club placeholders
press @cap "Yes, ben is Zora K"
clock +6d
@cap /club board
clock +25d
@cap /club board
`
	db := filepath.Join(t.TempDir(), "club.db")
	status, out, errs := run(t, script, "rehearse", "--json", "--db", db, "-")
	if status != statusOK {
		t.Fatalf("status %d: %s", status, errs)
	}
	var boards []string
	for line := range strings.Lines(out) {
		if strings.Contains(line, `"title":"The club today"`) {
			boards = append(boards, line)
		}
	}
	if len(boards) != 2 || !strings.Contains(boards[0], `"ana"`) || strings.Contains(boards[1], `"ana"`) {
		t.Errorf("boards: %q", boards)
	}
	if _, kept, _ := run(t, "", "export", "--json", "--db", db); !strings.Contains(kept, `"takeovers": []`) {
		t.Error("what came at joining is still known as such")
	}
}
