// Package chat is the vocabulary of a conversation: events that come in,
// messages that go out, and the one seam, Poster, behind which a platform or a
// terminal stands. It knows nothing of training and nothing of any platform.
package chat
