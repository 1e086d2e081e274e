package planner

import (
	"regexp"
	"strconv"
	"strings"
)

// MeetID identifies a meet entry of one lifter.
type MeetID int64

// MeetKind says what a meet is for.
type MeetKind string

// A main meet is peaked for, a tune-up is practice, a test is a day in the gym.
const (
	Main   MeetKind = "main"
	TuneUp MeetKind = "tune-up"
	Test   MeetKind = "test"
)

// EventKind says which lifts count.
type EventKind string

// The events of the rule books.
const (
	Full         EventKind = "full"
	BenchOnly    EventKind = "bench"
	PushPull     EventKind = "push-pull"
	DeadliftOnly EventKind = "deadlift"
)

// Equipment is the supportive gear of a set or a meet.
type Equipment string

// From none to several layers.
const (
	Raw       Equipment = "raw"
	Wraps     Equipment = "wraps"
	SinglePly Equipment = "single-ply"
	MultiPly  Equipment = "multi-ply"
)

// Class is a bodyweight class: up to and including Limit, or above it where Plus.
// The zero value is "no class".
type Class struct {
	Limit Grams
	Plus  bool
}

// IsZero tells whether no class is set.
func (c Class) IsZero() bool { return c == Class{} }

// String writes the class as a scoresheet would: "63" or "84+".
func (c Class) String() string {
	if c.IsZero() {
		return ""
	}
	s := c.Limit.Number(KG)
	if c.Plus {
		s += "+"
	}
	return s
}

// classForm is a limit with the marks that scoresheets put before or behind it.
var classForm = regexp.MustCompile(`^([+-]?)(\d{2,3}(?:[.,]\d{1,2})?)\s*(\+?)$`)

// ParseClass reads "63", "84+", "-63" or "+84"; empty text is no class. The limit
// lies between 20 and 250 kg.
func ParseClass(text string) (Class, error) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(strings.ToLower(text)), "kg"))
	if t == "" {
		return Class{}, nil
	}
	form := classForm.FindStringSubmatch(t)
	var n float64
	if form != nil {
		n, _ = strconv.ParseFloat(strings.Replace(form[2], ",", ".", 1), 64) // the form holds a number
	}
	if n < 20 || n > 250 {
		return Class{}, Errorf(Invalid, "Write the class as on the entry form, for example 63 or 84+.",
			"%q is not a bodyweight class between 20 and 250 kg", text)
	}
	return Class{Limit: Kilograms(n), Plus: form[1] == "+" || form[3] == "+"}, nil
}

// Meet is one lifter's entry in a competition, or a test day in the gym.
type Meet struct {
	ID            MeetID
	Lifter        LifterID
	Name          string
	Date          Date // the lifter's own day
	Kind          MeetKind
	Event         EventKind
	Equipment     Equipment
	RuleSet       string // name of the rule book; empty: the club's
	WeighInHours  int    // weigh-in this many hours before: 2 or 24
	Class         Class
	Qualifying    Grams // total wanted to qualify; 0: none
	EntryCloses   Date
	Place         string
	Zone          string // IANA name of the meet's place; empty: the lifter's
	Handler       LifterID
	Entered       bool
	ResultTotal   Grams // 0 until entered
	ResultEntered bool
}
