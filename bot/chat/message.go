package chat

import (
	"fmt"
	"time"
)

// Field is a named short value under a message.
type Field struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// File is an attachment. Alt says in words what a picture shows.
type File struct {
	Name  string
	Bytes []byte
	Alt   string
	// Draw makes the bytes of a picture, where they are not there yet: after what
	// the answer did is kept, so that nobody waits for a drawing with the store in
	// hand.
	Draw func() ([]byte, error) `json:"-"`
}

// Drawn draws the files that are not drawn yet.
func (m *Message) Drawn() error {
	for i, f := range m.Files {
		if f.Draw == nil || f.Bytes != nil {
			continue
		}
		bytes, err := f.Draw()
		if err != nil {
			return fmt.Errorf("draw %s: %w", f.Name, err)
		}
		m.Files[i].Bytes, m.Files[i].Draw = bytes, nil
	}
	return nil
}

// Button is something to press under a message. Token leads back to what it
// does; Owner is the ID of the only person who may press it, empty for anyone.
// For lists whom it does something for, where that is several people and not all;
// the others may press it and are told so. After Expires it does nothing.
type Button struct {
	Label   string
	Token   string
	Owner   string
	For     []string
	Expires time.Time
}

// Message is what the bot says: plain text throughout, no platform's markup.
type Message struct {
	Private bool // for the eyes of the one addressed
	Title   string
	Text    string
	Fields  []Field
	Files   []File
	Buttons []Button
	// Data is the answer itself for programs; it must marshal to a JSON object.
	Data any
}

// ReplyKind says how the bot answers an event.
type ReplyKind string

// The ways of answering.
const (
	Silent  ReplyKind = ""         // nothing: chatter, or seen before
	Answer  ReplyKind = "reply"    // a message
	React   ReplyKind = "reaction" // a mark on the message, quieter than words
	Update  ReplyKind = "edit"     // the message whose button was pressed changes
	Failure ReplyKind = "error"    // a message that says what went wrong
)

// Reply is the bot's answer to one event.
type Reply struct {
	Kind     ReplyKind
	Reaction string // React: the mark, one emoji
	Message  Message
	// Form is shown instead of Message where the surroundings can show forms and
	// the event was a command or a press. Message then says the same in words.
	Form *Form
	// Unknown marks a Failure caused by words that mean nothing to the bot, such
	// as a mistyped command, as against a value that is not allowed.
	Unknown bool
}
