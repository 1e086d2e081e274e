package terminal

import (
	"bytes"
	"encoding/json"
	"io"
	"sync"
	"time"

	"blockbell/bot/chat"
)

// Screen prints what the bot does: a transcript for people, or with JSON one
// object a line for programs. Everything is written at once, line by line.
type Screen struct {
	Writer io.Writer
	JSON   bool
	Echo   bool   // transcript: repeat what people say, for input nobody sees
	Dir    string // where files go

	mu     sync.Mutex
	headed time.Time // transcript: the moment of the last heading
	latest time.Time // the latest moment printed, before which nothing more appears
	err    error     // the first failure to write
}

// output is one thing to print: a record with the words that are not kept.
type output struct {
	record   Record
	reaction string
	message  chat.Message
	line     int // errors: the number of the line, 0 when there is none
}

// object is the stable form of an output for programs. Every key is always there,
// but nudge, which belongs to what comes unasked, and line, which belongs to
// errors in a line.
type object struct {
	At      string       `json:"at"`
	Kind    string       `json:"kind"`
	To      string       `json:"to"`
	Private bool         `json:"private"`
	Title   string       `json:"title"`
	Text    string       `json:"text"`
	Fields  []chat.Field `json:"fields"`
	Files   []string     `json:"files"`
	Buttons []string     `json:"buttons"`
	Data    any          `json:"data"`
	Nudge   []string     `json:"nudge,omitempty"`
	Line    int          `json:"line,omitempty"`
}

// Err returns the first failure to write, after which nothing more is printed.
func (s *Screen) Err() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.err
}

// show prints o. The message is stored by then, so a failure to write must not
// undo it: it is kept for Err.
func (s *Screen) show(o output) {
	o.message = o.message.InWords()
	s.print(o.record.At, func(at time.Time) string {
		if !s.JSON {
			return transcript(o)
		}
		o.record.At = at
		return objectLine(o)
	})
}

// heard repeats what a person said.
func (s *Screen) heard(at time.Time, l line) {
	if s.Echo && !s.JSON {
		s.print(at, func(time.Time) string { return speech(l) })
	}
}

// moment prints the time if it changed since it was printed last.
func (s *Screen) moment(at time.Time) {
	if !s.JSON {
		s.print(at, func(time.Time) string { return "" })
	}
}

// print writes what text makes of the moment at which it appears. A post that was
// delayed fell due before what was printed meanwhile; time does not run back.
func (s *Screen) print(at time.Time, text func(time.Time) string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.err != nil {
		return
	}
	if at.Before(s.latest) {
		at = s.latest
	}
	s.latest = at
	words := text(at)
	if !s.JSON && !at.Equal(s.headed) {
		words = heading(at) + words
		s.headed = at
	}
	_, s.err = io.WriteString(s.Writer, words)
}

func objectLine(o output) string {
	m := o.message
	out := object{
		At: stamp(o.record.At), Kind: o.record.Kind, To: o.record.To, Private: o.record.Private,
		Title: m.Title, Text: words(o), Fields: present(m.Fields), Files: present(o.record.Body.Files),
		Buttons: present(labels(o.record.Body.Buttons)), Data: m.Data, Nudge: o.record.Body.Facts, Line: o.line,
	}
	if out.Data == nil {
		out.Data = struct{}{}
	}
	line, err := encode(out)
	if err != nil { // only Data can be at fault; the words still count
		out.Data = struct{}{}
		out.Text += "\n(the data could not be written: " + err.Error() + ")"
		line, _ = encode(out)
	}
	return line
}

// present makes an empty list of a missing one, which JSON tells apart.
func present[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// encode writes one line of JSON and leaves < and > readable.
func encode(o object) (string, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(o)
	return b.String(), err
}

// stamp is the form of a moment in all output.
func stamp(at time.Time) string { return at.UTC().Format(time.RFC3339) }

func labels(buttons []Button) []string {
	var all []string
	for _, b := range buttons {
		all = append(all, b.Label)
	}
	return all
}

// words joins a reaction and the text that may come with it.
func words(o output) string {
	if o.reaction != "" && o.message.Text != "" {
		return o.reaction + " " + o.message.Text
	}
	return o.reaction + o.message.Text
}
