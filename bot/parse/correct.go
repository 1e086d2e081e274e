package parse

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blockbell/planner"
)

// Correction is what the last set should be. What is nil, zero or empty stays as it
// was.
type Correction struct {
	Weight  *planner.Grams
	Reps    *int
	Sets    *int
	Reserve *float64 // repetitions left
	Missed  bool     // its last repetition was missed
	Lift    planner.Lift
	// Variant belongs to Lift.
	Variant planner.Variant
	// Number is the weight as typed. Without a unit (UnitSaid false) it is meant in the
	// unit of the set it corrects; Weight took the lifter's.
	Number   float64
	UnitSaid bool
	Unit     planner.Unit // the number of the weight stays and is meant in this unit
	// Talk tells that the words may be about anything where no set was just logged:
	// "that was a double".
	Talk bool
}

var (
	leadForm = regexp.MustCompile(`^(?:(?:no|nope|sorry|oops|typo|actually|wait|i meant|i mean|meant|it was|it's|that was|that's|was|should be|should have been|make that|make it)[,:.!]* |\* ?)+`)
	// firmLead begins what cannot be talk: it says that something was wrong.
	firmLead = regexp.MustCompile(`\b(?:no|nope|sorry|oops|typo|wait|meant|mean|make|should)\b|\*`)
	// What a correction says: a lift or none, a weight, and as much of repetitions,
	// sets, and effort or repetitions left as is to be changed.
	rightForm = regexp.MustCompile(`^([a-z][a-z '&-]*? ?)?(\d{1,4}(?:[.,]\d{1,2})? ?(?:kgs?|kilos?|lbs?|pounds?|#)?)(?: ?(?:x|for|\*) ?(\d{1,3})(?: ?reps?)?(?: ?(?:x|\*) ?(\d{1,3})(?: ?sets?)?)?)?` +
		`(?:[ ,]*(?:@ ?|at )?(?:rpe ?|@ ?)(\d{1,2}(?:[.,]\d)?)|[ ,]*(\d) ?(?:left|rir|in reserve))?(?:,? (?:not|instead of) \d{1,4}(?:[.,]\d{1,2})? ?(?:kgs?|lbs?)?)?[.!*]*$`)
	// The same without a weight: "4 reps", "3 sets of 4 @9", "3x4", "a double", "@9".
	restForm = regexp.MustCompile(`^(?:only |just )?(?:(\d{1,2}) ?sets?(?: of (\d{1,3}))?|(\d{1,2}) ?x ?(\d{1,3})|x? ?(\d{1,3}) ?reps?|x ?(\d{1,3})|(?:a |an )?(single|double|triple))?` +
		`(?:(?:^|[ ,]+)(?:(?:at |a |an )?(?:rpe ?|@ ?|effort ?)+(\d{1,2}(?:[.,]\d)?)|(\d) ?(?:left|rir|in reserve|in the tank)))?[.!*]*$`)
	feltForm = regexp.MustCompile(`^(?:it |that )?felt (?:like )?(?:an? )?(?:(?:rpe|@) ?)?(\d{1,2}(?:[.,]\d)?)[.!]*$`)
	onlyForm = regexp.MustCompile(`^(?:i )?(?:only|just) (?:(?:got|made|did) (\d{1,2})(?: ?reps?)?|(\d{1,2}) ?reps?)[.!]*$`)
	missForm = regexp.MustCompile(`^(?:(?:it|that) was (?:a )?(?:miss|missed|fail|failed|no lift)|(?:i )?(?:missed|failed) (?:it|that one|the last(?: one| rep)?))[.!]*$`)
	unitForm = regexp.MustCompile(`^(?:in )?(kgs?|kilos?|lbs?|pounds)[.!]*$`)
	starForm = regexp.MustCompile(`^\d{2,4}(?:[.,]\d{1,2})?\*$`) // "150*", the star behind
)

// corrects reads a message that says what the last set should be; false where it is
// none. t is the text in one line and lower case.
func (s *session) corrects(text, t string) bool {
	if s.shortly(t) {
		return true
	}
	lead := leadForm.FindString(t)
	rest := t[len(lead):]
	if lead == "" || t[0] == '*' && (lead != "*" || strings.HasSuffix(t, "*")) {
		return false
	}
	talk := !firmLead.MatchString(lead)
	if m := restForm.FindStringSubmatch(rest); m != nil && rest != "" && t[0] != '*' && max(number(m[3]), number(m[4])) < leastLoad {
		return s.correctRest(text, m, talk)
	}
	if m := unitForm.FindStringSubmatch(rest); m != nil && t[0] != '*' {
		s.out.Correct = &Correction{Unit: UnitOf(m[1]), Talk: talk}
		return true
	}
	if m := rightForm.FindStringSubmatch(rest); m != nil && !(t[0] == '*' && m[1] != "") {
		return s.correctWeight(text, m, talk)
	}
	lift, variant, named := LiftOf(strings.TrimRight(rest, ".!"), s.c.Standard)
	if !named || talk || !strings.Contains(lead, "mean") && !strings.Contains(lead, "should") && !strings.Contains(lead, "make") {
		return false // "no bench" may speak of anything
	}
	s.out.Correct = &Correction{Lift: lift, Variant: variant}
	return true
}

