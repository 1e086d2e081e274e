package parse

import "slices"

// persons are the people in a lifter's life: in front of a lift they say that
// somebody else did it.
var persons = []string{"coach", "trainer", "girlfriend", "boyfriend", "gf", "bf", "wife", "husband", "fiance", "fiancee", "brother", "sister",
	"sis", "mom", "mum", "mother", "dad", "father", "son", "daughter", "kid", "cousin", "uncle", "aunt", "nephew", "niece", "grandma", "grandpa",
	"friend", "mate", "buddy", "partner", "teammate", "clubmate", "roommate", "flatmate", "client", "athlete", "lifter", "student", "colleague",
	"boss", "neighbour", "neighbor", "rival", "opponent"}

// plurals adds the forms with an s, which are also the possessives.
func plurals(words ...string) []string {
	all := slices.Clone(words)
	for _, w := range words {
		all = append(all, w+"s")
	}
	return all
}

// fillers are words that may stand in front of a lift without being a name:
// greetings, times, and what people say about their training and how it felt.
var fillers = setOf("hi", "hello", "hey", "yo", "ok", "okay", "kay", "k", "alright", "right", "well", "so", "now", "morning", "evening", "afternoon", "noon",
	"midday", "night", "wow", "woo", "woohoo", "damn", "omg", "phew", "ugh", "haha", "yes", "yep", "yup", "sweet", "anyway", "quick", "update", "report",
	"logging", "logged", "entry", "note", "notes", "result", "results", "summary", "todays", "yesterdays", "this", "that", "these", "those", "week",
	"weeks", "weekend", "month", "year", "days", "hour", "hours", "minutes", "min", "mins", "after", "before", "during", "since", "because", "despite",
	"without", "within", "from", "first", "second", "third", "fourth", "fifth", "last", "final", "start", "starting", "started", "beginning", "begin",
	"end", "ended", "ending", "main", "lift", "lifts", "lifting", "lifted", "exercise", "exercises", "accessory", "accessories", "assistance", "workout", "gym", "club",
	"home", "garage", "legs", "leg", "upper", "lower", "body", "full", "push", "pull", "press", "power", "powerlifting", "barbell", "bar", "volume",
	"intensity", "technique", "speed", "light", "easy", "medium", "moderate", "hard", "tough", "feeder", "feeders", "ramp", "ramped", "ramping", "worked", "build",
	"building", "built", "topset", "topsets", "deload", "taper", "peak", "peaking", "hypertrophy", "strength", "muscle", "block", "phase", "meet", "test",
	"tested", "testing", "maxed", "best", "worst", "ever", "old", "previous", "another", "other", "next", "felt", "feel", "feels", "feeling", "good", "great", "fine",
	"strong", "weak", "tired", "sore", "bad", "awful", "amazing", "awesome", "nice", "solid", "smooth", "fast", "slow", "sharp", "crap", "rough", "grindy",
	"grind", "ground", "super", "really", "very", "pretty", "quite", "kinda", "bit", "little", "some", "more", "less", "still", "going", "goes", "even", "again", "yet",
	"finished", "done", "doing", "complete", "completed", "trained", "train", "repped", "moved", "hitting", "had", "have", "has", "been", "is", "it",
	"its", "theres", "there", "here", "were", "are", "am", "be", "being", "me", "mine", "im", "ive", "myself", "own", "actually", "sorry", "oops", "wait", "no",
	"yeah", "but", "or", "as", "per", "about", "attempt", "attempts", "attempted", "tried", "try", "lucky", "happy", "proud", "stoked", "back", "tempo",
	"paused", "pause", "comp", "competition", "ss", "superset", "supersets", "giant", "circuit", "emom", "reps", "round", "rounds", "st", "nd", "rd", "th",
	"rest", "rested", "everything", "nothing", "much", "many", "too", "enough", "ish", "both", "sides", "side", "left", "fun", "real", "time", "times",
	"video", "form", "depth", "practice", "reference", "sure", "free", "science", "lunch", "dinner", "breakfast", "once", "twice", "life", "years", "months",
	"standing", "seated", "strict", "rack", "platform", "used", "using", "unbelted", "barefoot", "knees", "wrist", "gear", "equipped", "classic", "late", "early",
	"long", "short", "weighted", "banded", "unweighted", "busy", "cold", "hot", "fasted", "outside", "inside", "alone", "solo", "over", "under", "only", "always", "usual", "normal", "regular",
	"extra", "bonus", "optional", "amrap", "cluster", "clusters", "drop", "dropset", "dropsets", "straight", "across", "ladder", "wave", "numb")

