package chat

import (
	"fmt"
	"reflect"
	"testing"
	"time"
)

func TestMomentsAreTakenApart(t *testing.T) {
	at := time.Date(2027, 2, 8, 7, 0, 0, 0, time.UTC)
	m := Moment(at, "Mon 8 February, 08:00")
	text := "• " + m + ": new block\n• " + Moment(at.Add(time.Hour), "later")
	got := Moments(text, func(s string) string { return "[" + s + "]" },
		func(at time.Time, words string) string { return fmt.Sprintf("{%d %s}", at.Unix(), words) })
	if want := "[• ]{1802070000 Mon 8 February, 08:00}[: new block\n• ]{1802073600 later}[]"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := InWords(text); got != "• Mon 8 February, 08:00: new block\n• later" {
		t.Errorf("in words: %q", got)
	}
	for _, plain := range []string{"", "no moment", "half " + m[:8], "\uE000x\uE001y\uE002", "\uE0009999999999999\uE001y\uE002"} {
		if got := InWords(plain); got != plain {
			t.Errorf("%q became %q", plain, got)
		}
	}
}

func TestMessageInWords(t *testing.T) {
	m := Moment(time.Unix(0, 0), "then")
	in := Message{Title: m, Text: m, Fields: []Field{{Name: m, Value: m}}}
	want := Message{Title: "then", Text: "then", Fields: []Field{{Name: "then", Value: "then"}}}
	if got := in.InWords(); !reflect.DeepEqual(got, want) || in.Fields[0].Name != m {
		t.Errorf("%+v, and the message itself is %+v", got, in)
	}
	if got := (Message{}).InWords(); got.Fields != nil {
		t.Errorf("%+v", got)
	}
}
