package parse_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blockbell/bot/parse"
)

func TestSeveralPeopleInOneMessage(t *testing.T) {
	for _, c := range []struct {
		text string
		want []parse.Part
	}{
		{"@ana squat 140x5, @ben 160x5", []parse.Part{{"ana", "", "squat 140x5", 1, 6}, {"ben", "", "160x5", 1, 24}}},
		{"@ana: squat 140x5 @8\n@ben 160x5 @ 8", []parse.Part{{"ana", "", "squat 140x5 @8", 1, 7}, {"ben", "", "160x5 @ 8", 2, 6}}},
		{"<@123456789012345678> squat 140x5; <@!223456789012345678>\n160x5", []parse.Part{{"123456789012345678", "", "squat 140x5", 1, 23}, {"223456789012345678", "", "\n160x5", 1, 58}}},
		{"@ana squat 140x5 @hard", []parse.Part{{"ana", "", "squat 140x5 @hard", 1, 6}}},
		{"@ana squat 5x5 @ 100, 5x5 @rpe8, @ben 5x3", []parse.Part{{"ana", "", "squat 5x5 @ 100, 5x5 @rpe8", 1, 6}, {"ben", "", "5x3", 1, 39}}},
		{"squat: @ana 140x5 @8, @ben 160x5", []parse.Part{{"ana", "squat", "140x5 @8", 1, 13}, {"ben", "squat", "160x5", 1, 28}}},
		{"Squats today:\n@ana 140x5\n@ben 160x5", []parse.Part{{"ana", "Squats", "140x5", 2, 6}, {"ben", "Squats", "160x5", 3, 6}}},
		{"bench - @ana 60x5 @ben 100x5", []parse.Part{{"ana", "bench", "60x5", 1, 14}, {"ben", "bench", "100x5", 1, 24}}},
		{"@ana and @ben: squat 100x5", []parse.Part{{"ana", "", "squat 100x5", 1, 16}, {"ben", "", "squat 100x5", 1, 16}}},
		{"@ana @ben squat 100x5", []parse.Part{{"ana", "", "squat 100x5", 1, 11}, {"ben", "", "squat 100x5", 1, 11}}},
		{"@ana squat 140x5 and @ben 160x5", []parse.Part{{"ana", "", "squat 140x5", 1, 6}, {"ben", "", "160x5", 1, 27}}},
		{"deadlift 200x1 thanks @ben", nil},
		{"squat 140x5 @8", nil},
		{"@8 squat 140x5", nil},
		{"squat 140x5, @ben well done", nil},
		{"<@8> squat 140x5", nil},
		{"", nil},
	} {
		got, ok := parse.Several(c.text)
		if diff := cmp.Diff(c.want, got); diff != "" || ok != (c.want != nil) {
			t.Errorf("%q: %v (-want +got)\n%s", c.text, ok, diff)
		}
	}
}

// What is split stands in the message at its place, whatever the message is.
func FuzzSeveral(f *testing.F) {
	f.Add("@ana squat 140x5, @ben 160x5")
	f.Add("<@123456789012345678>\u00a0140x5;\n@ana")
	f.Fuzz(func(t *testing.T, text string) {
		parts, ok := parse.Several(text)
		if ok != (len(parts) > 0) {
			t.Fatalf("%v with %d parts", ok, len(parts))
		}
		for _, p := range parts {
			lines := strings.Split(text, "\n")
			if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > len([]rune(lines[p.Line-1]))+1 || p.Who == "" {
				t.Fatalf("%q: %+v", text, p)
			}
			if !strings.Contains(text, p.Text) {
				t.Fatalf("%q is not part of the message", p.Text)
			}
		}
	})
}
