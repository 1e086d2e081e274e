package terminal

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"

	"blockbell/bot/chat"
)

// attached reads the file that a typed command names: `/log import file:log.csv`,
// and returns the command with the file's own name in the place of its path, which
// is nobody else's affair. Only commands that take a file have one read. The error
// is a sentence for whoever wrote the line.
func (t *Terminal) attached(text string) (command string, files []chat.File, err error) {
	option := t.fileOption(text)
	if option == "" || t.ReadFile == nil {
		return text, nil, nil
	}
	form := regexp.MustCompile(`(?i)(?:^|\s)` + regexp.QuoteMeta(option) + `:\s*("[^"]*"|\S+)`)
	m := form.FindStringSubmatchIndex(text)
	if m == nil {
		return text, nil, nil
	}
	path := strings.Trim(text[m[2]:m[3]], `"`)
	data, err := t.ReadFile(path)
	if err != nil {
		return text, nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	if len(data) > chat.MaxFileBytes {
		return text, nil, fmt.Errorf("the file %s has %.1f MB; at most %d MB are read", path, float64(len(data))/(1<<20), chat.MaxFileBytes>>20)
	}
	name := filepath.Base(path)
	return text[:m[2]] + `"` + name + `"` + text[m[3]:], []chat.File{{Name: name, Bytes: data}}, nil
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
