package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
)

// unplain are words of planners and statisticians that no lifter should need.
var unplain = regexp.MustCompile(`(?i)\b(runway|accommodation|residual|macrocycle|slope|dominance|e1rm|label-setting|objective|RIR)\b`)

// TestWordsOnScreenArePlain reads everything that a season says, and every help.
func TestWordsOnScreenArePlain(t *testing.T) {
	for name, script := range map[string]string{
		"season": "../../testdata/script/season.txt",
		"help":   "",
	} {
		t.Run(name, func(t *testing.T) {
			args, in := []string{"rehearse", script}, ""
			if script == "" {
				args = []string{"rehearse", "--db", t.TempDir() + "/help.db"}
				in = "clock 2027-01-04T08:00:00Z\n"
				for _, topic := range []string{"", "words", "privacy", "block", "season", "meet", "me", "log", "nudges", "club", "help"} {
					in += "@cap /help " + topic + "\n"
				}
				in += "@cap /club settings\n@cap /nudges\n"
			}
			var out, errs bytes.Buffer
			if status := (program{}).Run(t.Context(), args, strings.NewReader(in), &out, &errs); status != statusOK {
				t.Fatalf("status %d: %s", status, errs.String())
			}
			for line := range strings.Lines(out.String()) {
				if bad := unplain.FindString(line); bad != "" {
					t.Errorf("%q in: %s", bad, strings.TrimSpace(line))
				}
				if strings.Contains(line, "%!") {
					t.Errorf("a broken format: %s", strings.TrimSpace(line))
				}
			}
		})
	}
}
