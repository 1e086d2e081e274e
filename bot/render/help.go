package render

import (
	"strings"

	"blockbell/bot/chat"
)

// HelpLine is one command in the help.
type HelpLine struct {
	Path    string
	About   string
	Example string
	Options []HelpOption
}

// HelpOption is one option of a command in the help.
type HelpOption struct {
	Name     string
	About    string
	Required bool
}

// Help lists every command with what it does.
func Help(lines []HelpLine) chat.Message {
	text := []string{"Log by writing what you lifted, for example: squat 140x5 @8 (weight x reps; @8 is how hard it was, 10 is all you had)."}
	for _, l := range lines {
		text = append(text, l.Path+": "+l.About)
	}
	text = append(text, "More: /help and a command's name, /help words, /help privacy.")
	return chat.Message{Title: "What I can do", Text: clip(strings.Join(text, "\n"), chat.MaxText), Data: helpData(lines)}
}

// HelpFor explains one command with its options.
func HelpFor(name string, lines []HelpLine) chat.Message {
	m := chat.Message{Title: "/" + name, Data: helpData(lines)}
	for _, l := range lines {
		value := []string{Sentence(l.About)}
		for _, o := range l.Options {
			line := o.Name + ": " + o.About
			if o.Required {
				line += " (needed)"
			}
			value = append(value, line)
		}
		if l.Example != "" {
			value = append(value, "Example: "+l.Example)
		}
		m.Fields = append(m.Fields, chat.Field{Name: l.Path, Value: clip(strings.Join(value, "\n"), chat.MaxFieldValue)})
	}
	return m
}

func helpData(lines []HelpLine) map[string]any {
	rows := []map[string]any{}
	for _, l := range lines {
		options := []string{}
		for _, o := range l.Options {
			options = append(options, o.Name)
		}
		rows = append(rows, map[string]any{"command": l.Path, "about": l.About, "options": options})
	}
	return map[string]any{"commands": rows}
}

// Words explains the trade's words in plain ones.
func Words() chat.Message {
	pairs := [][2]string{
		{"Muscle block (hypertrophy)", "weeks of more sets and repetitions, to build muscle that later weeks turn into strength"},
		{"Strength block", "heavier weights, fewer repetitions: learning to use the muscle you have"},
		{"Peaking", "heavy singles and less work in the last weeks before a meet; it ends in a taper"},
		{"Taper", "easing off at the end of peaking: less work, nearly the same weights"},
		{"Deload", "an easy week at the end of a block"},
		{"Top set", "the heaviest set of a lift today"},
		{"Back-off", "the lighter sets after it"},
		{"Hard set", "a set that counts as work: no warm-up, and at most 5 more could have been done"},
		{"Left in reserve", "how many more repetitions you could have done; effort @8 means 2 left, @9 means 1, @10 none"},
		{"Estimated max", "what you could lift once, worked out from a set"},
		{"Opener", "the first of three attempts at a meet"},
		{"Practice meet (tune-up)", "a meet you lift in without peaking for it"},
		{"Bomb-out", "three misses in one lift: no total that day"},
		{"Points", "a score that compares totals across bodyweights"},
	}
	m := chat.Message{Title: "Words"}
	for _, p := range pairs {
		m.Fields = append(m.Fields, chat.Field{Name: p[0], Value: Sentence(p[1])})
	}
	return m
}

// Privacy says what is kept, who sees it and how it goes away.
func Privacy() chat.Message {
	return chat.Message{
		Title: "What I keep",
		Text: strings.Join([]string{
			"I keep your profile, your meets, your plans, the sets you log and the bodyweight you tell me. Everything but your name is optional.",
			"Of a message I keep its sets and its number, never its words. I keep nothing about pain, illness or injury; if you write of it I only say: stop, and talk to your coach or a doctor. That I showed you the hand today I remember for a day, so that it comes once.",
			"When you tell me that you are away, or take a lift off your plan, I keep the days and never a reason. Your coach and the captain see them.",
			"Of a file you import I keep its sets. What else I read of it waits a day at most for your yes; other columns are never kept.",
			"Of a licence I keep its last day and, if you like, its number, which I show to you alone. What you say after a meet is for you, your coach and the captain; words about pain or health are turned away.",
			"A captain can add lifters who have not joined yet: a name, maxima, a meet. They are named on the captain's lists only, and /me claim makes it theirs.",
			"Bodyweight and check-ins are for you and your own coach; /bodyweight seen_by widens or closes that. The answers of a check-in are two words a week, never a reason.",
			"Your other numbers are for you, your coach and the captain. In public I name you only for blocks and meets, and not at all after /me set public:no. Under 18, only the countdown to your meet is public.",
			"Everything lies in one file on the machine that runs me. Nothing is sold or passed on. /mydata export gives you a copy, /mydata erase deletes everything.",
		}, "\n"),
	}
}
