package terminal

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"

	"blockbell/bot/chat"
)

// attached reads the file that a typed command names: `/log import file:log.csv`.
// Only commands that take a file have one read. The error is a sentence for
// whoever wrote the line.
func (t *Terminal) attached(text string) ([]chat.File, error) {
	option := t.fileOption(text)
	if option == "" || t.ReadFile == nil {
		return nil, nil
	}
	form := regexp.MustCompile(`(?i)(?:^|\s)` + regexp.QuoteMeta(option) + `:\s*("[^"]*"|\S+)`)
	m := form.FindStringSubmatch(text)
	if m == nil {
		return nil, nil
	}
	path := strings.Trim(m[1], `"`)
	data, err := t.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	if len(data) > chat.MaxFileBytes {
		return nil, fmt.Errorf("the file %s has %.1f MB; at most %d MB are read", path, float64(len(data))/(1<<20), chat.MaxFileBytes>>20)
	}
	return []chat.File{{Name: filepath.Base(path), Bytes: data}}, nil
}

// fileOption returns the name of the option that a file is attached to, empty where
// the text is no command that takes one.
func (t *Terminal) fileOption(text string) string {
	words := strings.Fields(strings.ToLower(text))
	for _, c := range t.Commands {
		for _, p := range c.Params {
			if p.File && len(words) > 1 && words[0] == "/"+c.Name && (words[1] == c.Sub || c.Sub == "") {
				return p.Name
			}
		}
	}
	return ""
}

// progress shows how far the work on an event has come, as a change of the message
// whose button was pressed.
func (t *Terminal) progress(e chat.Event) func(chat.Message) {
	return func(m chat.Message) {
		r := Record{At: e.At, Kind: string(chat.Update), To: "@" + e.Author.ID, Private: m.Private}
		t.Screen.show(output{record: r, message: m})
	}
}
