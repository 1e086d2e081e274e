package terminal

import (
	"fmt"
	"strings"
	"time"

	"github.com/jedib0t/go-pretty/v6/text"

	"blockbell/bot/chat"
)

// indent stands before everything the bot says.
const indent = "    "

// heading is the line that tells the time.
func heading(at time.Time) string {
	return "\n" + at.UTC().Format("Mon 2 Jan 2006, 15:04 UTC") + "\n"
}

// speech is how a person's line looks: who, where if it is not the usual place,
// and what.
func speech(l line) string {
	who := "@" + l.person
	if l.channel != "" && l.channel != DefaultChannel {
		who = l.channel + " " + who
	}
	switch l.verb {
	case press:
		return fmt.Sprintf("%s presses [%s]\n", who, l.text)
	case edit:
		who += " edits"
	case remove:
		return who + " deletes the message\n"
	}
	return who + ": " + strings.ReplaceAll(l.text, "\n", "\n"+indent) + "\n"
}

// transcript is how the bot's message looks.
func transcript(o output) string {
	var lines []string
	if o.message.Title != "" {
		lines = append(lines, o.message.Title)
	}
	if body := words(o); body != "" {
		lines = append(lines, strings.Split(body, "\n")...)
	}
	lines = append(lines, fieldLines(o.message.Fields)...)
	if files := o.record.Body.Files; len(files) > 0 {
		lines = append(lines, fileLines(files, o.message.Files)...)
	}
	if buttons := o.record.Body.Buttons; len(buttons) > 0 {
		lines = append(lines, "["+strings.Join(labels(buttons), "] [")+"]")
	}
	first := ""
	if o.record.Kind == kindPost || o.record.Kind == kindDirect {
		first = "blockbell to " + o.record.To + ":\n"
	}
	return first + indent + marks(o) + strings.Join(lines, "\n"+indent) + "\n"
}

// marks say in brackets what is special about a message.
func marks(o output) string {
	all := ""
	switch {
	case o.record.Kind == string(chat.Failure) && o.line > 0:
		all = fmt.Sprintf("(error, line %d) ", o.line)
	case o.record.Kind == string(chat.Failure):
		all = "(error) "
	case o.record.Kind == string(chat.Update):
		all = "(changed) "
	}
	if o.record.Private && o.record.Kind != kindDirect {
		all += "(only " + o.record.To + " sees this) "
	}
	return all
}

// fieldLines sets names and values in two columns; a value of several lines
// stays in its column.
func fieldLines(fields []chat.Field) []string {
	width := 0
	for _, f := range fields {
		width = max(width, text.StringWidthWithoutEscSequences(f.Name))
	}
	var lines []string
	for _, f := range fields {
		name := f.Name
		for part := range strings.SplitSeq(f.Value, "\n") {
			lines = append(lines, strings.TrimRight(text.Pad(name, width, ' ')+"  "+part, " "))
			name = ""
		}
	}
	return lines
}

// fileLines names each file and says in words what it shows.
func fileLines(names []string, files []chat.File) []string {
	var lines []string
	for i, name := range names {
		l := "file " + name
		if i < len(files) && files[i].Alt != "" {
			l += " (" + files[i].Alt + ")"
		}
		lines = append(lines, l)
	}
	return lines
}
