package discord

import "strings"

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
