// Package bot is the conversation: it takes one event at a time from a platform
// or a terminal, keeps the order of each person's events, answers an event once,
// and turns what was asked into rows of the store and words on the screen.
//
// A command is an entry of the table in table.go; help, permission and the check
// of its options come from that entry, never from the code behind it. A handler
// reads and writes through one transaction and returns its answer; it never
// sends, and it never asks the clock: the event says when it happened.
package bot
