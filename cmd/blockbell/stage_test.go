package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

// heard is one thing that the bot did, without the dress of the stage it did it on.
// What is dress, and not compared: embeds against plain text, marks that keep the
// platform from reading markup, how a moment is told,
// the number of a file whose name is taken, the key in the footer of a post, mentions and
// numbers of people, and the way a private answer goes (to the person directly
// where a message was answered, for that person's eyes in the channel otherwise).
// A reply and an error look alike on the platform, and a mark is never private
// there: it stands under words that its author said to all. To a press made twice
// the terminal says "already done" by itself, where the bot says it on the platform.
type heard struct {
	Kind    string // answer, edit, mark, post
	At      string // RFC 3339
	To      string // "@name" or "#channel"
	Private bool
	Title   string
	Text    string
	Fields  []chat.Field
	Buttons []string // those that can be pressed
	Files   []string
	Moments []string `json:"-"` // in the text, as this stage shows them
}

// scene is one line of a script and what the bot did about it.
type scene struct {
	line  string
	heard []heard
}

// sorted puts answers before what was said unasked: on the platform the two go
// different ways, and which is first is chance.
func sorted(all []heard) []heard {
	rank := func(h heard) int { return strings.Count(h.Kind, "post") }
	slices.SortStableFunc(all, func(a, b heard) int {
		if c := cmp.Compare(rank(a), rank(b)); c != 0 || rank(a) == 0 {
			return c
		}
		// Several people are told at one instant in the order of their handles, which
		// are numbers on the platform.
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.To, b.To))
	})
	return all
}

// readScript returns the lines of a script that do something, lines that go on in
// the next joined by line breaks.
func readScript(text string) []string {
	var all []string
	text = strings.ReplaceAll(text, "\\\n", "\x00")
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line == "#" || strings.HasPrefix(line, "# ") {
			continue
		}
		all = append(all, strings.ReplaceAll(line, "\x00", "\n"))
	}
	return all
}

// prompter gives a program one line at a time and notes, whenever it asks for the
// next, how much it has printed by then.
type prompter struct {
	lines []string
	out   *bytes.Buffer
	given int
	ends  []int
}

// Read gives the next line.
func (p *prompter) Read(into []byte) (int, error) {
	if p.given > 0 && len(p.ends) < len(p.lines) {
		p.ends = append(p.ends, p.out.Len())
	}
	if p.given == len(p.lines) {
		return 0, io.EOF
	}
	line := strings.ReplaceAll(p.lines[p.given], "\n", "\\\n") + "\n"
	if len(line) > len(into) {
		return 0, io.ErrShortBuffer
	}
	p.given++
	return copy(into, line), nil
}

// atTheTerminal plays lines through blockbell rehearse --json.
func atTheTerminal(t *testing.T, db string, lines []string) []scene {
	t.Helper()
	var out, errs bytes.Buffer
	in := &prompter{lines: lines, out: &out}
	if status := testProgram().Run(t.Context(), []string{"rehearse", "--json", "--db", db, "-"}, in, &out, &errs); status != statusOK || errs.Len() > 0 {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	if len(in.ends) != len(lines) {
		t.Fatalf("%d of %d lines were played", len(in.ends), len(lines))
	}
	var all []scene
	from := 0
	for i, end := range in.ends {
		s := scene{line: lines[i]}
		for line := range strings.Lines(out.String()[from:end]) {
			s.heard = append(s.heard, undressedLine(t, line))
		}
		s.heard = sorted(s.heard)
		all = append(all, s)
		from = end
	}
	return all
}

// undressedLine reads one line of --json.
func undressedLine(t *testing.T, line string) heard {
	t.Helper()
	var h struct {
		heard
		Data json.RawMessage
	}
	if err := json.Unmarshal([]byte(line), &h); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	switch h.Kind {
	case "reply", "error":
		h.Kind = "answer"
	case "reaction":
		h.Kind, h.Private = "mark", false
	case "direct":
		h.Kind = "post"
	}
	if h.Text == "already done" {
		h.Text = "Already done."
	}
	h.Moments = toldMoment.FindAllString(h.Text, -1)
	h.Text = toldMoment.ReplaceAllString(h.Text, "(a moment)")
	for i, f := range h.Files {
		h.Files[i] = numbered.ReplaceAllString(filepath.Base(f), "$1")
	}
	return h.heard
}

// numbered finds the number that the terminal gives a file whose name is taken.
var numbered = regexp.MustCompile(`-\d+(\.\w+)$`)

// toldMoment finds a moment as the terminal tells it, in the lifter's zone.
var toldMoment = regexp.MustCompile(`\b[A-Z][a-z]{2} \d{1,2} [A-Z][a-z]+, \d\d:\d\d\b`)

// stamped is a moment as the terminal prints it.
func stamped(at time.Time) string { return at.UTC().Format(time.RFC3339) }
