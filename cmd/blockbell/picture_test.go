package main

import (
	"bytes"
	"fmt"
	"html"
	"os"
	"regexp"
	"strings"
	"testing"
)

const (
	pictureScript = "../../testdata/picture/conversation.txt"
	picturePath   = "../../testdata/picture/conversation.svg"
)

// TestPictureShowsARealConversation keeps the README's picture equal to what the
// bot really says to the script beside it; -update draws it anew.
func TestPictureShowsARealConversation(t *testing.T) {
	var out, errs bytes.Buffer
	if status := (program{}).Run(t.Context(), []string{"rehearse", pictureScript}, strings.NewReader(""), &out, &errs); status != statusOK {
		t.Fatalf("status %d: %s%s", status, out.String(), errs.String())
	}
	want := drawConversation(out.String())
	if *update {
		if err := os.WriteFile(picturePath, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(picturePath)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("the picture is not what the bot says; run go test ./cmd/blockbell -run Picture -update and look at it")
	}
}

// columns are the blanks between a field's name and its value.
var columns = regexp.MustCompile(` {2,}`)

// bubble is one turn of a conversation.
type bubble struct {
	who   string // empty: a moment in time
	lines []string
}

// Measures of the picture in pixels, and the width of a line in characters.
const (
	pictureWidth = 760
	lineHeight   = 19
	padding      = 10
	wrapAt       = 84
)

// drawConversation draws a transcript as bubbles, people to the right, the bot to
// the left, on a ground of its own so that it reads on light and dark pages.
func drawConversation(transcript string) string {
	var body strings.Builder
	y := 16
	for _, b := range bubbles(transcript) {
		y = b.draw(&body, y)
	}
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d" role="img" aria-label="A conversation with the bot">
<rect width="100%%" height="100%%" rx="8" fill="#f4f1ea"/>
<g font-family="Verdana, DejaVu Sans, sans-serif" font-size="13" fill="#222">
%s</g>
</svg>
`, pictureWidth, y, pictureWidth, y, body.String())
}

// bubbles cuts a transcript into turns.
func bubbles(transcript string) []bubble {
	var out []bubble
	for line := range strings.Lines(transcript) {
		line = strings.TrimRight(line, "\n")
		switch {
		case line == "":
		case strings.HasPrefix(line, "    "):
			text := strings.TrimSpace(line)
			text = strings.TrimPrefix(text, "(only @ana sees this) ")
			text = columns.ReplaceAllString(text, " · ")
			text = strings.ReplaceAll(text, "✅", "✓") // a sign that every font has
			if last := len(out) - 1; last >= 0 && out[last].who == "Blockbell" {
				out[last].lines = append(out[last].lines, wrap(text)...)
			} else {
				out = append(out, bubble{"Blockbell", wrap(text)})
			}
		case strings.HasPrefix(line, "@"):
			out = append(out, bubble{"Ana", wrap(strings.TrimPrefix(strings.Replace(line, "@ana presses", "presses", 1), "@ana: "))})
		default:
			out = append(out, bubble{"", []string{line}})
		}
	}
	return out
}

// wrap breaks a line at blanks.
func wrap(text string) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+len([]rune(word)) >= wrapAt {
			out = append(out, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(out, line)
}

// draw writes the bubble at y and returns where the next one begins.
func (b bubble) draw(to *strings.Builder, y int) int {
	if b.who == "" {
		fmt.Fprintf(to, `<text x="%d" y="%d" text-anchor="middle" font-size="11" fill="#666">%s</text>`+"\n", pictureWidth/2, y+12, html.EscapeString(b.lines[0]))
		return y + 26
	}
	longest := 0
	for _, l := range b.lines {
		longest = max(longest, len([]rune(l)))
	}
	width := min(max(longest*77/10+2*padding, 110), pictureWidth-40)
	height := (len(b.lines)+1)*lineHeight + padding
	x, fill := 16, "#ffffff"
	if b.who == "Ana" {
		x, fill = pictureWidth-16-width, "#d9e8d5"
	}
	fmt.Fprintf(to, `<rect x="%d" y="%d" width="%d" height="%d" rx="8" fill="%s"/>`+"\n", x, y, width, height, fill)
	fmt.Fprintf(to, `<text x="%d" y="%d" font-size="11" fill="#666">%s</text>`+"\n", x+padding, y+16, b.who)
	for i, l := range b.lines {
		fmt.Fprintf(to, `<text x="%d" y="%d">%s</text>`+"\n", x+padding, y+16+(i+1)*lineHeight, html.EscapeString(l))
	}
	return y + height + 10
}
