package parse

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blockbell/planner"
)

// january is a context on 12 January 2027 in which nothing is known of the lifter.
func january() Context { return Context{Today: planner.NewDate(2027, time.January, 12)} }

func TestMissesAreNeverKeptAsMade(t *testing.T) {
	for _, text := range []string{"squat 170x1 no lift", "attempted squat 170x1 no lift", "squat 170x1 red lights", "squat 170x1 3 red lights", "squat 170x1 no rep",
		"squat 170x1, no lift", "squat 170x1 2 reds", "squat 170 no lift"} {
		r := Log(text, january())
		if len(r.Sets) != 1 || !r.Sets[0].Missed || r.Sets[0].Reps != 0 {
			t.Errorf("%q: %+v", text, r)
		}
	}
	for text, made := range map[string]int{"squat 140x5 failed 6th": 5, "squat 140x5 failed the 4th": 3, "squat 140x5 failed": 4} {
		r := Log(text, january())
		if len(r.Sets) != 1 || !r.Sets[0].Missed || r.Sets[0].Reps != made {
			t.Errorf("%q: %+v", text, r)
		}
	}
}

func TestOtherPeoplesLiftsAreNoOwnSets(t *testing.T) {
	for text, asked := range map[string]bool{
		"my coach squatted 150x1 yesterday": false, "coach squat 150x1": false, "my girlfriend squat 60x5": false, "squat 100x5 PR for my brother": false,
		"used to squat 180x3": false, "no squat 140x5 today": false, "I can squat 180x3": false, "my wife's squat 60x5 and bench 40x5": false,
		"ben squat 140x5": true, "for ben: squat 140x5": true, "Maria: squat 140x5": true, "Иван: squat 140x5": true, "Maria:\nSquat:\n60x5\n70x5": true,
		"squat 60x5 for maria": true, "ben and maria squat 60x5": true,
	} {
		r := Log(text, january())
		if len(r.Sets) != 0 || r.Chatter == asked || asked && (len(r.Questions) != 1 || !strings.Contains(r.Questions[0].Text, "Was this your") || len(r.Questions[0].Answers) != 2) {
			t.Errorf("%q: %+v", text, r)
		}
	}
	for _, text := range []string{"ok squat 140x5", "today: squat 140x5", "then bench 140x5", "top set squat 140x1 @8", "hello squat 140x5", "felt great, squat 140x5",
		"finally squat 140x5", "squat 140x5 with ben", "squat 140x5, coach is happy", "legs day: squat 140x5", "Heavy triples: squat 140x3", "comp squat 140x5"} {
		if r := Log(text, january()); len(r.Sets) != 1 || len(r.Questions)+len(r.Problems) != 0 {
			t.Errorf("%q is not logged: %+v", text, r)
		}
	}
}

func TestSomebodyElsesBodyweightIsNotTaken(t *testing.T) {
	for _, text := range []string{"my girlfriend bw 60", "maria bw 60", "she weighed 60"} {
		if r := Log(text, january()); r.Bodyweight != 0 {
			t.Errorf("%q: %+v", text, r)
		}
	}
}

func TestCorrectionsCarryWhatWasSaid(t *testing.T) {
	three := 3
	for text, want := range map[string]Correction{
		"no squat 90x3":       {Number: 90, Reps: &three, Lift: planner.Squat},
		"I meant 90x3":        {Number: 90, Reps: &three},
		"no 230":              {Number: 230},
		"no, 92,5 kg":         {Number: 92.5, UnitSaid: true},
		"no 225#x3":           {Number: 225, Reps: &three, UnitSaid: true},
		"i meant 90 for 3":    {Number: 90, Reps: &three},
		"oops, cg bench 90x3": {Number: 90, Reps: &three, Lift: planner.Bench, Variant: CloseGrip},
	} {
		r := Log(text, january())
		if r.Correct == nil || len(r.Sets) != 0 {
			t.Errorf("%q: %+v", text, r)
			continue
		}
		got := *r.Correct
		got.Weight = nil
		if !cmp.Equal(got, want) {
			t.Errorf("%q: %+v", text, got)
		}
	}
	for _, text := range []string{"no squat 90x5 today", "no 5", "*squat 140x5*", "**140x5**", "no 90x0", "no belt squat 140x5"} {
		if r := Log(text, january()); r.Correct != nil {
			t.Errorf("%q is a correction to %+v", text, *r.Correct)
		}
	}
}

