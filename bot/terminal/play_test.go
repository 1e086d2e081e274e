package terminal

import (
	"context"
	"errors"
	"io"
	"strings"
	"testing"
)

func TestPlayJoinsLinesAndKeepsCount(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	text := "\uFEFF# note \\\r\n@ana squat\\\r\n140x5 \\ \r\n150x3\r\nnonsense\r\n@ana last\\"
	s.out.Reset()
	if err := s.Play(t.Context(), ReadLines(strings.NewReader(text))); err != nil {
		t.Fatal(err)
	}
	if len(s.bot.events) != 2 || s.bot.events[0].Text != "squat\n140x5 \n150x3" || s.bot.events[1].Text != "last" {
		t.Errorf("events %+v", s.bot.events)
	}
	if o := only(t, s.out.String()); o.Line != 5 {
		t.Errorf("the bad line is %d, want 5", o.Line)
	}
}

func TestPlayTellsTheSourceThatALineGoesOn(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	lines := []string{`@ana squat\`, "140x5"}
	var asked []bool
	err := s.Play(t.Context(), func(more bool) (string, error) {
		asked = append(asked, more)
		if len(lines) == 0 {
			return "", io.EOF
		}
		next := lines[0]
		lines = lines[1:]
		return next, nil
	})
	if err != nil || len(asked) != 3 || asked[0] || !asked[1] || asked[2] {
		t.Errorf("err %v, asked %v", err, asked)
	}
}

func TestPlayEndsWithItsContext(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	ctx, stop := context.WithCancelCause(t.Context())
	reason := errors.New("told to stop")
	reader, writer := io.Pipe()
	defer writer.Close()
	go func() {
		io.WriteString(writer, "@ana hello\n")
		stop(reason)
	}()
	if err := s.Play(ctx, ReadLines(reader)); !errors.Is(err, reason) {
		t.Errorf("Play = %v, want %v", err, reason)
	}
}

func TestPlayReportsAFaultOfTheSource(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	fault := errors.New("unplugged")
	if err := s.Play(t.Context(), func(bool) (string, error) { return "", fault }); !errors.Is(err, fault) {
		t.Errorf("Play = %v, want %v", err, fault)
	}
}
