package parse

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"blockbell/planner"
)

// logLines reads a file of log lines with their meaning: unit, line, what is
// understood. Line breaks are written as \n, a character without ink as \z and the
// zero byte as \0.
func logLines(t testing.TB, name string) [][3]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "lines", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var rows [][3]string
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if text := lines.Text(); !strings.HasPrefix(text, "#") {
			cells := strings.Split(text, "\t")
			if len(cells) != 3 {
				t.Fatalf("%s: %q has %d cells", name, text, len(cells))
			}
			rows = append(rows, [3]string{cells[0], escapes.Replace(cells[1]), cells[2]})
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

var escapes = strings.NewReplacer(`\n`, "\n", `\z`, "\u200b", `\0`, "\x00")

var logFiles = []string{"accepted.tsv", "asked.tsv", "refused.tsv", "chatter.tsv"}

func TestLogLines(t *testing.T) {
	n := 0
	for _, name := range logFiles {
		for _, row := range logLines(t, name) {
			c := lifter(planner.Unit(row[0]))
			if got := describe(Log(row[1], c), c); got != row[2] {
				t.Errorf("%s %q\n got %s\nwant %s", name, row[1], got, row[2])
			}
			n++
		}
	}
	if n < 200 {
		t.Errorf("only %d lines", n)
	}
}

// Case, doubled blanks and look-alike signs change nothing.
func TestLogLinesInOtherDress(t *testing.T) {
	dress := map[string]func(string) string{
		"capitals":      strings.ToUpper,
		"blanks":        func(s string) string { return strings.ReplaceAll(s, " ", "  ") },
		"hard blanks":   func(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") },
		"typographic x": func(s string) string { return strings.ReplaceAll(s, "x", "×") },
	}
	for _, row := range logLines(t, "accepted.tsv") {
		if strings.ContainsAny(row[1], "`>") || strings.Contains(row[1], "max") || strings.Contains(row[1], "http") {
			continue
		}
		for what, change := range dress {
			c := lifter(planner.Unit(row[0]))
			if got := describe(Log(change(row[1]), c), c); got != row[2] {
				t.Errorf("%s: %q\n got %s\nwant %s", what, change(row[1]), got, row[2])
			}
		}
	}
}

func TestNightBelongsToTheDayBefore(t *testing.T) {
	for _, c := range []struct{ clock, text, want string }{
		{"2027-03-04T03:59:00Z", "squat 140x5", "2027-03-03"},
		{"2027-03-04T04:00:00Z", "squat 140x5", "2027-03-04"},
		{"2027-03-04T00:00:00Z", "squat 140x5", "2027-03-03"},
		{"2027-03-04T01:00:00Z", "today squat 140x5", "2027-03-03"},
		{"2027-03-04T01:00:00Z", "yesterday squat 140x5", "2027-03-03"},
		{"2027-03-04T01:00:00Z", "bw 82.4, squat 140x5", "2027-03-03"},
	} {
		at, err := time.Parse(time.RFC3339, c.clock)
		if err != nil {
			t.Fatal(err)
		}
		r := Log(c.text, Context{Today: planner.DateOf(at), At: at})
		if len(r.Sets) != 1 || r.Sets[0].Day.String() != c.want {
			t.Errorf("%s at %s: %+v", c.text, c.clock, r.Sets)
		}
	}
}

func TestStandardDecidesWhatIsAVariant(t *testing.T) {
	for _, c := range []struct {
		text     string
		standard Standard
		want     planner.Variant
	}{
		{"tng bench 100x3", Standard{}, TouchAndGo}, {"tng bench 100x3", Standard{TouchAndGo: true}, ""},
		{"sumo deadlift 180x3", Standard{}, Sumo}, {"sumo deadlift 180x3", Standard{Sumo: true}, ""},
		{"conventional deadlift 180x3", Standard{}, ""}, {"conventional deadlift 180x3", Standard{Sumo: true}, Conventional},
		{"bench 100x3", Standard{TouchAndGo: true}, ""}, {"paused bench 100x3", Standard{TouchAndGo: true}, ""},
	} {
		r := Log(c.text, Context{Today: monday, Standard: c.standard})
		if len(r.Sets) != 1 || r.Sets[0].Variant != c.want {
			t.Errorf("%q with %+v: %+v", c.text, c.standard, r.Sets)
		}
	}
}

func TestUnknownBestsAskNothing(t *testing.T) {
	r := Log("squat 315x5", Context{Today: monday})
	if len(r.Sets) != 1 || r.Sets[0].Pending || len(r.Questions) != 0 {
		t.Errorf("%+v", r)
	}
}

func TestPendingQuestionsPointAtTheirSets(t *testing.T) {
	c := lifter(planner.KG)
	r := Log("squat 20x10, 140x5, 40x5, 400x1", c)
	if len(r.Questions) != 2 {
		t.Fatalf("%+v", r.Questions)
	}
	for _, q := range r.Questions {
		for _, i := range q.Sets {
			if !r.Sets[i].Pending {
				t.Errorf("set %d of %q is not pending", i, q.Text)
			}
		}
		for _, a := range q.Answers {
			if len(a.Sets) > 0 && (len(a.Sets) != len(q.Sets) || a.Sets[0].Pending) {
				t.Errorf("answer %q: %+v", a.Label, a.Sets)
			}
		}
	}
}

func TestSwapIsTheOtherReading(t *testing.T) {
	r := Log("bench 90x5x3", Context{Today: monday})
	if len(r.Swaps) != 1 || r.Sets[0].Reps != 5 || r.Swaps[0].Other.Reps != 3 || r.Swaps[0].Other.Sets != 5 || len(r.Notes) != 1 {
		t.Errorf("%+v", r)
	}
}

func TestLongMessageIsRefused(t *testing.T) {
	for _, text := range []string{strings.Repeat("squat 140x5\n", 1000), strings.Repeat("é", MaxMessage+1), strings.Repeat("x", 10_000)} {
		r := Log(text, lifter(planner.KG))
		if len(r.Sets) != 0 || len(r.Problems) != 1 || !strings.Contains(r.Problems[0].Hint, "4,000") {
			t.Errorf("%d characters: %d sets, %+v", len(text), len(r.Sets), r.Problems)
		}
	}
}

func TestPainLeavesNoWords(t *testing.T) {
	for text, want := range map[string]AlarmKind{
		"my knee hurts": Pain, "I tweaked my hip on the last set": Pain, "squat 140x5, lower back pain again I think": Pain, "sharp pain in my elbow": Pain,
		"chest pain after squats": Alarm, "I fainted": Alarm, "my hand is numb": Alarm, "something popped in my shoulder": Alarm,
		"I can't see properly": Alarm, "I passed out": Alarm, "my pec popped": Alarm,
		"so sore today": "", "my legs are sore": "", "that was killing me": "", "no pain today in my knee": "", "pain free knee for me": "",
		"knee sleeves arrived": "", "he hurt his back": "", "back squat 140x5": "", "it doesn't hurt my knee": "", "popped in to say hi": "",
		"no pain no gain": "", "my back squat is strong": "", "chest up next time": "",
	} {
		c := lifter(planner.KG)
		r := Log(text, c)
		if r.Alarm != want {
			t.Errorf("%q: alarm %q, want %q", text, r.Alarm, want)
		}
		if got := describe(r, c); strings.Contains(got, "hurt") || strings.Contains(got, "knee") {
			t.Errorf("%q: words are kept: %s", text, got)
		}
	}
}

// Every set that is read prints as a line that reads back to the same set.
func TestPrintedSetsReadBack(t *testing.T) {
	n := 0
	for _, name := range logFiles {
		for _, row := range logLines(t, name) {
			c := lifter(planner.Unit(row[0]))
			r := Log(row[1], c)
			sets := r.Sets
			for _, q := range r.Questions {
				for _, a := range q.Answers {
					sets = append(sets, a.Sets...)
				}
			}
			for _, set := range sets {
				readsBack(t, set, c.Unit)
			}
			n += len(sets)
		}
	}
	if n < 750 {
		t.Errorf("only %d sets", n)
	}
}

type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// readsBack fails unless print, read and print again agree.
func readsBack(t failer, set planner.Set, unit planner.Unit) {
	t.Helper()
	set.Pending = false
	text := Print(set, unit)
	r := Log(text, Context{Today: set.Day, Unit: unit})
	if len(r.Sets) != 1 || len(r.Problems)+len(r.Questions) != 0 {
		t.Fatalf("%q read back as %+v", text, r)
	}
	if again := Print(r.Sets[0], unit); again != text {
		t.Fatalf("%q printed again as %q", text, again)
	}
	got := r.Sets[0]
	if got.Reps != set.Reps || got.Sets != set.Sets || got.Missed != set.Missed || got.Lift != set.Lift || got.Variant != set.Variant {
		t.Fatalf("%q read back as %+v, was %+v", text, got, set)
	}
}

func TestAnySetPrintsAndReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reps := rapid.IntRange(1, 50).Draw(t, "reps")
		set := planner.Set{
			Day: monday, Lift: planner.Lift(rapid.SampledFrom(LiftNames()).Draw(t, "lift")),
			Weight: planner.Grams(rapid.Int64Range(2, 2700).Draw(t, "quarters")) * 250,
			Reps:   reps, Sets: rapid.IntRange(1, 20).Draw(t, "sets"),
			Missed: rapid.Bool().Draw(t, "missed"),
		}
		if left := rapid.IntRange(-1, 18).Draw(t, "left"); left >= 0 {
			half := float64(left) / 2
			set.Reserve = &half
		}
		if set.Lift == planner.Bench {
			set.Variant = rapid.SampledFrom([]planner.Variant{"", CloseGrip, LongPause, TouchAndGo, Tempo}).Draw(t, "variant")
		}
		readsBack(t, set, rapid.SampledFrom([]planner.Unit{planner.KG, planner.LB}).Draw(t, "unit"))
	})
}

