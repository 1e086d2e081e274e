package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/mattn/go-isatty"
	"github.com/peterh/liner"

	"blockbell/bot/terminal"
)

// atPrompt tells whether a person sits at both ends of a real terminal. Only
// then is there a prompt, and no echo.
func atPrompt(p *place) bool {
	in, isFile := p.stdin.(*os.File)
	out, shown := p.stdout.(*os.File)
	return isFile && shown && isatty.IsTerminal(in.Fd()) && isatty.IsTerminal(out.Fd())
}

// prompt reads lines with editing and history. Ctrl-D and Ctrl-C end it; the
// returned function gives the terminal back as it was.
func prompt(stdout io.Writer) (terminal.Lines, func() error) {
	fmt.Fprintln(stdout, "Type @name and a message, clock +1d, or press @name \"label\". Ctrl-D ends.")
	editor := liner.NewLiner()
	editor.SetCtrlCAborts(true)
	return func(more bool) (string, error) {
		mark := "> "
		if more {
			mark = ". "
		}
		text, err := editor.Prompt(mark)
		if errors.Is(err, liner.ErrPromptAborted) {
			return "", io.EOF
		}
		if err == nil && text != "" {
			editor.AppendHistory(text)
		}
		return text, err
	}, editor.Close
}
