package terminal

import (
	"strings"
	"testing"
	"time"
)

func TestLineIsUnderstood(t *testing.T) {
	at := time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)
	cases := map[string]line{
		"":                                   {},
		"   ":                                {},
		"# a comment":                        {},
		"#":                                  {},
		"####":                               {},
		"clock 2027-01-04T08:00:00Z":         {verb: clockTo, at: at},
		"clock 2027-01-04T09:00:00+01:00":    {verb: clockTo, at: at},
		"CLOCK 2027-01-04t08:00:00z":         {verb: clockTo, at: at},
		"clock +14d":                         {verb: clockOn, by: 14 * 24 * time.Hour},
		"clock +2w":                          {verb: clockOn, by: 14 * 24 * time.Hour},
		"clock +3h":                          {verb: clockOn, by: 3 * time.Hour},
		"clock +90M":                         {verb: clockOn, by: 90 * time.Minute},
		"clock +1d12h":                       {verb: clockOn, by: 36 * time.Hour},
		"@ana squat 140x5 @8":                {verb: say, channel: "#training-log", person: "ana", text: "squat 140x5 @8"},
		"  @Ana:  hello ":                    {verb: say, channel: "#training-log", person: "Ana", text: "hello"},
		"@ana squat\n140x5":                  {verb: say, channel: "#training-log", person: "ana", text: "squat\n140x5"},
		"@ana\nsquat\n140x5":                 {verb: say, channel: "#training-log", person: "ana", text: "squat\n140x5"},
		"@łukasz-b.2 /block":                 {verb: say, channel: "#training-log", person: "łukasz-b.2", text: "/block"},
		"#Announcements @cap /club announce": {verb: say, channel: "#announcements", person: "cap", text: "/club announce"},
		`press @ana "Accept plan"`:           {verb: press, person: "ana", text: "Accept plan"},
		"press @ana “Accept plan”":           {verb: press, person: "ana", text: "Accept plan"},
		"press @ana „Accept plan“":           {verb: press, person: "ana", text: "Accept plan"},
		"press @ana 'Accept plan'":           {verb: press, person: "ana", text: "Accept plan"},
		"press @ana Accept plan":             {verb: press, person: "ana", text: "Accept plan"},
		"edit @ana squat 142.5x5":            {verb: edit, channel: "#training-log", person: "ana", text: "squat 142.5x5"},
		"delete #lifting @ana":               {verb: remove, channel: "#lifting", person: "ana"},
	}
	for raw, want := range cases {
		got, err := parseLine(raw)
		if err != nil || got != want {
			t.Errorf("parseLine(%q) = %+v, %v; want %+v", raw, got, err, want)
		}
	}
}

func TestLineIsRefusedInWords(t *testing.T) {
	cases := map[string]string{ // line -> what the sentence must name
		"sho":                                    `"sho"`,
		"clock":                                  "moment",
		"clock tomorrow":                         `"tomorrow"`,
		"clock 2027-02-30T08:00:00Z":             "2027-02-30",
		"clock -3d":                              `"-3d"`,
		"clock +":                                `"+"`,
		"clock +14":                              `"+14"`,
		"clock +d":                               `"+d"`,
		"clock +0d":                              `"+0d"`,
		"clock +3y":                              `"+3y"`,
		"clock +9999999w":                        `"+9999999w"`,
		"clock +9999w9999w":                      `"+9999w9999w"`,
		"@ana":                                   "@ana",
		"@ hello":                                `"@"`,
		"@-ana hello":                            `"@-ana"`,
		"@" + strings.Repeat("a", 33) + " hello": "at most 32",
		"#todo buy chalk":                        `"#todo"`,
		"#todo":                                  `"#todo"`,
		"#announcements @cap":                    "@cap",
		"press":                                  "person",
		"press @ana":                             "which button",
		`press @ana ""`:                          "which button",
		`press @ana "Accept plan`:                "does not close",
		"press @ana “Accept plan\"":              "does not close",
		"edit @ana":                              "@ana",
		"delete @ana now":                        "@ana",
	}
	for raw, names := range cases {
		got, err := parseLine(raw)
		if err == nil {
			t.Errorf("parseLine(%q) = %+v, want an error", raw, got)
		} else if !strings.Contains(err.Error(), names) {
			t.Errorf("parseLine(%q): %q does not name %s", raw, err, names)
		}
	}
}

// FuzzLine: no line panics, and what is understood is complete.
func FuzzLine(f *testing.F) {
	for _, seed := range []string{"# c", "clock +1d12h", "clock 2027-01-04T08:00:00Z", "@ana squat 140x5", "#log @ana hi", `press @ana "x"`, "press @ana „x“", "edit @a b", "delete @a", "@\xff x", "press @a \""} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, raw string) {
		l, err := parseLine(raw)
		if err != nil {
			if err.Error() == "" {
				t.Errorf("%q is refused without a word", raw)
			}
			return
		}
		switch l.verb {
		case clockOn:
			if l.by <= 0 || l.by > longestStep {
				t.Errorf("%q moves the clock by %s", raw, l.by)
			}
		case say, edit, press:
			if l.person == "" || l.text == "" {
				t.Errorf("%q gives %+v", raw, l)
			}
		case remove:
			if l.person == "" || l.channel == "" {
				t.Errorf("%q gives %+v", raw, l)
			}
		}
	})
}
