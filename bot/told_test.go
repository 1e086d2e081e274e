package bot

import (
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

// letters collects what is posted unasked, and who can press what under it.
type letters struct {
	k     *talk
	posts []chat.Post
}

func (l *letters) Post(_ context.Context, p chat.Post) (chat.Ref, error) {
	l.posts = append(l.posts, p)
	for _, b := range p.Message.Buttons {
		who := b.Owner
		if p.To.Person != "" {
			who = p.To.Person
		}
		l.k.last[who] = append([]chat.Button{b}, l.k.last[who]...)
	}
	return chat.Ref(p.Key), nil
}

func (l *letters) Find(context.Context, chat.Post) (chat.Ref, bool, error) { return "", false, nil }

// sleep walks the clock to a day at nine, as the program would, and returns what was
// said unasked meanwhile.
func (k *talk) sleep(days int) []chat.Post {
	k.t.Helper()
	l := &letters{k: k}
	r := nudge.Runner{Store: k.store, Poster: l, Read: k.bot.ReadLog}
	until := k.now.Add(time.Duration(days) * 24 * time.Hour)
	for {
		at, more, err := r.Next(context.Background(), k.now, until)
		if err != nil {
			k.t.Fatal(err)
		}
		if !more {
			k.now = until
			return l.posts
		}
		k.now = at
		if err := r.Run(context.Background(), at); err != nil {
			k.t.Fatal(err)
		}
	}
}

// toldTo joins what a person was told directly.
func toldTo(posts []chat.Post, who string) string {
	var all []string
	for _, p := range posts {
		if p.To.Person == who {
			all = append(all, p.Message.Text)
		}
	}
	return strings.Join(all, "\n")
}

// says fails the test unless the reply says all of the words.
func (k *talk) says(r chat.Reply, words ...string) {
	k.t.Helper()
	k.ok(r)
	for _, w := range words {
		if !strings.Contains(r.Message.Title+"\n"+r.Message.Text, w) {
			k.t.Errorf("%q does not say %q", r.Message.Title+"\n"+r.Message.Text, w)
		}
	}
}

// labels are the buttons under a reply.
func labels(r chat.Reply) string {
	var all []string
	for _, b := range r.Message.Buttons {
		all = append(all, b.Label)
	}
	return strings.Join(all, ", ")
}

// versions counts a lifter's proposals.
func (k *talk) versions(who string) int {
	k.t.Helper()
	n := 0
	err := k.store.View(context.Background(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(who)
		if err != nil {
			return err
		}
		all, err := tx.Plans(l.ID)
		n = len(all)
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return n
}

// strong is a lifter whose total is known and who decides alone.
func (k *talk) strong(who, date string) {
	k.t.Helper()
	k.ok(k.say(who, "/me set level:intermediate category:men bodyweight:90 squat:180 bench:120 deadlift:220 competed:yes nudges:direct"))
	k.ok(k.say(who, `/meet add name:"River Open" date:`+date+` kind:main`))
	k.ok(k.say(who, "/season build"))
	k.ok(k.press(who, "Accept plan"))
}

func TestShortAbsenceChangesNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.sleep(20)
	r := k.say("ana", "/season away from:yesterday to:tomorrow")
	k.says(r, "Kept: away from Sat 23 January to Mon 25 January (3 days)", "stays as it is")
	if k.versions("ana") != 1 || labels(r) != "" {
		t.Errorf("%d versions, buttons %s", k.versions("ana"), labels(r))
	}
}

func TestLongAbsenceProposesOncePlanGoesOn(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-01")
	before := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks
	k.sleep(21)
	r := k.say("ana", "/season away from:2027-01-25 to:2027-03-14")
	k.says(r, "49 days", "goes on as agreed until you accept", "Agreed so far", "New: ")
	if labels(r) != "Accept plan, Keep my plan" {
		t.Errorf("buttons %s", labels(r))
	}
	if now := data[seasonAnswer](t, k.ok(k.say("ana", "/season"))).Blocks; !sameBlocks(now, before) {
		t.Errorf("the agreed plan changed by itself: %v", now)
	}
	k.press("ana", "Keep my plan")
	n := k.versions("ana")
	// The same thing again is not proposed again.
	r = k.say("ana", "/season away from:2027-01-25 to:2027-03-14")
	k.says(r, "turned down before")
	if k.versions("ana") != n {
		t.Errorf("%d versions, then %d", n, k.versions("ana"))
	}
	k.says(k.say("ana", "/season build"), "Proposed plan")
}

func TestAbsenceWithoutEndWaitsForTheReturn(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	r := k.say("ana", "/season away")
	k.says(r, "Kept: away from Mon 4 January on.", "waits until you are back")
	if labels(r) != "Back now" {
		t.Errorf("buttons %s", labels(r))
	}
	k.says(k.say("ana", "/season away"), "Away from Mon 4 January on.")
	k.sleep(17)
	k.says(k.say("ana", "/block"), "Away from Mon 4 January on.")
	if r := k.ok(k.say("ana", "/block aloud:yes")); strings.Contains(r.Message.Text, "Away") || labels(r) != "" {
		t.Errorf("told aloud: %s", r.Message.Text)
	}
	k.says(k.press("ana", "Back now"), "Good to have you back", "Back after 17 days, week 1 of 2: about 60 % of your sets, weights about 10 % lower. Nothing at 85 % or more before Sat 30 January.")
	k.says(k.say("ana", "/block"), "week 1 of 2")
	k.sleep(8)
	k.says(k.say("ana", "/block"), "week 2 of 2: about 80 % of your sets, weights about 5 % lower. Nothing at 85 %")
	k.sleep(8)
	if r := k.ok(k.say("ana", "/block")); strings.Contains(r.Message.Text, "Back after") {
		t.Errorf("the way back goes on: %s", r.Message.Text)
	}
	k.refused(k.say("ana", "/season back"), "not marked as away")
}

func TestAwayRefusesWhatIsNoTime(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for text, want := range map[string]string{
		"/season away from:2027-02-10 to:2027-02-01": "lies before the first day away, Wed 10 February 2027",
		"/season away from:2030-02-10":               "more than a year",
		"/season away from:soon":                     "from: ",
		"/season away to:2021-02-10":                 "before the first day",
	} {
		k.refused(k.say("ana", text), want)
	}
}

// A holiday that falls through is taken back with one tap.
func TestTimeAwayForLaterCanBeTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-05-08")
	k.ok(k.say("ana", "/season away from:2027-02-01 to:2027-03-07"))
	k.says(k.say("ana", "/season back"), "not marked as away today. Told for later: away from Mon 1 February")
	k.says(k.press("ana", "Not away after all"), "Taken back: not away then.", "stays as it is")
	k.refused(k.say("ana", "/season back"), "not marked as away")
}

// Away is told for a lifter by captain and coach only, and the lifter can take it
// back.
func TestAwayToldForALifterCanBeTakenBack(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.ok(k.say("ben", "/me"))
	k.refused(k.say("ben", "/season away to:2027-01-10 lifter:ana"), "captain")
	k.says(k.say("cap", "/season away to:2027-01-10 lifter:ana"), "Kept for ana: away")
	posts := k.sleep(1)
	if got := toldTo(posts, "ana"); !strings.Contains(got, "You are marked as away from Mon 4 January to Sun 10 January") || !strings.Contains(got, "(By cap.)") {
		t.Errorf("ana was told %q", got)
	}
	r := k.press("ana", "Look")
	if labels(r) != "Build my plan, Take back 1" {
		t.Errorf("buttons %s", labels(r))
	}
	k.says(k.press("ana", "Take back 1"), "Taken back")
	k.says(k.press("ana", "Take back 1"), "Already done")
	if r := k.ok(k.say("ana", "/block")); strings.Contains(r.Message.Text, "Away") {
		t.Errorf("still away: %s", r.Message.Text)
	}
}

func TestLiftComesOffThePlanWithoutAReason(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-02-20")
	r := k.say("ana", "/season rest lift:squat until:2027-02-08")
	k.says(r, "The squat is off your plan until Mon 8 February 2027, in 35 days.", "I do not ask", "River Open is on Sat 20 February: too near to peak with the squat")
	k.says(k.say("ana", "/block"), "Squat off the plan until Mon 8 February.")
	k.says(k.press("ana", "Put it back"), "back on the plan")
	k.refused(k.say("ana", "/season rest squat until:now"), "on the plan already")
	k.refused(k.say("ana", "/season rest lift:squat until:2026-01-01"), "until: ")
	k.refused(k.say("ana", "/season rest lift:curl until:tomorrow"), "cannot be")
	k.ok(k.say("ana", "/season rest lift:bench until:tomorrow"))
	var kept struct {
		Kept struct {
			Off []struct {
				Lift  string
				Until string `json:"until_day"`
			} `json:"lifts_off"`
		} `json:"kept"`
	}
	if err := json.Unmarshal(k.ok(k.say("ana", "/mydata export")).Message.Files[0].Bytes, &kept); err != nil || len(kept.Kept.Off) != 1 || kept.Kept.Off[0].Until != "2027-01-05" {
		t.Errorf("export %+v, %v", kept, err)
	}
	k.says(k.say("ana", "/block"), "Bench off the plan until Tue 5 January.")
	k.sleep(1)
	if r := k.ok(k.say("ana", "/block")); strings.Contains(r.Message.Text, "Bench off") {
		t.Errorf("the bench is still off: %s", r.Message.Text)
	}
}

func TestSilenceIsAskedOnceAndOnlyTheAnswerCounts(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-06-12")
	k.ok(k.say("ana", "squat 140x5"))
	got := toldTo(k.sleep(12), "ana")
	if strings.Count(got, "No sets of yours since Mon 4 January") != 1 {
		t.Fatalf("ana was told %q", got)
	}
	k.says(k.press("ana", "I was away"), "When were you away?")
	if n := k.versions("ana"); n != 1 {
		t.Errorf("%d versions before the answer", n)
	}
	k.says(k.press("ana", "Since Tue 5 January, back now"), "Kept: away from Tue 5 January to Fri 15 January (11 days)")
	if got := toldTo(k.sleep(8), "ana"); strings.Contains(got, "No sets") {
		t.Errorf("asked again at once: %q", got)
	}
	// Ten days after the return it is silence again.
	if got := toldTo(k.sleep(3), "ana"); !strings.Contains(got, "No sets") {
		t.Errorf("not asked after the return: %q", got)
	}
	k.says(k.press("ana", "Do not ask again this block"), "I do not ask again before")
	if got := toldTo(k.sleep(13), "ana"); strings.Contains(got, "No sets") {
		t.Errorf("asked although told not to: %q", got)
	}
}

func TestSilenceHasItsReasons(t *testing.T) {
	for name, c := range map[string]struct {
		before []string
		asked  bool
	}{
		"logged":              {[]string{"squat 140x5"}, true},
		"never logs":          {nil, false},
		"away":                {[]string{"squat 140x5", "/season away from:2027-01-12 to:2027-02-10"}, false},
		"a meet near":         {[]string{"squat 140x5", `/meet add name:"Gym Test" date:2027-01-20 kind:test`}, false},
		"switched off":        {[]string{"squat 140x5", "/nudges off silence"}, false},
		"only when asked":     {[]string{"squat 140x5", "/nudges where ask"}, false},
		"no plan but a meet":  {[]string{"/meet drop River"}, false},
		"trained and said so": {[]string{"squat 140x5"}, true},
	} {
		t.Run(name, func(t *testing.T) {
			k := newTalk(t, "2027-01-04T09:00:00Z")
			if name == "no plan but a meet" {
				k.ok(k.say("ana", "squat 140x5"))
			} else {
				k.strong("ana", "2027-06-12")
				for _, line := range c.before {
					k.ok(k.say("ana", line))
				}
			}
			if got := strings.Contains(toldTo(k.sleep(12), "ana"), "No sets"); got != c.asked {
				t.Errorf("asked: %v", got)
			}
			if name == "trained and said so" {
				k.says(k.press("ana", "Trained, did not log"), "all goes on as planned")
				if got := toldTo(k.sleep(9), "ana"); strings.Contains(got, "No sets") {
					t.Errorf("asked again: %q", got)
				}
			}
		})
	}
}

func TestNewLiftersLearnFirst(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("ana", "/me set level:new"))
	k.says(k.say("ana", "/season build"), "Learn the lifts first", "8 to 12 weeks", "Mon 1 March 2027")
	k.sleep(30)
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-03-13`))
	r := k.say("ana", "/season build")
	k.says(r, "Mon 1 March 2027, in 26 days", "River Open is in 38 days. Go and lift light")
	if got := data[seasonAnswer](t, r); len(got.Blocks) != 0 || labels(r) != "" {
		t.Errorf("%+v, buttons %s", got.Blocks, labels(r))
	}
	k.sleep(30)
	k.says(k.say("ana", "/season build"), "You have had the time for it")
	if k.versions("ana") != 0 {
		t.Error("a plan was proposed")
	}
	k.says(k.say("ana", "/season build level:novice"), "What if")
}

// Two times away that were told one after the other: neither is lost. One without a
// last day leaves what is told for later, and the other way round.
func TestOpenAwayLeavesWhatIsToldForLater(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-07-10")
	k.ok(k.say("ana", "/season away from:2027-02-15 to:2027-02-28"))
	k.says(k.say("ana", "/season away"), "Kept: away from Mon 4 January on.", "Still told for later: away from Mon 15 February to Sun 28 February (14 days).")
	k.sleep(10)
	k.says(k.press("ana", "Back now"), "Good to have you back")
	k.says(k.say("ana", "/season back"), "Told for later: away from Mon 15 February to Sun 28 February")

	k.ok(k.say("ana", "/season away"))
	k.says(k.say("ana", "/season away from:2027-03-20 to:2027-03-28"), "Kept: away from Sat 20 March to Sun 28 March", "Still away as well: from Thu 14 January on.")
	k.sleep(3)
	k.says(k.say("ana", "/season away from:2027-01-17 to:2027-01-20"), "Kept: away from Thu 14 January to Wed 20 January (7 days).", "That takes the place of: from Thu 14 January on.")
}

// Where a time without a last day runs into one that was told, coming back ends both.
func TestBackEndsAllTimesAway(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-07-10")
	k.ok(k.say("ana", "/season away from:2027-01-15 to:2027-01-31"))
	k.ok(k.say("ana", "/season away"))
	k.sleep(16)
	k.says(k.say("ana", "/season back"), "Good to have you back")
	k.refused(k.say("ana", "/season back"), "not marked as away")
}

// The club's closure takes nobody's own time away from them.
func TestClubAwayLeavesOwnTimes(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-07-10")
	k.ok(k.say("ana", "/season away from:2027-02-01 to:2027-03-07"))
	k.ok(k.say("cap", "/club away from:2027-02-10 to:2027-02-14"))
	k.clock("2027-02-20T09:00:00Z")
	k.says(k.say("ana", "/season away"), "Away from Mon 1 February to Sun 7 March")
}
