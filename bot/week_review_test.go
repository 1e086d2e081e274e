package bot

import (
	"strings"
	"testing"

	"blockbell/bot/chat"
)

// all joins what a message says.
func all(m chat.Message) string {
	return m.Title + "\n" + m.Text + "\n" + strings.Join(fieldTexts(m), "\n")
}

// While a plan waits for a yes, /today says whose, and does not ask for a new plan.
func TestTodaySaysWhoseYesIsMissing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:intermediate category:women competed:yes"))
	k.says(k.say("ana", "/today"), "No plan yet")
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-05-29 kind:main`))
	k.ok(k.say("ana", "/season build"))
	k.says(k.say("ana", "/today"), "Your plan waits", "waits for your yes: /season accept")
	k.ok(k.say("cap", "/me"))
	k.ok(k.say("ben", "/me set level:novice category:men competed:yes"))
	k.ok(k.say("ben", `/meet add name:"River Open" date:2027-05-29 kind:main`))
	k.ok(k.say("ben", "/season build"))
	k.ok(k.press("ben", "Accept plan"))
	k.says(k.say("ben", "/week"), "Your plan waits", "for your coach's yes")
}

// In a taper what was missed stays left out: it is neither listed nor fitted in, no
// session moves to the day before the meet, and that day says what comes.
func TestTaperLeavesAloneWhatWasMissed(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-03-06") // a Saturday
	k.ok(k.say("ana", `/week days:"mon thu"`))
	k.clock("2027-03-04T17:00:00Z")
	r := k.ok(k.say("ana", "/today"))
	if text := all(r.Message); strings.Contains(text, "Nothing is logged") || !strings.Contains(text, "taper") {
		t.Errorf("in the taper: %s", text)
	}
	if got := labels(r); strings.Contains(got, "Fit it in") || strings.Contains(got, "Move to tomorrow") || !strings.Contains(got, "Done") {
		t.Errorf("buttons %s", got)
	}
	k.clock("2027-03-05T17:00:00Z")
	k.says(k.say("ana", "/today"), "Nothing more is planned before River Open, Sat 6 March: tomorrow.")
}

// Without a bar there are accessories only: nothing can be logged as prescribed, and
// what the gym lacks is said once.
func TestSessionWithoutABar(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.strong("ana", "2027-05-29")
	k.ok(k.say("cap", "/club gym missing:barbell"))
	r := k.ok(k.say("ana", "/today"))
	if strings.Contains(labels(r), "Done") {
		t.Errorf("buttons %s", labels(r))
	}
	k.says(k.say("ana", "done"), "accessories only")
	week := all(k.ok(k.say("ana", "/week")).Message)
	if strings.Count(week, "Your gym lacks") != 1 || strings.Contains(week, "hold fewer sets") {
		t.Errorf("%s", week)
	}
}

// A session whose weights the lifter finds: 'done' names what is open, and is content
// once it is written.
func TestDoneWhereWeightsAreFound(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.planned("ana", "2027-06-12")
	k.ok(k.say("ana", "/today"))
	k.says(k.say("ana", "done"), "You find the weight of squat and")
	k.ok(k.say("ana", "squat 60x5 @7"))
	k.ok(k.say("ana", "bench 40x5 @7"))
	k.ok(k.say("ana", "deadlift 80x5 @7"))
	k.says(k.say("ana", "done"), "in your log already")
}

// Why says percent, max and reason once each, the max to the half kilogram; a swap says
// once how long it holds and what takes it back.
func TestWhyAndSwapSayThingsOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.strong("ana", "2027-05-29")
	k.ok(k.say("ana", "/today"))
	why := fieldTexts(k.ok(k.press("ana", "Why")).Message)
	if len(why) < 2 || strings.Count(why[1], "72") != 1 || !strings.Contains(why[1], "72.2 % of about 171 kg, 95 % of the max you told: 8 repetitions with 3 left.") {
		t.Errorf("%q", why)
	}
	k.ok(k.press("ana", "Swap"))
	k.ok(k.press("ana", "Squat"))
	r := k.ok(k.press("ana", "High-bar squat"))
	if text := r.Message.Text; strings.Count(text, "instead of squat") != 1 || !strings.Contains(text, "today only. As planned takes it back.") || strings.Contains(text, "override") {
		t.Errorf("%q", text)
	}
}

// In a gym with discs in pounds a lifter who reckons in kg is told which numbers are
// pounds.
func TestPoundsAreNamedToWhoReckonsInKilograms(t *testing.T) {
	k := newTalk(t, "2027-01-04T17:00:00Z")
	k.strong("ana", "2027-05-29")
	k.ok(k.say("cap", "/club gym unit:lb"))
	text := all(k.ok(k.say("ana", "/today")).Message)
	if !strings.Contains(text, "Warm up, in lb: bar x 8") || !strings.Contains(text, "each side 2 x 45 + 2 x 10 + 2.5 lb") {
		t.Errorf("%s", text)
	}
}

// A practice meet is no rest day: /today names it, and around it nothing missed is
// counted; the week behind it has more sets because it is over.
func TestTodayOnAPracticeMeet(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", `/meet add name:"Gym Cup" date:2027-03-20 kind:tune-up`))
	k.strong("ana", "2027-05-29")
	k.clock("2027-03-15T17:00:00Z")
	k.ok(k.say("ana", "/week"))
	k.clock("2027-03-19T17:00:00Z")
	r := k.ok(k.say("ana", "/today"))
	k.says(r, "Nothing more is planned before Gym Cup, Sat 20 March: tomorrow.")
	if strings.Contains(r.Message.Text, "Nothing is logged") {
		t.Errorf("%s", r.Message.Text)
	}
	k.clock("2027-03-20T09:00:00Z")
	k.says(k.say("ana", "/today"), "Gym Cup", "Practice meet: lift well inside")
	k.clock("2027-03-22T09:00:00Z")
	for _, line := range k.week("ana", "/week").Changed {
		if strings.Contains(line, "a meet is near") {
			t.Errorf("behind the meet: %s", line)
		}
	}
}
