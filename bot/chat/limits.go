package chat

// Limits of one message in characters, not bytes. They are the strictest that
// the platforms we serve allow; source: the platform's message reference
// (content 2,000; title 256; description 4,096; 25 fields of 256 + 1,024; 6,000
// for all together; button label 80; five rows of five buttons).
const (
	MaxText       = 2000
	MaxTitle      = 256
	MaxFields     = 25
	MaxFieldName  = 256
	MaxFieldValue = 1024
	MaxAll        = 6000
	MaxButtons    = 25
	MaxLabel      = 80
	MaxFileBytes  = 5 << 20 // of a file that a person sends; our own bound
)