// strange tells whether a word could be the name of somebody: it is none of the
// trade, of the calendar, of the body or of everyday comments. Single letters mark
// exercises.
func (r *reader) strange(t token) bool {
	if t.kind != word || r.s.lang.words[t.text] != unknown || len([]rune(t.text)) < 2 || fillers[t.text] || r.s.lang.plays(passing, t.text) || bodyParts[t.text] || painWords[t.text] {
		return false
	}
	_, weekday := weekdayOf(t.text)
	_, month := monthOf(t.text)
	_, unit := r.s.lang.units[t.text]
	return !weekday && !month && !unit && !r.s.lang.number(t.text) && r.s.lang.reps[t.text] == 0
}

// stranger notes a word that means nothing, and whether it could be a name in front of a set.
func (r *reader) stranger(t token) {
	c := r.now()
	if !implements[t.text] { // "db curls 15x12" is asked about as "curls 15x12" is
		c.unknown++
	}
	if !r.strange(t) {
		return
	}
	r.strangeAt = r.i
	c.strange++
	if c.works > 0 && r.i > 0 && (r.tok(r.i-1).text == "for" || r.tok(r.i-1).text == "by") && r.endsAt(r.i+1) {
		r.disown() // "140x5 for ben"
	}
}

// endsAt tells whether the clause ends at token i.
func (r *reader) endsAt(i int) bool {
	t := r.tok(i)
	return i >= len(r.tokens) || t.kind == sign && t.text != "-" && t.text != times && t.text != "@"
}

// disown makes the sets of the clause read so far somebody's to be asked about.
func (r *reader) disown() {
	for _, it := range r.items {
		if it.work != nil && it.work.clause == len(r.clauses)-1 {
			it.work.foreign = true
		}
	}
}

// somebody notes a person. In front of the sets they are that person's, with
// "with" in front they are asked about; behind them only "for" and "by" say so.
func (r *reader) somebody() {
	c := r.now()
	c.unknown++
	i := r.i - 1
	for r.tok(i).text == "my" || r.tok(i).text == "the" || r.tok(i).text == "our" || r.tok(i).text == "a" {
		i--
	}
	before := r.tok(i).text
	switch {
	case c.works == 0 && (before == "with" || before == "w"):
		c.strange++
	case c.works == 0, before == "for" || before == "by":
		c.void = true
		r.others = true
	}
}

// called notes a colon: a name in front of it says whose the sets behind it are.
func (r *reader) called() {
	c := r.now()
	if c.strange > 0 && c.works == 0 || r.strangeAt == r.i-1 && r.strangeAt >= 0 {
		r.foreign = true
	}
}

// nameOnly tells whether the first clause, which ends here, is one word that could
// be a name: "Maria, squat 140x5".
func (r *reader) nameOnly() bool {
	return len(r.clauses) == 1 && len(r.items) == 0 && r.strangeAt == 0 && r.i == 1
}

// notOwn tells whether the set that begins here, or the lift, has a possible name
// in front of it.
func (r *reader) notOwn(lift bool) bool {
	c := r.now()
	switch {
	case r.foreign:
		return true
	case lift:
		return c.works == 0 && c.strange > 0
	case r.afterLift():
		return r.strangeAt == r.i-1 && r.liftEnd == r.strangeAt && r.strangeAt >= 0 // "squat ben 140x5"
	}
	return c.works == 0 && c.strange > 0 && !r.hasLift()
}

// heading keeps for the lines below whose sets they are.
func (s *session) heading(r *reader) {
	if r.works() > 0 || r.hasLift() {
		return
	}
	names, own := 0, false
	for _, c := range r.clauses {
		names += c.strange
	}
	for _, t := range r.tokens {
		own = own || firstPerson[t.text]
	}
	colon := r.isSign(len(r.tokens)-1, ":")
	switch {
	case colon && r.others:
		s.planning = true
	case colon && names > 0:
		s.whose = true
	case own && names == 0:
		s.whose = false
	}
}
