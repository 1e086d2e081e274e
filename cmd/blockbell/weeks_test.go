package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The invented seasons are kept week by week, so that every change of what is
// prescribed is read by somebody before it counts.
func TestWeeksOfTheDemoLifters(t *testing.T) {
	names, all := demoSeasons()
	var together []string
	for _, name := range names {
		var b bytes.Buffer
		if err := all[name].print(&b); err != nil {
			t.Fatal(err)
		}
		together = append(together, b.String())
		file := filepath.Join("testdata", "weeks", name+".want")
		if *update {
			if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s differs from %s; run with -update and read the difference", name, file)
		}
	}
	status, out, errs := run(t, "", "weeks", "--demo")
	if status != statusOK || errs != "" || out != strings.Join(together, "\n") {
		t.Errorf("status %d, %q; the command prints other weeks than its parts", status, errs)
	}
}

func TestWeeksOfALifterByFlags(t *testing.T) {
	for _, c := range []struct {
		args   string
		status int
		says   []string
	}{
		{"", statusOK, []string{"women, intermediate, 3 days a week", "no squat max known", "the meet (full meet) on Sat 20 March 2027", "from Mon 30 November", "No max is known of squat, bench and deadlift"}},
		{"--level novice --category men --born 1990-02-03 --bodyweight 80 --days 2 --squat 100 --bench 70 --deadlift 120 --event bench --weeks-to-meet 9 --start 2027-01-04 --first-meet", statusOK,
			[]string{"men, novice, 36 years, 80 kg, 2 days a week, first meet", "squat 100 kg, bench 70 kg, deadlift 120 kg; the meet (bench only) on Sat 6 March 2027", "rest on 95 %", "First meet: nothing above 90 %"}},
		{"--unit lb --squat 315 --bench 225 --deadlift 405 --weeks-to-meet 4", statusOK, []string{"squat 315 lb", " lb  "}},
		{"--careful --date 2027-03-06 --squat 100", statusOK, []string{"Careful version"}},
		{"--start 2027-01-06 --date 2027-03-10", statusOK, []string{"from Wed 6 January"}},
		{"--weeks-to-meet 0 --date 2020-01-01", statusFailed, []string{"a meet on 2020-01-01 is not within", "hint: Training begins on 2026-11-30"}},
		{"--weeks-to-meet 9 --date 2027-03-06", statusFailed, []string{"both say when the meet is"}},
		{"--weeks-to-meet 900", statusFailed, []string{"--weeks-to-meet=900 is outside 1 to 156"}},
		{"--days 7", statusFailed, []string{"--days=7 is outside 1 to 6"}},
		{"--squat 2000", statusFailed, []string{"squat", "2000"}},
		{"--squat=-5", statusFailed, []string{"squat", "-5"}},
		{"--bodyweight 5", statusFailed, []string{"--bodyweight=5 is outside"}},
		{"--born 2026-01-01", statusFailed, []string{"--born=2026-01-01"}},
		{"--born soon", statusUsage, []string{"--born"}},
		{"--level master", statusUsage, []string{"--level", "novice"}},
		{"--event strongest", statusUsage, []string{"--event", "push-pull"}},
	} {
		args := append([]string{"weeks"}, strings.Fields(c.args)...)
		status, out, errs := run(t, "", args...)
		if status != c.status {
			t.Errorf("%q: status %d, want %d: %s", c.args, status, c.status, errs)
		}
		for _, want := range c.says {
			if !strings.Contains(out+errs, want) {
				t.Errorf("%q: %q is missing in\n%.1500s%s", c.args, want, out, errs)
			}
		}
	}
}
