package parse

import (
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"blockbell/planner"
)

// sentence returns what a person reads of an error, and fails the test where the
// error has no words for people.
func sentence(t testing.TB, err error) string {
	t.Helper()
	var e *planner.Error
	if !errors.As(err, &e) || e.Sentence == "" {
		t.Fatalf("%v is no error for people", err)
	}
	return e.Sentence + " " + e.Hint
}

func TestWeight(t *testing.T) {
	for _, c := range []struct {
		text string
		unit planner.Unit
		want planner.Grams
	}{
		{"140", planner.KG, 140_000}, {"140", "", 140_000}, {"92,5", planner.KG, 92_500}, {"92.5 kg", planner.KG, 92_500},
		{"405lb", planner.KG, planner.Pounds(405)}, {"405", planner.LB, planner.Pounds(405)}, {"225#", planner.KG, 102_058},
		{" 100 Kilos ", planner.LB, 100_000}, {"0.5", planner.KG, 500}, {"700", planner.KG, 700_000}, {"102.058", planner.KG, 102_058},
	} {
		if got, err := Weight(c.text, c.unit); err != nil || got != c.want {
			t.Errorf("%q in %s: %d, %v; want %d", c.text, c.unit, got, err, c.want)
		}
	}
}

// A refused number is named with the allowed range.
func TestWeightRefused(t *testing.T) {
	for text, words := range map[string][]string{
		"5000": {"5000 kg", "0.5 kg", "700 kg"}, "-5": {"-5 kg", "700 kg"}, "−5": {"-5 kg"}, "0": {"0 kg"}, "701": {"701 kg"},
		"1e3": {"not a weight"}, "1,000": {"not a weight"}, "": {"not a weight"}, "ten": {"not a weight"}, "140 stone": {"stone", "unit"},
		"@everyone": {"＠everyone"}, "NaN": {"not a weight"}, "Inf": {"not a weight"}, "1600lb": {"1600 lb"},
		"9999999999": {"not a weight"}, "140 140": {"not a weight"},
	} {
		_, err := Weight(text, planner.KG)
		got := sentence(t, err)
		for _, w := range words {
			if !strings.Contains(got, w) {
				t.Errorf("%q: %q does not say %q", text, got, w)
			}
		}
		if strings.Contains(got, "@everyone") {
			t.Errorf("%q is echoed raw", text)
		}
	}
}

func TestWeightRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]planner.Unit{planner.KG, planner.LB}).Draw(t, "unit")
		g := planner.Grams(rapid.Int64Range(1000, 690_000).Draw(t, "grams"))
		back, err := Weight(g.Text(unit), unit)
		if err != nil || back.Text(unit) != g.Text(unit) {
			t.Fatalf("%d g printed %q and came back as %d, %v", g, g.Text(unit), back, err)
		}
	})
}

// monday is the day the date tests stand on.
var monday = planner.NewDate(2027, time.March, 1)

