// Package store keeps everything the club knows in one SQLite file: settings,
// lifters, meets, the training log, plans, buttons, the ledger of nudges, and
// the terminal's memory.
//
// A Store runs one function at a time for writing (Update) and any number for
// reading (View); all nouns are methods of the Tx that the function is given.
// Update commits when the function returns nil and undoes everything otherwise.
// Never call Update inside Update: there is one writer, and it would wait for
// itself until its context ends.
//
// Of a message only its id and its sets are kept, never its words.
package store

//go:generate go tool -modfile=../.ci/tools/go.mod sqlc generate
