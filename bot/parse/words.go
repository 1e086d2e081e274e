package parse

// meaning sorts the words of a line that are no lift, number or unit.
type meaning uint8

const (
	unknown  meaning = iota
	neutral          // fits any log line and says nothing
	intent           // speaks of what is to come
	gone             // speaks of what was long ago
	other            // speaks of somebody else, or of what did not happen
	separate         // begins a new clause
	missing          // the lift was missed
	making           // "got 2": repetitions really made
	failing          // as many as possible: nothing left
	gear             // supportive equipment
)

// englishTables are the words that everybody may write, but for the lifts and their
// forms. Another language is another such table.
var englishTables = tables{units: units, words: englishWords, roles: englishRoles, numbers: spelledNumbers, reps: repWords}

var englishWords = map[meaning][]string{
	neutral: {"at", "with", "on", "w", "for", "of", "a", "an", "to", "in", "the", "my", "i", "just", "by", "each", "did", "do", "new",
		"pr", "prs", "pb", "pbs", "finally", "today", "tonight", "session", "top", "set", "sets", "rep", "reps", "work", "working", "warmup",
		"warmups", "warm", "up", "backoff", "backoffs", "back", "off", "heavy", "opener", "also", "plus", "boom", "total", "weight",
		"weights", "kg", "lb", "all", "log", "training", "day", "belt", "beltless", "sleeves", "raw", "was", "hit", "made", "lol", "yay",
		"hell", "yeah", "lets", "go", "max", "single", "singles", "double", "doubles", "triple", "triples", "about", "around"},
	intent: {"tomorrow", "gonna", "going to", "going for", "about to", "wants", "wanted", "says", "said", "told", "will", "ill", "goal", "goals", "plan", "plans", "planned", "planning", "want", "wanna", "hope", "hoping",
		"hopefully", "aim", "aiming", "target", "should", "would", "could", "if", "maybe", "might", "next", "wish", "supposed", "remember",
		"imagine", "dream", "need", "needs", "attempting", "someday", "later", "unless", "example", "eg"},
	gone: {"used to", "last week", "last weeks", "last month", "last months", "last year", "last years", "last day", "last days", "last hour", "last time"},
	other: {"he", "she", "they", "his", "her", "hers", "their", "you", "your", "youre", "u", "ur", "someone", "somebody", "who", "guy",
		"everyone", "everybody", "anyone", "anybody", "we", "our", "us", "hes", "shes", "theyre", "him", "them",
		"not", "didnt", "dont", "never", "cant", "cannot", "couldnt", "wont", "shouldnt", "havent", "wasnt", "isnt", "skipped", "skip",
		"cancelled", "canceled", "can", "almost", "nearly", "instead", "shouldve", "wouldve", "couldve"},
	separate: {"then", "and", "n"},
	missing:  {"missed", "miss", "failed", "fail", "f", "nolift"},
	making:   {"got", "made", "only", "managed"},
	failing:  {"amrap", "failure"},
	gear:     {"wraps", "wrapped", "suit", "shirt"},
}

func sorted(lists map[meaning][]string) map[string]meaning {
	m := map[string]meaning{}
	for sort, words := range lists {
		for _, w := range words {
			m[w] = max(m[w], sort)
		}
	}
	return m
}

func setOf(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// repWords are names for sets of few repetitions.
var repWords = map[string]int{"single": 1, "double": 2, "triple": 3, "singles": 1, "doubles": 2, "triples": 3}

// englishRoles are the English words that play a part in some places.
var englishRoles = map[role][]string{
	lasting: {"tomorrow", "goal", "goals", "target", "plan", "planned", "someday", "later", "hopefully", "next"},
	asking: {"is", "are", "was", "were", "does", "do", "can", "could", "should", "would", "will", "what", "whats", "how", "hows", "why",
		"which", "when", "where", "who", "whos", "any", "anyone", "anybody"},
	contrasting: {"instead", "planned", "plan", "not", "supposed", "target", "wanted", "than"},
	passing: {"min", "mins", "minute", "minutes", "sec", "secs", "second", "seconds", "hr", "hrs", "h", "hour", "hours", "week", "weeks", "day", "days",
		"month", "months", "year", "years", "am", "pm", "st", "nd", "rd", "th", "rm", "people", "times", "cm", "km", "mi", "bpm", "cal", "kcal", "yo", "yr", "yrs",
		"oclock", "percent", "points", "pts", "euro", "euros", "more", "plates", "m", "g", "mg"},
	kin:         plurals(persons...),
	multiplying: {"by"},
	hundreds:    {"hundred"},
	joining:     {"and"},
	pointing:    {"point"},
}