func TestSecondThoughtsInOneLine(t *testing.T) {
	for _, text := range []string{"squat 140x5, no wait 145", "squat 140x5 sorry 145", "squat 140x5 i meant 145x5", "squat 150x5 make that 145kg"} {
		if r := Log(text, january()); len(r.Sets) != 1 || r.Sets[0].Weight != 145_000 || r.Sets[0].Reps != 5 {
			t.Errorf("%q: %+v", text, r)
		}
	}
	if r := Log("squat 140x5, no 145", january()); len(r.Sets) != 0 || len(r.Questions) != 1 {
		t.Errorf("a bare no is not asked about: %+v", r)
	}
}

func TestWrittenIn(t *testing.T) {
	for _, c := range []struct {
		g     planner.Grams
		usual planner.Unit
		want  planner.Unit
	}{
		{planner.Pounds(225), planner.KG, planner.LB}, {102_500, planner.KG, planner.KG}, {102_500, planner.LB, planner.KG}, {planner.Pounds(225), planner.LB, planner.LB},
		{102_123, planner.LB, planner.LB}, {102_123, planner.KG, planner.KG}, {102_123, "", planner.KG}, {20_000, "", planner.KG},
	} {
		if got := WrittenIn(c.g, c.usual); got != c.want {
			t.Errorf("%d g, usually %q: %s, want %s", c.g, c.usual, got, c.want)
		}
	}
}

func TestDaysWithoutAYear(t *testing.T) {
	for text, want := range map[string]string{
		"31.12. squat 150x3": "2026-12-31", "31.12.: squat 150x3": "2026-12-31", "31.12.\nsquat 150x3": "2026-12-31", "31.12 squat 150x3": "2026-12-31",
		"31/12 squat 150x3": "2026-12-31", "31/12/26 squat 150x3": "2026-12-31", "12.1. squat 150x3": "2027-01-12", "Thu 31.12. squat 150x3": "2026-12-31",
	} {
		if r := Log(text, january()); len(r.Sets) != 1 || r.Sets[0].Day.String() != want || len(r.Problems) != 0 {
			t.Errorf("%q: %+v", text, r)
		}
	}
	for _, text := range []string{"12/1 squat 150x3", "1/12 squat 150x3", "3/1 squat 150x3", "3/1: squat 150x3", "3/1\nsquat 150x3", "3-1 squat 150x3", "squat 150x3 3/1",
		"squat 3/1 150x3", "13.1. squat 150x3", "Fri 31.12. squat 150x3", "31.2. squat 150x3", "3/1 after work: squat 150x3", "12/1/27 squat 150x3"} {
		r := Log(text, january())
		if len(r.Sets) != 0 || len(r.Problems) != 1 || !strings.Contains(r.Problems[0].Text+r.Problems[0].Hint, "year-month-day") && !strings.Contains(r.Problems[0].Text, "There is no") &&
			!strings.Contains(r.Problems[0].Hint, "Choose a day") {
			t.Errorf("%q: %+v", text, r)
		}
	}
}

// A number with something unseen in it is not what it looks like.
func TestUnseenCharactersNeverMakeANumber(t *testing.T) {
	for _, unseen := range []string{"\x00", "\u200b", "\u200d", "\ufeff", "\u00ad", "\u2060", "\u202e", "\ufe0f\u20e3", "\u0336", "\u3164", "\u2028", "\v", "٤"} {
		for _, text := range []string{"squat 1_40x5", "squat 140x1_0", "squat 14_0 for 5", "140x5_0 squat", "Squat\n1_40x5"} {
			r := Log(strings.Replace(text, "_", unseen, 1), january())
			if len(r.Sets)+len(r.Questions) != 0 || len(r.Problems) != 1 || !strings.Contains(r.Problems[0].Text, "invisible character") {
				t.Errorf("%+q in %q: %+v", unseen, text, r)
			}
		}
		if r := Log("squat"+unseen+" 140x5", january()); len(r.Problems) != 0 {
			t.Errorf("%+q outside a number: %+v", unseen, r)
		}
	}
}

// What a person reads begins with what they typed, and units stand apart.
func TestWordsForPeople(t *testing.T) {
	for text, want := range map[string]string{
		"squat -5x5": "-5 kg: a weight lies between", "squat 140x500": "500 repetitions: ", "squat 5x5": "5x5: the weight is missing", "squat 140kg (200lb) x 5": "140 kg: two",
		"squat 140x5 @-1": "Effort -1: ", "squat 140x5 @8 @9": "Effort 9: ", "2027-04-01 squat 140x5": "Thu 1 April 2027: ",
	} {
		r := Log(text, january())
		if len(r.Problems) != 1 || !strings.HasPrefix(r.Problems[0].Text, want) {
			t.Errorf("%q: %+v", text, r.Problems)
		}
	}
	r := Log("squat 315x5\nbench 90 5x3?\ndeadlift 5x180", lifter(planner.KG))
	var texts []string
	for _, q := range r.Questions {
		texts = append(texts, q.Text)
	}
	if got := strings.Join(texts, " "); got != "Did you mean 315 lb? Was that 3 sets of 5 at 90 kg? Was that 5 repetitions at 180 kg?" {
		t.Errorf("%q", got)
	}
	_, err := Weight("-5", planner.LB)
	if got := sentence(t, err); !strings.HasPrefix(got, "-5 lb: a weight lies between 1 lb and 1,543 lb") {
		t.Errorf("%q", got)
	}
}

