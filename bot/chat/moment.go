package chat

import (
	"regexp"
	"strconv"
	"time"
)

// A moment in a text stands between three characters that nobody types (Unicode
// keeps them for private use), with its second and the words that tell it.
const (
	momentBegins = "\uE000"
	momentWords  = "\uE001"
	momentEnds   = "\uE002"
)

var momentMark = regexp.MustCompile(momentBegins + `(-?\d{1,12})` + momentWords + `([^` + momentBegins + momentEnds + `]*)` + momentEnds)

// Moment writes an instant into a text of a message. words tell it in the zone of
// the one addressed; a platform that shows moments in each reader's own zone does
// so instead. Days of training are no moments: they are the same day everywhere.
func Moment(at time.Time, words string) string {
	return momentBegins + strconv.FormatInt(at.Unix(), 10) + momentWords + words + momentEnds
}

// Moments rebuilds a text: between passes on what stands between moments, moment
// what stands for each.
func Moments(text string, between func(string) string, moment func(at time.Time, words string) string) string {
	out, from := "", 0
	for _, m := range momentMark.FindAllStringSubmatchIndex(text, -1) {
		second, _ := strconv.ParseInt(text[m[2]:m[3]], 10, 64) // at most twelve digits
		out += between(text[from:m[0]]) + moment(time.Unix(second, 0).UTC(), text[m[4]:m[5]])
		from = m[1]
	}
	return out + between(text[from:])
}

// InWords is a text with each moment told in words.
func InWords(text string) string {
	return Moments(text, func(s string) string { return s }, func(_ time.Time, words string) string { return words })
}

// InWords is a message with each moment told in words.
func (m Message) InWords() Message {
	m.Title, m.Text = InWords(m.Title), InWords(m.Text)
	fields := make([]Field, len(m.Fields))
	for i, f := range m.Fields {
		fields[i] = Field{Name: InWords(f.Name), Value: InWords(f.Value)}
	}
	if m.Fields != nil {
		m.Fields = fields
	}
	return m
}
