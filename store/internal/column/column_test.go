package column

import (
	"database/sql"
	"database/sql/driver"
	"testing"
	"time"

	"blockbell/planner"
)

var (
	_ driver.Valuer = Day(0)
	_ driver.Valuer = Instant{}
	_ driver.Valuer = JSON(nil)
	_ driver.Valuer = Lifter(0)
	_ driver.Valuer = Meet(0)
	_ driver.Valuer = Text("")
)

func TestValuesGoOutAndComeBack(t *testing.T) {
	at := time.Date(2027, 3, 2, 19, 30, 0, 123456789, time.FixedZone("", 3600))
	for _, c := range []struct {
		name string
		in   driver.Valuer
		want driver.Value
		out  sql.Scanner
	}{
		{"day", Day(planner.NewDate(2028, 2, 29)), "2028-02-29", new(Day)},
		{"no day", Day(0), nil, new(Day)},
		{"instant", At(at), at.UnixMilli(), new(Instant)},
		{"before 1970", At(time.UnixMilli(-1)), int64(-1), new(Instant)},
		{"no instant", Instant{}, nil, new(Instant)},
		{"JSON", JSON(`{"a":1}`), `{"a":1}`, new(JSON)},
		{"no JSON", JSON(nil), "null", new(JSON)},
		{"lifter", Lifter(7), int64(7), new(Lifter)},
		{"no lifter", Lifter(0), nil, new(Lifter)},
		{"meet", Meet(7), int64(7), new(Meet)},
		{"no meet", Meet(0), nil, new(Meet)},
		{"text", Text("x"), "x", new(Text)},
		{"no text", Text(""), nil, new(Text)},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.in.Value()
			if err != nil || got != c.want {
				t.Fatalf("written as %v (%T), %v; want %v", got, got, err, c.want)
			}
			if err := c.out.Scan(got); err != nil {
				t.Fatal(err)
			}
			again, err := c.out.(driver.Valuer).Value()
			if err != nil || again != c.want {
				t.Errorf("came back as %v, %v; want %v", again, err, c.want)
			}
		})
	}
}

func TestScanRefusesWhatItDoesNotKnow(t *testing.T) {
	for name, c := range map[string]struct {
		to   sql.Scanner
		from driver.Value
	}{
		"day from a number":   {new(Day), int64(1)},
		"day that is none":    {new(Day), "2027-02-30"},
		"instant from text":   {new(Instant), "2027-03-02"},
		"instant from a real": {new(Instant), 1.5},
		"JSON from a number":  {new(JSON), int64(1)},
		"JSON from nothing":   {new(JSON), nil},
		"lifter from text":    {new(Lifter), "1"},
		"meet from text":      {new(Meet), "1"},
		"text from a number":  {new(Text), int64(1)},
	} {
		if err := c.to.Scan(c.from); err == nil {
			t.Errorf("%s was taken as %v", name, c.to)
		}
	}
}

func TestInstantIsUTC(t *testing.T) {
	var i Instant
	if err := i.Scan(int64(1798963200123)); err != nil {
		t.Fatal(err)
	}
	if got := i.Format(time.RFC3339Nano); got != "2027-01-03T08:00:00.123Z" {
		t.Errorf("got %s", got)
	}
}
