package parse

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"blockbell/planner"
)

// gistDay is the day that a gist is read on: late enough that no day in it is to come.
var gistDay = planner.NewDate(2150, 1, 2)

// Gist is a digest of what a message says for the log, whatever is known of its
// lifter: two messages that differ in other words only have the same. Empty for talk.
func Gist(text string) string {
	r := Log(text, Context{Today: gistDay})
	if r.Chatter {
		return ""
	}
	var asked [][]Answer
	for _, q := range r.Questions {
		asked = append(asked, q.Answers)
	}
	said, err := json.Marshal([]any{r.Sets, asked, r.Swaps, r.Bodyweight, r.BodyweightDay, len(r.Problems), r.Undo, r.Correct, r.Done})
	if err != nil {
		return "" // numbers beyond what JSON holds: read anew each time
	}
	sum := sha256.Sum256(said)
	return hex.EncodeToString(sum[:8])
}
