package bot

import (
	"errors"
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/planner"
)

// private is an answer for the eyes of the one who asked.
func private(m chat.Message) chat.Reply {
	m.Private = true
	return chat.Reply{Kind: chat.Answer, Message: m}
}

// failure turns an error into what the person reads. An error with words is
// shown as it is; any other gets a neutral sentence and a reference, and goes back
// to the adapter, which logs it with the same reference.
func (b *Bot) failure(e chat.Event, err error) (chat.Reply, error) {
	var known *planner.Error
	if errors.As(err, &known) {
		return refusal(placed(err, known)), nil
	}
	text := "Something went wrong on my side and nothing was changed. Please try again; if it happens again, tell your captain the reference " + e.ID + "."
	return chat.Reply{Kind: chat.Failure, Message: chat.Message{Private: true, Text: text}}, err
}

// placed says where in a typed command the error lies.
func placed(err error, known *planner.Error) *planner.Error {
	var at *parse.MisplacedError
	if !errors.As(err, &at) {
		return known
	}
	c := *known
	c.Sentence = fmt.Sprintf("Character %d: %s", at.Column, strings.TrimSuffix(c.Sentence, "."))
	return &c
}

// refusal shows the sentence and the hint of an error.
func refusal(e *planner.Error) chat.Reply {
	text := e.Sentence
	if !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "?") {
		text += "."
	}
	if e.Hint != "" {
		text += "\n" + e.Hint
	}
	return chat.Reply{
		Kind:    chat.Failure,
		Unknown: e.Kind == planner.Unknown,
		Message: chat.Message{Private: true, Text: text, Data: map[string]any{
			"error": map[string]string{"kind": string(e.Kind), "sentence": e.Sentence, "hint": e.Hint},
		}},
	}
}