func FuzzLog(f *testing.F) {
	for _, name := range logFiles {
		for _, row := range logLines(f, name) {
			f.Add(row[1])
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		c := lifter(planner.KG)
		r := Log(text, c)
		lines := strings.Split(text, "\n")
		inside := func(line, column int) {
			if line < 1 || line > len(lines) || column < 1 || (column > utf8.RuneCountInString(lines[line-1]) && column != MaxMessage+1) {
				t.Fatalf("%q: place %d:%d", text, line, column)
			}
		}
		sets := r.Sets
		for _, q := range r.Questions {
			inside(q.Line, q.Column)
			for _, a := range q.Answers {
				sets = append(sets, a.Sets...)
			}
		}
		for _, p := range r.Problems {
			inside(p.Line, p.Column)
			if p.Text == "" || strings.Contains(p.Text, "@everyone") {
				t.Fatalf("%q: %+v", text, p)
			}
		}
		for _, s := range r.Swaps {
			sets = append(sets, s.Other)
		}
		for _, s := range sets {
			inBounds(t, text, s, c.Today)
		}
		for _, s := range r.Sets {
			readsBack(t, s, c.Unit)
		}
		if r.Chatter != r.empty() {
			t.Fatalf("%q: chatter %v", text, r.Chatter)
		}
		after := c
		after.Last = func() (planner.Set, time.Duration, bool) {
			return planner.Set{Day: c.Today, Lift: planner.Squat, Variant: Paused, Weight: 130_000, Reps: 5, Sets: 1}, time.Minute, true
		}
		for _, s := range Log(text, after).Sets {
			inBounds(t, text, s, c.Today)
			readsBack(t, s, c.Unit)
		}
		if Gist(text) != Gist(text+" ") {
			t.Fatalf("%q: a blank changes what it says", text)
		}
	})
}

