package parse

import (
	"testing"

	"blockbell/planner"
)

// german is a second table: words of the trade as German lifters use them, beside
// the English ones (common practice).
var german = newLanguage(tables{
	lifts: []names{
		{lift: planner.Squat, words: []string{"kniebeuge", "kniebeugen", "beugen"}},
		{lift: planner.Squat, variant: Front, words: []string{"frontkniebeuge", "frontkniebeugen"}},
		{lift: planner.Bench, words: []string{"bankdrücken", "bankdruecken", "bank drücken"}, weak: []string{"bank"}},
		{lift: planner.Bench, variant: CloseGrip, words: []string{"enges bankdrücken"}},
		{lift: planner.Deadlift, words: []string{"kreuzheben"}, weak: []string{"heben"}},
		{lift: "row", words: []string{"rudern", "langhantelrudern"}},
		{lift: "pull-up", own: true, words: []string{"klimmzüge", "klimmzug"}},
	},
	forms: []forms{
		{words: []string{"pausierte", "pausiertes", "mit pause"}, lifts: map[planner.Lift]planner.Variant{planner.Squat: Paused, planner.Bench: "", planner.Deadlift: Paused}},
		{words: []string{"ohne pause"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: TouchAndGo}},
		{words: []string{"enges", "eng"}, lifts: map[planner.Lift]planner.Variant{planner.Bench: CloseGrip}},
	},
	units:   map[string]planner.Unit{"kilogramm": planner.KG, "pfund": planner.LB},
	numbers: map[string]int{"eins": 1, "zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "acht": 8, "zehn": 10, "zwanzig": 20, "vierzig": 40, "neunzig": 90},
	reps:    map[string]int{"einer": 1, "zweier": 2, "dreier": 3},
	roles: map[role][]string{
		lasting: {"morgen", "ziel"}, asking: {"hat", "wer"}, contrasting: {"statt"}, passing: {"minuten", "wochen"},
		kin: {"trainer", "schwester"}, multiplying: {"mal"}, hundreds: {"hundert"}, joining: {"und"}, pointing: {"komma"},
	},
	words: map[meaning][]string{
		gone:    {"letzte woche", "früher mal"},
		neutral: {"mit", "heute", "wiederholungen", "sätze", "auf", "und", "das", "ging"}, intent: {"morgen", "ziel", "plan", "habe vor", "werde", "möchte", "nächste woche"},
		missing: {"gescheitert", "fehlversuch"}, separate: {"dann"}, other: {"er", "sie"},
	},
})

func TestAnotherLanguageIsATable(t *testing.T) {
	for text, want := range map[string]string{
		"Kniebeuge 140x5": "squat 140kg x 5",
		"kniebeugen 140 x 5 x 5, dann Kniebeuge 120x8": "squat 140kg x 5 x 5; squat 120kg x 8",
		"Bankdrücken 3x5 92,5 kg @8":                   "bench 92.5kg x 5 x 3 @8",
		"BANKDRÜCKEN 100x3 ohne Pause":                 "touch and go bench 100kg x 3",
		"bank 100x5":                                   "bench 100kg x 5",
		"die Bank ist frei":                            "chatter",
		"enges Bankdrücken 90x5":                       "close grip bench 90kg x 5",
		"Kreuzheben 200x1 gescheitert":                 "deadlift 200kg x 1 missed",
		"pausierte Kniebeuge 120 Kilogramm x 3":        "paused squat 120kg x 3",
		"Kreuzheben 400 Pfund x 2":                     "deadlift 181.44kg x 2",
		"Frontkniebeuge 100x3":                         "front squat 100kg x 3",
		"Klimmzüge 3x8":                                "pull-up bw x 8 x 3",
		"morgen Kniebeuge 150x3":                       "chatter",
		"squat 140x5, Kreuzheben 180x3":                "squat 140kg x 5; deadlift 180kg x 3",
		"ich werde Kniebeuge 150x3 machen":             "chatter",
		"ich habe vor Kniebeuge 150x3":                 "chatter",
		"nächste Woche Kniebeuge 150x3":                "chatter",
		"letzte Woche Kniebeuge 150x3":                 "chatter",
		"früher mal Kniebeuge 150x3":                   "chatter",
		"Kniebeuge 140x5 morgen":                       "chatter",
		"Kniebeuge 140x5 statt 150x5":                  "squat 140kg x 5",
		"meine Schwester Kniebeuge 60x5":               "chatter",
		"wer hat Kniebeuge 140x5?":                     "chatter",
		"Kniebeuge 20 Minuten":                         "chatter",
		"Kniebeuge drei mal fünf mit hundert":          "squat 100kg x 5 x 3",
		"Bankdrücken neunzig Komma fünf mal fünf":      "bench 90.5kg x 5",
		"Kniebeuge zwei hundert einer":                 "squat 200kg x 1",
		"Kniebeuge hundert und vierzig mal drei":       "squat 140kg x 3",
		"Kniebeuge hundert fünf":                       "ask 1:11 Was that 1 repetition at 105 kg, or 5 repetitions at 100 kg? [1 repetition at 105 kg: squat 105kg x 1 | 5 repetitions at 100 kg: squat 100kg x 5 | No]",
		"going to squat 140x5":                         "chatter",
		"Kniebeuge\n140x5\n150x3 @9":                   "squat 140kg x 5; squat 150kg x 3 @9",
	} {
		c := lifter(planner.KG)
		c.Language = german
		if got := describe(Log(text, c), c); got != want {
			t.Errorf("%q\n got %s\nwant %s", text, got, want)
		}
	}
	// Without the table the same words mean nothing.
	c := lifter(planner.KG)
	if r := Log("Kniebeuge 140x5", c); len(r.Sets) != 0 {
		t.Errorf("read without its table: %+v", r.Sets)
	}
}

// English lines mean the same with another language beside them.
func TestEnglishStaysBesideAnotherLanguage(t *testing.T) {
	for _, row := range logLines(t, "accepted.tsv") {
		c := lifter(planner.Unit(row[0]))
		c.Language = german
		if got := describe(Log(row[1], c), c); got != row[2] {
			t.Errorf("%q\n got %s\nwant %s", row[1], got, row[2])
		}
	}
}