func TestDate(t *testing.T) {
	for text, want := range map[string]string{
		"2027-06-12": "2027-06-12", "2027-6-2": "2027-06-02", "2027/06/12": "2027-06-12", "12 June 2027": "2027-06-12",
		"12 june": "2027-06-12", "June 12": "2027-06-12", "Jun 12, 2027": "2027-06-12", "12th of June": "2027-06-12",
		"12.6.2027": "2027-06-12", "12.06.27": "2027-06-12", "12. 6. 2027": "2027-06-12", "12.6.": "2027-06-12",
		"25/06/2027": "2027-06-25", "06/25/2027": "2027-06-25", "06/06/2027": "2027-06-06", "Sat 12 June 2027": "2027-06-12",
		"today": "2027-03-01", "tomorrow": "2027-03-02", "yesterday": "2027-02-28", "in 3 weeks": "2027-03-22",
		"in a week": "2027-03-08", "in 10 days": "2027-03-11", "in 2 months": "2027-05-01", "3 days ago": "2027-02-26",
		"two weeks from now": "2027-03-15", "saturday": "2027-03-06", "Sat": "2027-03-06", "next saturday": "2027-03-06",
		"monday": "2027-03-01", "next monday": "2027-03-08", "last monday": "2027-02-22", "next tues": "2027-03-02",
		"on saturday": "2027-03-06", "1 feb": "2028-02-01", "1 march": "2027-03-01", "29 february": "2028-02-29",
		"31 december": "2027-12-31", "1 Sept": "2027-09-01", "2028-02-29": "2028-02-29", "14 may 1990": "1990-05-14",
		"12 June '27": "2027-06-12", "next week": "2027-03-08",
	} {
		if got, err := Date(text, monday); err != nil || got.String() != want {
			t.Errorf("%q: %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestPastDate(t *testing.T) {
	for text, want := range map[string]string{
		"monday": "2027-03-01", "saturday": "2027-02-27", "1 feb": "2027-02-01", "31 december": "2026-12-31", "29 feb": "2024-02-29",
		"yesterday": "2027-02-28", "2027-01-02": "2027-01-02",
	} {
		if got, err := PastDate(text, monday); err != nil || got.String() != want {
			t.Errorf("%q: %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestDateRefused(t *testing.T) {
	for text, words := range map[string]string{
		"2027-02-30": "last day of that month is 28 February", "31 June": "last day of that month is 30 June",
		"30 feb 2028": "29 February", "29 February 2027": "28 February", "12/06/2027": "two different days", "1/2": "2027-06-12",
		"2027-13-01": "no month 13", "0.6.2027": "no 0 June", "someday": "not a date", "": "not a date", "may": "not a date",
		"12": "not a date", "9999-01-01": "year 9999", "0001-01-01": "year 1", "in 100000 weeks": "not a date",
		"sun 12 June 2027": "is a Saturday", "12 June 2027 at 8": "not a date", "@everyone": "＠everyone",
		"friday the 13th": "not a date",
	} {
		d, err := Date(text, monday)
		if err == nil {
			t.Errorf("%q was read as %s", text, d)
			continue
		}
		if got := sentence(t, err); !strings.Contains(got, words) {
			t.Errorf("%q: %q does not say %q", text, got, words)
		}
	}
}

func TestDateReadsWhatThePlannerWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := planner.NewDate(1950, time.January, 1).AddDays(rapid.IntRange(0, 80_000).Draw(t, "days"))
		for _, text := range []string{d.String(), d.Long()} {
			if back, err := Date(text, monday); err != nil || back != d {
				t.Fatalf("%q came back as %s, %v", text, back, err)
			}
		}
	})
}

func TestClock(t *testing.T) {
	for text, want := range map[string][2]int{
		"08:00": {8, 0}, "8": {8, 0}, "8am": {8, 0}, "8:30 pm": {20, 30}, "12am": {0, 0}, "12 pm": {12, 0}, "20.30": {20, 30},
		"23:59": {23, 59}, "0:00": {0, 0}, "noon": {12, 0}, "Midnight": {0, 0},
	} {
		h, m, err := Clock(text)
		if err != nil || h != want[0] || m != want[1] {
			t.Errorf("%q: %d:%d, %v", text, h, m, err)
		}
	}
	for _, text := range []string{"24:00", "8:60", "13pm", "0am", "eight", "", "8:5", "-1", "@everyone"} {
		h, m, err := Clock(text)
		if err == nil {
			t.Errorf("%q was read as %d:%d", text, h, m)
			continue
		}
		sentence(t, err)
	}
}

func TestChoice(t *testing.T) {
	levels := []string{"new", "novice", "intermediate", "advanced", "elite"}
	if got, err := Choice("level", " Novice ", levels); err != nil || got != "novice" {
		t.Errorf("%q, %v", got, err)
	}
	_, err := Choice("level", "intermidiate", levels)
	if got := sentence(t, err); !strings.Contains(got, "Did you mean intermediate?") {
		t.Errorf("no near miss: %q", got)
	}
	_, err = Choice("level", "purple", levels)
	if got := sentence(t, err); strings.Contains(got, "Did you mean") || !strings.Contains(got, "elite") {
		t.Errorf("unlike words: %q", got)
	}
}

// Slips and abbreviations, from practice.
func TestNear(t *testing.T) {
	kinds := []string{"hypertrophy", "strength", "peaking", "recovery"}
	lifts := []string{"squat", "bench", "deadlift"}
	for word, c := range map[string]struct {
		among []string
		want  string
	}{
		"hypertropy": {kinds, "hypertrophy"}, "strenght": {kinds, "strength"}, "peakign": {kinds, "peaking"}, "hyp": {kinds, "hypertrophy"},
		"recov": {kinds, "recovery"}, "squta": {lifts, "squat"}, "deadlfit": {lifts, "deadlift"}, "dl": {lifts, "deadlift"},
		"bp": {lifts, "bench"}, "BENCH": {lifts, "bench"}, "female": {[]string{"women", "men"}, "women"},
		"xyzzy": {lifts, ""}, "": {lifts, ""}, "q": {lifts, ""},
	} {
		if got, ok := Near(word, c.among); got != c.want && (ok || c.want != "") {
			t.Errorf("%q: %q, %v; want %q", word, got, ok, c.want)
		}
	}
	if _, ok := Near(strings.Repeat("a", 100_000), lifts); ok {
		t.Error("a very long word is near to nothing")
	}
}

func TestBool(t *testing.T) {
	for text, want := range map[string]bool{"yes": true, "ON": true, "n": false, "off": false} {
		if got, err := Bool(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if _, err := Bool("maybe"); sentence(t, err) == "" {
		t.Error("maybe is no answer")
	}
}

func TestLift(t *testing.T) {
	for text, want := range map[string]struct {
		lift    planner.Lift
		variant planner.Variant
	}{
		"Squat": {planner.Squat, ""}, "back squats": {planner.Squat, ""}, "front squat": {planner.Squat, Front}, "paused squat": {planner.Squat, Paused},
		"bp": {planner.Bench, ""}, "bench press": {planner.Bench, ""}, "benchpress": {planner.Bench, ""}, "paused bench": {planner.Bench, ""},
		"close-grip bench": {planner.Bench, CloseGrip}, "bench close grip": {planner.Bench, CloseGrip}, "2ct bench": {planner.Bench, LongPause},
		"2 ct pause bench": {planner.Bench, LongPause}, "1 ct bench": {planner.Bench, ""}, "comp bench": {planner.Bench, ""},
		"touch and go bench": {planner.Bench, TouchAndGo}, "tng bench": {planner.Bench, TouchAndGo}, "long pause bench press": {planner.Bench, LongPause},
		"deads": {planner.Deadlift, ""}, "pulls": {planner.Deadlift, ""}, "deficit deadlift": {planner.Deadlift, Deficit}, "sumo deadlift": {planner.Deadlift, Sumo},
		"conventional deadlift": {planner.Deadlift, ""}, "OHP": {"overhead press", ""}, "pull-ups": {"pull-up", ""}, "pullups": {"pull-up", ""},
		"rows": {"row", ""}, "dips": {"dip", ""}, "tempo squat": {planner.Squat, Tempo}, "pin press": {planner.Bench, Pin}, "RDLs": {"romanian deadlift", ""},
	} {
		lift, variant, ok := Lift(text)
		if !ok || lift != want.lift || variant != want.variant {
			t.Errorf("%q: %q %q %v; want %+v", text, lift, variant, ok, want)
		}
	}
	for _, text := range []string{"", "juggling", "close grip squat", "squat squat", "squat 140", "pause", strings.Repeat("squat ", 1000)} {
		if lift, variant, ok := Lift(text); ok {
			t.Errorf("%q was read as %q %q", text, lift, variant)
		}
	}
	if len(LiftNames()) < 20 || LiftNames()[0] != "squat" {
		t.Errorf("names: %v", LiftNames())
	}
}

func TestStoredLiftNamesAreUnderstood(t *testing.T) {
	for _, name := range LiftNames() {
		if lift, variant, ok := Lift(name); !ok || string(lift) != name || variant != "" {
			t.Errorf("%q: %q %q %v", name, lift, variant, ok)
		}
	}
	for _, f := range englishForms {
		for lift, variant := range f.lifts {
			text := strings.TrimSpace(string(variant) + " " + string(lift))
			got, v, ok := Lift(text)
			if !ok || got != lift || v != (Standard{}).Variant(variant) {
				t.Errorf("%q: %q %q %v", text, got, v, ok)
			}
		}
	}
}

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"squat":                  "squat",
		"@everyone look":         "＠everyone look",
		"<@&123> hi":             "‹＠&123› hi",
		"a\nb\x00c\u202ed":       "a b c d",
		"```code```":             "'''code'''",
		"[x](https://x.example)": "(x)(https: x.example)",
		strings.Repeat("é", 41):  strings.Repeat("é", 39) + "…",
		strings.Repeat("é", 40):  strings.Repeat("é", 40),
		"  two   blanks ":        "two blanks",
	} {
		if got := Clean(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestCleanIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text") + rapid.SampledFrom([]string{"", "@everyone", "@here", "<@1>", "`"}).Draw(t, "danger")
		got := Clean(text)
		if strings.ContainsAny(got, "@<>`*\n\r|") || utf8.RuneCountInString(got) > MaxQuote {
			t.Fatalf("%q -> %q", text, got)
		}
	})
}
