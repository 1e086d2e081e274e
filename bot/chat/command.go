package chat

import "context"

// Param is one option of a command, as a platform shows it.
type Param struct {
	Name     string
	About    string
	Required bool
	Choices  []string // where only these words are allowed
	Suggests bool     // values can be suggested while somebody types
	File     bool     // a file is attached; the value is its name, the bytes come with the event
}

// Command is one command as a platform registers it. Sub is empty for a command
// without subcommands.
type Command struct {
	Name    string
	Sub     string
	About   string
	Captain bool // for those who run the club only; checked again on use
	Params  []Param
}

// Suggester offers values for an option while somebody types it. It writes
// nothing and answers with at most as many values as a platform shows.
type Suggester interface {
	Suggest(ctx context.Context, e Event, option, typed string) ([]string, error)
}
