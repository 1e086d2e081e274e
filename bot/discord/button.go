package discord

import (
	"encoding/json"
	"strings"

	"blockbell/bot/chat"
)

// The custom_id of what can be pressed or sent is a version, a kind and the token,
// in at most 100 characters (the platform's limit). A later form gets another
// version, so that old buttons are still told apart.
const (
	idButton  = "b1" // a button or form of the bot
	idHeld    = "h1" // "Show me": an answer that waits in memory
	maxCustom = 100
)

// customID makes one; false when the token is too long to come back whole.
func customID(kind, token string) (string, bool) {
	id := kind + ":" + token
	return id, token != "" && len([]rune(id)) <= maxCustom
}

// readID takes one apart; kind is empty for one that no version here made.
func readID(id string) (kind, token string) {
	kind, token, found := strings.Cut(id, ":")
	if !found || token == "" || kind != idButton && kind != idHeld {
		return "", ""
	}
	return kind, token
}

type row struct {
	Type       int      `json:"type"` // 1
	Components []button `json:"components"`
}

type button struct {
	Type  int    `json:"type"`  // 2
	Style int    `json:"style"` // 1 primary, 2 secondary
	Label string `json:"label"`
	ID    string `json:"custom_id"`
}

// buttonRows lays buttons out in rows of five, the first as the one to press.
func buttonRows(buttons []chat.Button) []any {
	var rows []any
	current := row{Type: 1}
	for _, b := range buttons[:min(len(buttons), chat.MaxButtons)] {
		id, ok := customID(idButton, b.Token)
		if !ok {
			continue
		}
		current.Components = append(current.Components, newButton(b.Label, id, len(rows)+len(current.Components) == 0))
		if len(current.Components) == rowSize {
			rows = append(rows, current)
			current = row{Type: 1}
		}
	}
	if len(current.Components) > 0 {
		rows = append(rows, current)
	}
	return rows
}

func newButton(label, id string, primary bool) button {
	short, _ := cut(label, chat.MaxLabel)
	if short == "" {
		short = "OK"
	}
	b := button{Type: 2, Style: 2, Label: short, ID: id}
	if primary {
		b.Style = 1
	}
	return b
}

// disabled is what stood under a message, with every part switched off. Parts that
// cannot be read are left out.
func disabled(rows []json.RawMessage) []any {
	var all []any
	for _, raw := range rows {
		var r map[string]any
		if json.Unmarshal(raw, &r) != nil {
			continue
		}
		parts, _ := r["components"].([]any)
		for _, p := range parts {
			if part, ok := p.(map[string]any); ok {
				part["disabled"] = true
			}
		}
		if len(parts) > 0 {
			all = append(all, r)
		}
	}
	return all
}
