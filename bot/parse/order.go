package parse

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blockbell/planner"
)

var (
	undoForm = regexp.MustCompile(`^(?:please )?(?:undo|scratch|delete|remove|forget)(?: that| it| last| the last one| the last set| last set)?(?: please)?[.!]*$`)
	leadForm = regexp.MustCompile(`^(?:(?:no|nope|sorry|oops|typo|actually|wait|i meant|i mean|meant|it was|should be|make that|make it)[,:.!]* |\* ?)+`)
	// What a correction says: a lift or none, a weight, and as much of repetitions,
	// sets, and effort or repetitions left as is to be changed.
	rightForm = regexp.MustCompile(`^([a-z][a-z '&-]*? ?)?(\d{1,4}(?:[.,]\d{1,2})? ?(?:kgs?|kilos?|lbs?|pounds?|#)?)(?: ?(?:x|for|\*) ?(\d{1,3})(?: ?reps?)?(?: ?(?:x|\*) ?(\d{1,3})(?: ?sets?)?)?)?` +
		`(?:[ ,]*(?:@ ?|at )?(?:rpe ?|@ ?)(\d{1,2}(?:[.,]\d)?)|[ ,]*(\d) ?(?:left|rir|in reserve))?(?:,? (?:not|instead of) \d{1,4}(?:[.,]\d{1,2})? ?(?:kgs?|lbs?)?)?[.!*]*$`)
	starForm = regexp.MustCompile(`^\d{2,4}(?:[.,]\d{1,2})?\*$`) // "150*", the star behind
	doneForm = regexp.MustCompile(`^(?:(?:all )?done|did it all|did (?:it|everything)|all of it|finished|as planned|done as planned|👍)[.! ]*$`)
)

// orderStarts are the first words of an order; they spare other lines the forms
// above.
var orderStarts = setOf("please", "undo", "scratch", "delete", "remove", "forget", "no", "nope", "sorry", "oops", "typo", "actually", "wait", "i", "meant",
	"should", "make", "all", "done", "did", "finished", "as", "👍")

// order reads a message that is one of the few orders about the last set or the
// day's work, and tells whether it was one.
func (s *session) order(text string) bool {
	if len(text) > 80 {
		return false
	}
	t := strings.Join(strings.Fields(string(normal([]rune(text)))), " ")
	if starForm.MatchString(t) {
		t = "*" + strings.TrimSuffix(t, "*")
	}
	first, _, _ := strings.Cut(strings.TrimLeft(t, "*"), " ")
	if t == "" || t[0] != '*' && !orderStarts[strings.TrimRight(first, ".,:!🏻🏼🏽🏾🏿")] {
		return false
	}
	switch {
	case undoForm.MatchString(t) && t != "forget" && t != "forget it":
		s.out.Undo = true
	case doneForm.MatchString(strings.TrimRight(t, "🏻🏼🏽🏾🏿")):
		s.out.Done = true
	default:
		lead := leadForm.FindString(t)
		m := rightForm.FindStringSubmatch(t[len(lead):])
		if lead == "" || m == nil || t[0] == '*' && (lead != "*" || m[1] != "" || strings.HasSuffix(t, "*")) {
			return false
		}
		return s.correct(text, m)
	}
	return true
}

// correct reads what the last set should be; false where it is no correction.
func (s *session) correct(text string, m []string) bool {
	lift, variant, named := LiftOf(m[1], s.c.Standard)
	if m[1] != "" && !named || strings.HasPrefix(m[1], "belt ") || strings.HasPrefix(m[1], "pause ") {
		// "no belt squat" is a squat, "no pause bench" says how.
		return false
	}
	empty := text[:len(text)-len(strings.TrimLeftFunc(text, unicode.IsSpace))]
	first, _, _ := strings.Cut(text[strings.LastIndexByte(empty, '\n')+1:], "\n")
	r := &reader{line: newLine(first, strings.Count(empty, "\n")+1, s.lang), s: s}
	defer func() { s.out.Problems = r.problems }()
	if n, err := strconv.ParseFloat(m[2], 64); err == nil && n < leastLoad {
		r.problem(r.columnOf(m[2]), "Write weight and repetitions, for example: no, 140x3", strings.TrimSpace(m[2])+": it is not clear whether that is a weight")
		return true
	}
	reps := 0
	if m[3] != "" {
		if reps, _ = strconv.Atoi(m[3]); reps < 1 || reps > planner.MaxReps { // three digits by the form
			r.problem(r.columnOf(m[3]), "Check the number.", counted(float64(reps), "repetition")+": a set has 1 to "+strconv.Itoa(planner.MaxReps))
			return true
		}
		s.out.CorrectReps = &reps
	}
	g, err := Weight(m[2], s.c.Unit)
	wrong := m[2]
	if err == nil {
		wrong, err = s.correctMore(m[4], m[5], m[6])
	}
	if err != nil {
		s.out.CorrectReps, s.out.CorrectSets, s.out.CorrectReserve = nil, nil, nil
		r.refuse(r.columnOf(wrong), err)
		return true
	}
	digits := strings.TrimRight(m[2], "kgsilopundb# ")
	s.out.CorrectUnitSaid = len(digits) < len(strings.TrimSpace(m[2]))
	s.out.CorrectNumber, _ = strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64) // Weight has read it
	s.out.Correct, s.out.CorrectLift = &g, lift
	if named {
		s.out.CorrectVariant = variant
	}
	return true
}

// correctMore reads the sets, the effort and the repetitions left of a correction;
// what is empty stays as it was. wrong is what an error is about.
func (s *session) correctMore(sets, effort, left string) (wrong string, err error) {
	if sets != "" {
		n, _ := strconv.Atoi(sets) // three digits by the form
		if n < 1 || n > planner.MaxSets {
			return sets, invalid("Check the number.", "%s: a line has 1 to %d equal sets", counted(float64(n), "set"), planner.MaxSets)
		}
		s.out.CorrectSets = &n
	}
	if effort != "" {
		v, _ := strconv.ParseFloat(strings.Replace(effort, ",", ".", 1), 64) // digits by the form
		if v < leastEffort || v > mostEffort {
			return effort, invalid("Write @8 for two repetitions left.", "Effort %s: it lies between %d and %d", figure(v), leastEffort, mostEffort)
		}
		v = mostEffort - v
		s.out.CorrectReserve = &v
	}
	if left != "" {
		v, _ := strconv.ParseFloat(left, 64) // one digit by the form
		s.out.CorrectReserve = &v
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
