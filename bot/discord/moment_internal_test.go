package discord

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

func TestMomentsShowInTheReadersZone(t *testing.T) {
	m := chat.Moment(time.Date(2027, 2, 8, 7, 0, 0, 0, time.UTC), "Mon 8 February, 08:00")
	b, _ := dress(chat.Message{
		Title: "From " + m, Text: "• " + m + ": *new* block; I typed <t:1:f> myself",
		Fields: []chat.Field{{Name: m, Value: m}},
	}, "")
	e := (*b.Embeds)[0]
	if want := `• <t:1802070000:f>: \*new\* block; I typed \<t:1:f> myself`; e.Description != want {
		t.Errorf("got  %s\nwant %s", e.Description, want)
	}
	if e.Title != "From Mon 8 February, 08:00" || e.Fields[0].Name != "Mon 8 February, 08:00" || e.Fields[0].Value != "<t:1802070000:f>" {
		t.Errorf("%+v", e)
	}
}

// However a text is cut, no half of a moment and no half of an escape is left.
func TestCutLeavesNoHalfMoment(t *testing.T) {
	text := escape("a " + chat.Moment(time.Unix(1802070000, 0), "x") + ` \ end`)
	for n := 1; n <= length(text); n++ {
		short, _ := cut(text, n)
		rest := strings.TrimSuffix(strings.ReplaceAll(short, "<t:1802070000:f>", ""), "…")
		if strings.ContainsAny(rest, "<>") || strings.Count(rest, `\`)%2 == 1 || length(short) > n {
			t.Errorf("cut to %d: %q", n, short)
		}
	}
}
