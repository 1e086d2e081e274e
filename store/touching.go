package store

import (
	"regexp"
	"sync"
)

// inMemory are the tables of whose rows some are remembered.
var inMemory = map[string]bool{
	"club": true, "lifters": true, "meets": true, "plans": true, "plan_blocks": true, "plan_meets": true,
	"away": true, "lifts_off": true, "training": true, "gym": true,
}

// Comments, which stand before a statement only, and what a statement begins with.
var (
	comments = regexp.MustCompile(`^(\s*--[^\n]*\n|\s+)*`)
	reading  = regexp.MustCompile(`^SELECT\b`)
	writing  = regexp.MustCompile(`^(?:INSERT INTO|UPDATE(?: OR [A-Z]+)?|DELETE FROM) (\w+)\b`)
)

// touching keeps the answers of touches: there are a few hundred statements.
var touching sync.Map

// touches tells whether a statement may change rows that are remembered. The schema
// has no triggers, and deletes in cascade from buttons only. What is not understood
// may do anything.
func touches(query string) bool {
	if known, ok := touching.Load(query); ok {
		return known.(bool)
	}
	text := query[len(comments.FindString(query)):]
	does := !reading.MatchString(text)
	if table := writing.FindStringSubmatch(text); table != nil {
		does = inMemory[table[1]]
	}
	touching.Store(query, does)
	return does
}
