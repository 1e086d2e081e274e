package chat

// FormField is one line to fill in.
type FormField struct {
	Name     string
	Label    string // at most 45 characters
	Hint     string // at most 100 characters
	Value    string // what stands there already
	Required bool
	Long     bool // words of several lines
}

// Form is a sheet that a person fills in and sends back. Token leads back to what
// it does, like a button's.
type Form struct {
	Token  string
	Title  string // at most 45 characters
	Fields []FormField
}