// The limits shown are themselves allowed.
func TestLimitsShownAreAllowed(t *testing.T) {
	for text, want := range map[string]planner.Grams{"1": planner.MinWeight, "1543": planner.Pounds(1543), "1543.2": planner.Pounds(1543.2)} {
		if got, err := Weight(text, planner.LB); err != nil || got != want {
			t.Errorf("%s lb: %d, %v", text, got, err)
		}
	}
	for text, want := range map[string]planner.Grams{"44": MinBodyweight, "772": MaxBodyweight} {
		if got, err := Bodyweight(text, planner.LB); err != nil || got != want {
			t.Errorf("%s lb: %d, %v", text, got, err)
		}
	}
	if got, err := Total("4630", planner.LB); err != nil || got != maxTotal {
		t.Errorf("%d, %v", got, err)
	}
}

func TestPainBesideASet(t *testing.T) {
	for text, want := range map[string]AlarmKind{
		"squat 140x5 felt numb": Alarm, "squat 140x5\nmy shoulder hurts": Pain, "squat 140x5, pulled a hamstring": Pain, "deadlift 200x1, passed out": Alarm,
		"squat 140x5, tweaked my knee": Pain, "squat 140x5, my back is killing me": NoAlarm, "squat 140x5, sore legs": NoAlarm,
		"squat 140x5, my brother hurt his knee": NoAlarm,
	} {
		r := Log(text, january())
		if r.Alarm != want || len(r.Sets) != 1 {
			t.Errorf("%q: %+v", text, r)
		}
	}
	for text, want := range map[string]AlarmKind{"pulled a hamstring": Pain, "my girlfriend hurt her knee": NoAlarm, "my brother fainted": NoAlarm, "numb to it": NoAlarm,
		"pulled the lat pulldown": NoAlarm, "how to treat knee pain": NoAlarm} {
		if r := Log(text, january()); r.Alarm != want {
			t.Errorf("%q: %q", text, r.Alarm)
		}
	}
}

// Parts of a line that were once passed over in silence, or made into a set of their
// own, are read or asked about.
func TestNothingOfALineIsLostInSilence(t *testing.T) {
	for _, text := range []string{"squat 140x5 @8 x2", "bench 80 5 5 5", "bench 100x 5 5", "squat 5x5 120 only got 4"} {
		if r := Log(text, january()); len(r.Sets) != 0 || len(r.Questions) != 1 {
			t.Errorf("%q is not asked about: %+v", text, r)
		}
	}
	r := Log("squat 5x5 120 only got 4 on the last", january())
	if len(r.Sets) != 2 || r.Sets[0].Sets != 4 || r.Sets[0].Reps != 5 || r.Sets[1].Reps != 4 || r.Sets[1].Missed {
		t.Errorf("the short last set is lost: %+v", r)
	}
}

func TestUnlikelyManyRepetitionsWait(t *testing.T) {
	for text, waits := range map[string]bool{"squat 140x50": true, "squat 140x30": true, "squat 120x20": false, "squat 140x10": false, "squat 60x30": false} {
		c := january()
		c.Best = func(planner.Lift) planner.Grams { return 170_000 }
		if r := Log(text, c); len(r.Sets) != 1 || r.Sets[0].Pending != waits || len(r.Questions) > 0 != waits {
			t.Errorf("%q: %+v", text, r)
		}
	}
}

// The usual ways to put a number right on a phone; chat that looks alike is left alone.
func TestWaysToPutANumberRight(t *testing.T) {
	for _, text := range []string{"oops 150 not 140", "typo 150", "150*", "*150", "sorry, 150 instead of 140", "no 150kg, not 140kg"} {
		if r := Log(text, january()); r.Correct == nil || *r.Correct.Weight != 150_000 || len(r.Problems) > 0 {
			t.Errorf("%q: %+v", text, r)
		}
	}
	for _, text := range []string{"typo", "150 not 140", "sorry 150 emails today", "no 150 people not 140", "5*"} {
		if r := Log(text, january()); r.Correct != nil {
			t.Errorf("%q corrects", text)
		}
	}
}
