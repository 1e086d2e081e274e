package terminal

import (
	"bufio"
	"context"
	"errors"
	"io"
	"strings"
)

// Lines is a source of lines without their line breaks; io.EOF ends it. more is
// true when the line goes on with what was read before.
type Lines func(more bool) (string, error)

// ReadLines makes a source of anything that can be read.
func ReadLines(r io.Reader) Lines {
	buffered := bufio.NewReader(r)
	first := true
	return func(bool) (string, error) {
		text, err := buffered.ReadString('\n')
		if text != "" && errors.Is(err, io.EOF) {
			err = nil
		}
		if first {
			text, first = strings.TrimPrefix(text, "\uFEFF"), false
		}
		return strings.TrimRight(text, "\r\n"), err
	}
}

// Play plays every line of the source, in order. It returns nil at the end of
// the source, and the context's cause as soon as that ends, never in the middle
// of a line; a failure to read or to print comes back as it is.
func (t *Terminal) Play(ctx context.Context, lines Lines) error {
	number := 0
	for {
		text, read, err := readLogical(ctx, lines)
		if read > 0 && err == nil {
			t.Do(ctx, number+1, text)
			err = t.Screen.Err()
		}
		number += read
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
	}
}

// readLogical reads one line and, while it ends in a backslash, the next. read
// counts the lines taken.
func readLogical(ctx context.Context, lines Lines) (text string, read int, err error) {
	var parts []string
	for {
		part, err := await(ctx, lines, len(parts) > 0)
		if errors.Is(err, io.EOF) && len(parts) > 0 {
			return strings.Join(parts, "\n"), read, nil
		}
		if err != nil {
			return "", read, err
		}
		read++
		comment := len(parts) == 0 && isComment(strings.TrimSpace(part))
		open, goesOn := strings.CutSuffix(strings.TrimRight(part, " \t"), `\`)
		if comment || !goesOn {
			return strings.Join(append(parts, part), "\n"), read, nil
		}
		parts = append(parts, open)
	}
}

// await reads one line but gives up when ctx ends: a terminal may stay silent
// for ever.
func await(ctx context.Context, lines Lines, more bool) (string, error) {
	if ctx.Err() != nil {
		return "", context.Cause(ctx)
	}
	type reading struct {
		text string
		err  error
	}
	ready := make(chan reading, 1)
	go func() {
		text, err := lines(more)
		ready <- reading{text, err}
	}()
	select {
	case r := <-ready:
		return r.text, r.err
	case <-ctx.Done():
		return "", context.Cause(ctx)
	}
}