// shortly reads the corrections that need no word in front: "only got 4", "missed
// it", "felt like a 9".
func (s *session) shortly(t string) bool {
	if missForm.MatchString(t) {
		s.out.Correct = &Correction{Missed: true, Talk: true}
		return true
	}
	if m := onlyForm.FindStringSubmatch(t); m != nil {
		if reps := number(m[1] + m[2]); reps < leastLoad {
			s.out.Correct = &Correction{Reps: &reps, Talk: true}
			return true
		}
	}
	if m := feltForm.FindStringSubmatch(t); m != nil {
		if v := decimal(m[1]); v >= leastEffort && v <= mostEffort {
			left := mostEffort - v
			s.out.Correct = &Correction{Reserve: &left, Talk: true}
			return true
		}
	}
	return false
}

// correctRest reads a correction without a weight.
func (s *session) correctRest(text string, m []string, talk bool) bool {
	sets, reps := m[1]+m[3], m[2]+m[4]+m[5]+m[6]
	if n := repWords[m[7]]; n > 0 {
		reps = strconv.Itoa(n)
	}
	if sets+reps+m[8]+m[9] == "" {
		return false
	}
	r := s.correcting(text)
	c := &Correction{Talk: talk}
	wrong, err := c.more(reps, sets, m[8], m[9])
	if err != nil {
		if talk {
			return false
		}
		r.refuse(r.columnOf(wrong), err)
		s.out.Problems = r.problems
		return true
	}
	s.out.Correct = c
	return true
}

// correctWeight reads a correction with a weight; false where it is none.
func (s *session) correctWeight(text string, m []string, talk bool) bool {
	lift, variant, named := LiftOf(m[1], s.c.Standard)
	if m[1] != "" && !named || strings.HasPrefix(m[1], "belt ") || strings.HasPrefix(m[1], "pause ") {
		// "no belt squat" is a squat, "no pause bench" says how.
		return false
	}
	r := s.correcting(text)
	defer func() { s.out.Problems = r.problems }()
	if n, err := strconv.ParseFloat(m[2], 64); err == nil && n < leastLoad {
		if talk {
			return false
		}
		r.problem(r.columnOf(m[2]), "Write what it is, for example: no, 140x3, no 3 reps, or it was @9", strings.TrimSpace(m[2])+": it is not clear whether that is a weight")
		return true
	}
	c := &Correction{Lift: lift, Talk: talk}
	g, err := Weight(m[2], s.c.Unit)
	wrong := m[2]
	if err == nil {
		wrong, err = c.more(m[3], m[4], m[5], m[6])
	}
	if err != nil {
		r.refuse(r.columnOf(wrong), err)
		return true
	}
	digits := strings.TrimRight(m[2], "kgsilopundb# ")
	c.UnitSaid = len(digits) < len(strings.TrimSpace(m[2]))
	c.Number = decimal(digits) // Weight has read it
	c.Weight = &g
	if named {
		c.Variant = variant
	}
	s.out.Correct = c
	return true
}

// correcting is a reader of the first line of a correction, to place problems.
func (s *session) correcting(text string) *reader {
	empty := text[:len(text)-len(strings.TrimLeftFunc(text, unicode.IsSpace))]
	first, _, _ := strings.Cut(text[strings.LastIndexByte(empty, '\n')+1:], "\n")
	return &reader{line: newLine(first, strings.Count(empty, "\n")+1, s.lang), s: s}
}

// more reads the repetitions, sets, effort and repetitions left of a correction; what
// is empty stays as it was. wrong is what an error is about.
func (c *Correction) more(reps, sets, effort, left string) (wrong string, err error) {
	if reps != "" {
		n := number(reps) // three digits by the form
		if n < 1 || n > planner.MaxReps {
			return reps, invalid("Check the number.", "%s: a set has 1 to %d", counted(float64(n), "repetition"), planner.MaxReps)
		}
		c.Reps = &n
	}
	if sets != "" {
		n := number(sets) // three digits by the form
		if n < 1 || n > planner.MaxSets {
			return sets, invalid("Check the number.", "%s: a line has 1 to %d equal sets", counted(float64(n), "set"), planner.MaxSets)
		}
		c.Sets = &n
	}
	if effort != "" {
		v := decimal(effort) // digits by the form
		if v < leastEffort || v > mostEffort {
			return effort, invalid("Write @8 for two repetitions left.", "Effort %s: it lies between %d and %d", figure(v), leastEffort, mostEffort)
		}
		v = mostEffort - v
		c.Reserve = &v
	}
	if left != "" {
		v := decimal(left) // one digit by the form
		c.Reserve = &v
	}
	return "", nil
}

// columnOf returns the character of the line at which a part of it stands last, 1
// where it was written otherwise.
func (l line) columnOf(part string) int {
	text := string(normal(l.runes))
	i := strings.LastIndex(text, strings.TrimSpace(part))
	if i < 0 {
		return 1
	}
	return utf8.RuneCountInString(text[:i]) + 1
}

// decimal is the value of digits with a decimal point or comma, which a form has read.
func decimal(digits string) float64 {
	v, _ := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
	return v
}
