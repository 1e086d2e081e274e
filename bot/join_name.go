package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// reserved are names under which nobody may speak: they would be taken for others.
var reserved = []string{"blockbell", "captain", "coach"}

// joinName is what a newcomer is called: the name that the workspace shows, on one line
// and without signs that mean something in a chat. Where somebody is called so already a
// number follows, for posts and board tell people apart by their names.
func (t *turn) joinName(shown string) (string, error) {
	name := parse.Clean(shown)
	if name == "" {
		return "", nil // the handle stands in
	}
	all, err := t.tx.Lifters()
	if err != nil {
		return "", err
	}
	for n := 2; nameTaken(all, name, t.event.Author.ID); n++ {
		name = fmt.Sprintf("%s %d", parse.Clean(shown), n)
	}
	return name, nil
}

// nameTaken tells whether somebody else is called so, or nobody may be.
func nameTaken(all []planner.Lifter, name, handle string) bool {
	for _, r := range reserved {
		if strings.EqualFold(r, name) && !strings.EqualFold(name, handle) {
			return true
		}
	}
	for _, l := range all {
		if !strings.EqualFold(l.Handle, handle) && (strings.EqualFold(l.Name, name) || strings.EqualFold(l.Handle, name)) {
			return true
		}
	}
	return false
}

// typedName is a lifter's name as it is written behind an option. A handle may be a
// number that nobody knows.
func typedName(l planner.Lifter) string {
	if name := render.Called(l); strings.Contains(name, " ") {
		return `"` + name + `"`
	}
	return render.Called(l)
}