// inBounds fails where a set is one that nobody can have lifted.
func inBounds(t *testing.T, text string, s planner.Set, today planner.Date) {
	t.Helper()
	weight := s.Weight >= planner.MinWeight && s.Weight <= planner.MaxWeight || s.Weight == 0 && ownLifts[s.Lift]
	reps := s.Reps >= 1 && s.Reps <= planner.MaxReps || s.Reps == 0 && s.Missed
	if !weight || !reps || s.Sets < 1 || s.Sets > planner.MaxSets || s.Lift == "" || s.Day > today {
		t.Fatalf("%q: %+v", text, s)
	}
	if s.Reserve != nil && !(*s.Reserve >= 0 && *s.Reserve <= 9) {
		t.Fatalf("%q: reserve %g", text, *s.Reserve)
	}
}

func BenchmarkLogLine(b *testing.B) {
	c := lifter(planner.KG)
	for b.Loop() {
		Log("squat 140x5 @8, felt good", c)
	}
}

func BenchmarkLogLongLine(b *testing.B) {
	c := lifter(planner.KG)
	for b.Loop() {
		Log("yesterday close-grip bench 3 sets of 5 at 92,5 kg, 2 in reserve, then 100x5,5,4 @7,8,9", c)
	}
}

func BenchmarkLogChatter(b *testing.B) {
	c := lifter(planner.KG)
	for b.Loop() {
		Log("see you all on saturday at the gym, I'll bring the chalk", c)
	}
}

func BenchmarkLogLargestMessage(b *testing.B) {
	c := lifter(planner.KG)
	text := strings.Repeat("squat 140x5\n", MaxMessage/12)
	for b.Loop() {
		Log(text, c)
	}
}
