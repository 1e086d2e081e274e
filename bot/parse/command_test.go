package parse

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestCommand(t *testing.T) {
	for text, want := range map[string]struct {
		words   []string
		options []Option
	}{
		`/meet add name:"River Open" date:2027-06-12 kind:main`: {[]string{"meet", "add"},
			[]Option{{"name", "River Open", 11}, {"date", "2027-06-12", 29}, {"kind", "main", 45}}},
		`show`:    {[]string{"show"}, nil},
		`/ Show`:  {[]string{"show"}, nil},
		`  /me  `: {[]string{"me"}, nil},
		``:        {nil, nil},
		`/`:       {nil, nil},
		`/me set category:women name:“River Open”`: {[]string{"me", "set"},
			[]Option{{"category", "women", 9}, {"name", "River Open", 24}}},
		`/meet add name:„Fluss Cup“`:            {[]string{"meet", "add"}, []Option{{"name", "Fluss Cup", 11}}},
		`/meet add name:«Rio Cup»`:              {[]string{"meet", "add"}, []Option{{"name", "Rio Cup", 11}}},
		`/meet add name:"The \"Big\" One"`:      {[]string{"meet", "add"}, []Option{{"name", `The "Big" One`, 11}}},
		`/meet add name:'til dawn date:today`:   {[]string{"meet", "add"}, []Option{{"name", "'til dawn", 11}, {"date", "today", 26}}},
		`/meet add name:'O'Hara Cup' kind:main`: {[]string{"meet", "add"}, []Option{{"name", "O'Hara Cup", 11}, {"kind", "main", 29}}},
		`/meet add name:River Open date: 12 June 2027`: {[]string{"meet", "add"},
			[]Option{{"name", "River Open", 11}, {"date", "12 June 2027", 27}}},
		`/club set hour:08:30 Zone:Europe/Lisbon`: {[]string{"club", "set"}, []Option{{"hour", "08:30", 11}, {"zone", "Europe/Lisbon", 22}}},
		`/club announce "Doors: 9"`:               {[]string{"club", "announce", "Doors: 9"}, nil},
		`/block:`:                                 {[]string{"block"}, nil},
		`/block: show`:                            {[]string{"block", "show"}, nil},
		"/me set\tunit:lb\r\n":                    {[]string{"me", "set"}, []Option{{"unit", "lb", 9}}},
		`/club set link:https://x.example/a:b`:    {[]string{"club", "set"}, []Option{{"link", "https://x.example/a:b", 11}}},
		`/meet add name: "River Open"`:            {[]string{"meet", "add"}, []Option{{"name", "River Open", 11}}},
		"/club announce text:\"Gym closed.\n\nSee you\r\nsoon: 9\" to:all": {[]string{"club", "announce"},
			[]Option{{"text", "Gym closed.\n\nSee you\nsoon: 9", 16}, {"to", "all", 53}}},
		"/me\u00a0set unit:lb": {[]string{"me", "set"}, []Option{{"unit", "lb", 9}}},
	} {
		words, options, err := Command(text)
		if err != nil || !reflect.DeepEqual(words, want.words) || !reflect.DeepEqual(options, want.options) {
			t.Errorf("%s\n got %q %+v %v\nwant %q %+v", text, words, options, err, want.words, want.options)
		}
	}
}

func TestCommandRefused(t *testing.T) {
	for text, want := range map[string]struct {
		column int
		words  string
	}{
		`/meet add name:"River Open`:             {16, "never closed"},
		`/meet add name:“River`:                  {16, "never closed"},
		`/meet add "River`:                       {11, "never closed"},
		`/meet add name:a name:b`:                {18, "twice"},
		`/meet add name:a NAME:b`:                {18, "twice"},
		`/meet add name:"a"b`:                    {19, "closing quote"},
		`/meet add name:"a" b`:                   {20, "belongs to no option"},
		`/meet add name:a "b"`:                   {18, "one pair of quotes"},
		"/meet add\x00":                          {10, "invisible"},
		"/meet\nadd":                             {6, "write it on one line"},
		"/meet add name:River\r\nOpen":           {22, "write it on one line"},
		"/meet add name:\u2028River":             {16, "write it on one line"},
		`/me set class: level:elite`:             {9, "class: has no value"},
		`/meet add name:"" kind:main`:            {11, "name: has no value"},
		`/meet add date:`:                        {11, "date: has no value"},
		"/meet add name:\u202eevil":              {16, "invisible"},
		"/me \xff":                               {1, "broken"},
		"/me " + strings.Repeat("a", MaxCommand): {MaxCommand + 1, "at most 2000"},
	} {
		_, _, err := Command(text)
		var e *MisplacedError
		if !errors.As(err, &e) {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if e.Column != want.column || !strings.Contains(sentence(t, err), want.words) || !strings.Contains(err.Error(), "column") {
			t.Errorf("%q: column %d, %q", text, e.Column, sentence(t, err))
		}
	}
}

func FuzzCommand(f *testing.F) {
	for _, s := range []string{`/meet add name:"River Open" date: 12 June`, `a:"\"`, `x:'y`, `“a`, `a: b:c "d"`, "/\u00a0", `a:«»`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words, options, err := Command(text)
		if err != nil {
			var e *MisplacedError
			if !errors.As(err, &e) || e.Column < 1 || e.Column > utf8.RuneCountInString(text)+1 {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		seen := map[string]bool{}
		for _, o := range options {
			if seen[o.Name] || o.Name != strings.ToLower(o.Name) || o.Column < 1 || o.Column > utf8.RuneCountInString(text) {
				t.Fatalf("%q: %+v", text, o)
			}
			seen[o.Name] = true
		}
		if len(words)+len(options) > utf8.RuneCountInString(text) {
			t.Fatalf("%q: %q %+v", text, words, options)
		}
	})
}

func FuzzDate(f *testing.F) {
	for _, s := range []string{"2027-06-12", "12 June", "in 3 weeks", "next saturday", "12/06/2027", "31 June", "Sat 12 June 2027", "12.6."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func() (int, error){
			func() (int, error) { d, err := Date(text, monday); y, _, _ := d.Civil(); return y, err },
			func() (int, error) { d, err := PastDate(text, monday); y, _, _ := d.Civil(); return y, err },
		} {
			year, err := read()
			if err != nil {
				sentence(t, err)
			} else if year < firstYear || year > lastYear {
				t.Fatalf("%q: year %d", text, year)
			}
		}
	})
}

func BenchmarkCommand(b *testing.B) {
	for b.Loop() {
		if _, _, err := Command(`/meet add name:"River Open" date:2027-06-12 kind:main`); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDate(b *testing.B) {
	for b.Loop() {
		if _, err := Date("12 June 2027", monday); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNear(b *testing.B) {
	names := LiftNames()
	for b.Loop() {
		Near("deadlfit", names)
	}
}
