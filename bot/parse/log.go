package parse

import (
	"strings"
	"time"

	"blockbell/planner"
)

// MaxMessage is the longest message that is read, in characters: a whole session
// is well below 1,000.
const MaxMessage = 4000

// NightEnds is the hour up to which a session belongs to the day before.
const NightEnds = 4

// Context is what a message is read against.
type Context struct {
	Today    planner.Date // the lifter's own day
	At       time.Time    // the moment, in the lifter's zone; zero: no night is considered
	Unit     planner.Unit // of numbers without a unit; empty means kg
	Standard Standard     // how the lifter trains the competition lifts
	Language *Language    // read beside English; nil: English only
	// Best returns the lifter's best at a competition lift, 0 where unknown. Loads
	// far from it are asked about. nil: nothing is known.
	Best func(planner.Lift) planner.Grams
	// Estimate returns the estimated maximum in kg that percentages refer to. nil:
	// nothing is known.
	Estimate func(planner.Lift) (kg float64, ok bool)
	// Last returns the set that the lifter logged last in this session and how long ago
	// that was. It offers, or is, the lift of sets that name none. nil: not known.
	Last func() (last planner.Set, ago time.Duration, ok bool)
	// Before returns the sets of the lifter's last day of a lift in that form before the
	// day given, empty where there is none of late. nil: not known.
	Before func(lift planner.Lift, variant planner.Variant, day planner.Date) []planner.Set
}

// Result is what a message says.
type Result struct {
	Sets          []planner.Set // in the order written; Pending ones have a Question
	Bodyweight    planner.Grams // 0: none told
	BodyweightDay planner.Date
	Problems      []Problem
	Questions     []Question
	Notes         []string    // how something ambiguous was read
	Swaps         []Swap      // the other reading of each note
	Assumed       *Question   // sets that were given the lift of the last set: what to say, and what puts it right
	Chatter       bool        // nothing of the message is for the log
	Undo          bool        // the last set is to go
	Correct       *Correction // what the last set should be
	Done          bool        // today's work was done as prescribed
	Alarm         AlarmKind
}

// Question is something one tap settles.
type Question struct {
	Line, Column int // 1-based place in the message
	Text         string
	Sets         []int // indexes in Result.Sets that the answer replaces; empty: it adds
	Answers      []Answer
}

// Answer is one button under a question, and the sets that choosing it logs; none
// means the sets in question are dropped. Without answers a question is to be
// answered by writing the line anew.
type Answer struct {
	Label string
	Sets  []planner.Set
}

// Swap is the other reading of an ambiguous set: what Result.Sets[Index] would be.
type Swap struct {
	Index int
	Other planner.Set
}

// Log reads a message. What is understood is kept when another part is not; what
// looks like talk is left alone and never reported.
func Log(text string, c Context) Result {
	if tooLong(text, MaxMessage) {
		return Result{Problems: []Problem{{Line: 1, Column: MaxMessage + 1,
			Text: "The message is too long to be read as a log",
			Hint: "Send one session at a time, in at most 4,000 characters."}}}
	}
	text = Unstruck(text)
	s := newSession(c)
	if s.order(text) {
		return s.out
	}
	fenced := false
	for i, raw := range strings.Split(text, "\n") {
		raw = strings.TrimSuffix(raw, "\r")
		trimmed := strings.TrimSpace(raw)
		switch {
		case strings.HasPrefix(trimmed, "```"):
			// A fence opened and closed on one line leaves the state as it was.
			fenced = fenced != (strings.Count(trimmed, "```")%2 == 1)
		case fenced || strings.HasPrefix(trimmed, ">"):
		case trimmed == "":
			s.planning = false
		case s.shorthand(trimmed, i+1, trimmed == strings.TrimSpace(text)):
		default:
			s.read(newLine(raw, i+1, s.lang))
		}
	}
	s.warmUps()
	s.askLift()
	s.askWhose()
	s.out.Chatter = s.out.empty()
	return s.out
}

// empty tells whether nothing was found that concerns the log.
func (r Result) empty() bool {
	return len(r.Sets)+len(r.Problems)+len(r.Questions) == 0 && r.Bodyweight == 0 && !r.Undo && r.Correct == nil && !r.Done
}

// session is what carries over from line to line of a message.
type session struct {
	c        Context
	lang     *Language
	out      Result
	base     planner.Date // the day of training where the message names none
	day      planner.Date
	lift     spoken
	hasLift  bool
	planning bool // under a heading such as "plan:"
	dayless  bool // under a day that could not be read
	whose    bool // under a heading such as "Maria:"
	homeless []homeless
	foreign  []homeless
	light    []int // questions about weights far below the best
}

// homeless is a complete set that no lift was named for, or that could be somebody
// else's.
type homeless struct {
	line, col int
	sets      []planner.Set
	typed     amount // the weight as written
	unitSaid  bool   // the unit was named elsewhere on the line
	sure      bool   // nothing but its lift is open
	odd       string // the word that may be a name or a form
}

func newSession(c Context) *session {
	if c.Unit == "" {
		c.Unit = planner.KG
	}
	if c.Today.IsZero() && !c.At.IsZero() {
		c.Today = planner.DateOf(c.At)
	}
	base := c.Today
	if !c.At.IsZero() && c.At.Hour() < NightEnds && planner.DateOf(c.At) == c.Today {
		base = base.AddDays(-1)
	}
	if c.Language == nil {
		c.Language = english
	}
	return &session{c: c, lang: c.Language, base: base, day: base}
}

// best returns the lifter's best, 0 where unknown.
func (s *session) best(lift planner.Lift) planner.Grams {
	if s.c.Best == nil {
		return 0
	}
	return s.c.Best(lift)
}
