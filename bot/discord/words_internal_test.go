package discord

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blockbell/bot/chat"
)

// The platform's markup is described in its help pages on text formatting; which
// characters matter where is from memory of its client.
func TestEscape(t *testing.T) {
	for in, want := range map[string]string{
		"squat 3x5 @8":         "squat 3x5 @8",
		"long_blocks":          "long_blocks",
		"_quiet_":              `\_quiet\_`,
		"a_ b":                 `a\_ b`,
		"3*5*2":                `3\*5\*2`,
		"`code`":               "\\`code\\`",
		"~4 kg":                "~4 kg",
		"~~no~~":               `\~\~no\~\~`,
		"a|b":                  "a|b",
		"||hidden||":           `\|\|hidden\|\|`,
		"<@123> <#1> <t:1:R>":  `\<@123> \<#1> \<t:1:R>`,
		"5 < 6":                "5 < 6",
		"# head":               `\# head`,
		"## head":              `\#\# head`,
		"#training-log":        "#training-log",
		"> quote":              `\> quote`,
		"a > b":                "a > b",
		"-# small":             `\-# small`,
		"- item":               "- item",
		"[words](https://x.y)": `[words\](https://x.y)`,
		`back\slash`:           `back\\slash`,
		"line\n# two":          "line\n\\# two",
		"":                     "",
	} {
		if got := escape(in); got != want {
			t.Errorf("escape(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestEscapeOnlyAddsBackslashes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.StringMatching("[a-z*_~|<>@#`\\]\\[() \n-]{0,60}").Draw(t, "text")
		if got := strings.ReplaceAll(escape(in), `\`, ""); got != in {
			t.Fatalf("escape(%q) changed the words to %q", in, got)
		}
	})
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		in   string
		n    int
		want string
	}{
		{"kilo", 4, "kilo"}, {"kilos", 4, "kil…"}, {"äöüß!", 4, "äöü…"}, {`ab\*c`, 4, `ab…`}, {`a\\bc`, 4, `a\\…`}, {"x", 0, ""},
	} {
		got, was := cut(c.in, c.n)
		if got != c.want || was != (c.in != c.want) {
			t.Errorf("cut(%q, %d) = %q, %v, want %q", c.in, c.n, got, was, c.want)
		}
	}
}

// TestPackedMessagesFit draws messages of any size. Limits: the platform's message
// and embed references.
func TestPackedMessagesFit(t *testing.T) {
	size := rapid.SampledFrom([]int{0, 1, 10, 90, 255, 256, 257, 1024, 1025, 2000, 2001, 4096, 4097, 7000})
	word := rapid.SampledFrom([]string{"x", "*", "ä", "a_ "})
	text := func(t *rapid.T, name string) string {
		return strings.Repeat(word.Draw(t, name+" of"), size.Draw(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		m := chat.Message{Title: text(t, "title"), Text: text(t, "text")}
		for i := range rapid.SampledFrom([]int{0, 1, 3, 25, 26, 60, 300}).Draw(t, "fields") {
			m.Fields = append(m.Fields, chat.Field{Name: fmt.Sprint("f", i), Value: text(t, "value")})
		}
		key := rapid.SampledFrom([]string{"", "#abcdefghijkl"}).Draw(t, "key")
		b, files := dress(m, key)
		sum, n := 0, 0
		if b.Content != nil {
			n = length(*b.Content)
		}
		if b.Embeds != nil {
			for _, e := range *b.Embeds {
				sum += checkEmbed(t, e)
			}
			if len(*b.Embeds) > 10 {
				t.Fatalf("%d embeds", len(*b.Embeds))
			}
		}
		if n > 2000 || sum > 6000 || n+sum == 0 {
			t.Fatalf("content %d, embeds %d characters", n, sum)
		}
		for _, f := range files {
			if f.Name == "whole.txt" && string(f.Bytes) != plainText(m) {
				t.Fatal("the file does not hold the whole text")
			}
		}
	})
}

func checkEmbed(t *rapid.T, e embed) int {
	sum := length(e.Title) + length(e.Description)
	if length(e.Title) > 256 || length(e.Description) > 4096 || len(e.Fields) > 25 {
		t.Fatalf("title %d, description %d, %d fields", length(e.Title), length(e.Description), len(e.Fields))
	}
	for _, f := range e.Fields {
		if n, v := length(f.Name), length(f.Value); n < 1 || n > 256 || v < 1 || v > 1024 {
			t.Fatalf("field %d and %d", n, v)
		}
		sum += length(f.Name) + length(f.Value)
	}
	if e.Footer != nil {
		sum += length(e.Footer.Text)
	}
	if sum == 0 {
		t.Fatal("an embed is empty")
	}
	return sum
}

func TestFilesThatDoNotFitAreLeftOut(t *testing.T) {
	m := chat.Message{Text: "pictures"}
	for i := range 12 {
		m.Files = append(m.Files, chat.File{Name: fmt.Sprint(i), Bytes: []byte("x")})
	}
	m.Files[0].Bytes = make([]byte, 10<<20+1)
	b, files := dress(m, "")
	if len(files) != 10 || files[0].Name != "1" || !strings.Contains(*b.Content, "too large") {
		t.Errorf("%d files, %q", len(files), *b.Content)
	}
}

func TestFilesStayBelowTheSizeOfARequest(t *testing.T) {
	m := chat.Message{Text: "pictures"}
	for range 3 {
		m.Files = append(m.Files, chat.File{Name: "big.png", Bytes: make([]byte, 10<<20)})
	}
	b, files := dress(m, "")
	if len(files) != 2 || !strings.Contains(*b.Content, lostFile) {
		t.Errorf("%d files of 10 MiB, %q; a request may have 25 MiB (the platform's upload reference)", len(files), *b.Content)
	}
}

func TestCustomIDs(t *testing.T) {
	id, ok := customID(idButton, "TOKEN")
	if kind, token := readID(id); !ok || kind != idButton || token != "TOKEN" {
		t.Errorf("%q came back as %q %q", id, kind, token)
	}
	if _, ok := customID(idButton, strings.Repeat("x", 98)); ok {
		t.Error("101 characters passed")
	}
	for _, foreign := range []string{"", "b1", "b1:", "b2:TOKEN", "TOKEN"} {
		if kind, _ := readID(foreign); kind != "" {
			t.Errorf("%q was taken for a %s", foreign, kind)
		}
	}
}

func TestSecretsAreStruckOut(t *testing.T) {
	r := redactor{"my.bot.token"}
	in := `Post "https://discord.com/api/v10/interactions/123/aW50ZXI/callback": Bot my.bot.token; /webhooks/99/abc-DEF/messages/@original`
	got := r.text(in)
	for _, secret := range []string{"my.bot.token", "aW50ZXI", "abc-DEF"} {
		if strings.Contains(got, secret) {
			t.Errorf("%q still holds %q", got, secret)
		}
	}
}
