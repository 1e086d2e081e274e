package bot

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

// oneOf picks a word.
func oneOf(r *rand.Rand, words ...string) string { return words[r.IntN(len(words))] }

// randomLifter joins somebody with settings, meets, perhaps a plan and perhaps a log,
// all drawn. What is refused for this lifter is left out.
func (k *talk) randomLifter(r *rand.Rand, who string) {
	k.t.Helper()
	born := fmt.Sprintf("%d-05-14", oneOfInt(r, 1996, 1980, 2011, 1961))
	k.ok(k.say(who, fmt.Sprintf("/me set level:%s category:%s bodyweight:%d class:83 born:%s zone:%s nudges:%s public:%s competed:%s",
		oneOf(r, "novice", "intermediate", "intermediate", "advanced", "elite"), oneOf(r, "women", "men"), 75+r.IntN(12), born,
		oneOf(r, "Europe/Lisbon", "America/New_York", "Pacific/Auckland", "Asia/Kolkata"), oneOf(r, "direct", "direct", "channel", "ask"), oneOf(r, "yes", "yes", "no"), oneOf(r, "yes", "no"))))
	day := k.now.AddDate(0, 0, 20+r.IntN(160))
	k.say(who, fmt.Sprintf(`/meet add name:"River Open" date:%s kind:main closes:%s`, day.Format(time.DateOnly), day.AddDate(0, 0, -10-r.IntN(25)).Format(time.DateOnly)))
	if r.IntN(2) == 0 {
		k.say(who, fmt.Sprintf(`/meet add name:"Hill Cup" date:%s kind:%s`, k.now.AddDate(0, 0, 15+r.IntN(150)).Format(time.DateOnly), oneOf(r, "tune-up", "test", "main")))
	}
	if r.IntN(6) > 0 {
		if b := k.say(who, "/season build"); b.Kind != chat.Failure {
			k.ok(k.say(who, "/season accept"))
		}
	}
	k.randomTimes(r, who)
}

func oneOfInt(r *rand.Rand, all ...int) int { return all[r.IntN(len(all))] }

// randomTimes draws when somebody is told things, and what not at all.
func (k *talk) randomTimes(r *rand.Rand, who string) {
	k.t.Helper()
	if r.IntN(2) == 0 {
		k.ok(k.say(who, fmt.Sprintf("/nudges hour %02d:%02d", r.IntN(24), 15*r.IntN(4))))
	}
	if r.IntN(2) == 0 {
		k.ok(k.say(who, fmt.Sprintf(`/nudges quiet days:"%s"`, oneOf(r, "sat sun", "mon tue wed thu fri sat", "wed", "none", "fri sat sun mon"))))
	}
	if r.IntN(4) == 0 {
		k.ok(k.say(who, fmt.Sprintf("/nudges snooze %d", r.IntN(25))))
	}
	for _, kind := range nudgeWords() {
		if r.IntN(8) == 0 {
			k.ok(k.say(who, "/nudges off "+kind))
		}
	}
}

// toldRow is one thing told or promised to a lifter.
type toldRow struct{ kind, at, public string }

func (r toldRow) String() string { return r.kind + " " + r.at + " " + r.public }

// promised is what /nudges says will come.
func (k *talk) promised(who string) (rows []toldRow) {
	k.t.Helper()
	coming := data[struct {
		Coming []struct {
			Kind   string
			At     time.Time
			Public bool
		}
	}](k.t, k.ok(k.say(who, "/nudges"))).Coming
	for _, c := range coming {
		rows = append(rows, toldRow{c.Kind, c.At.UTC().Format(time.RFC3339), fmt.Sprint(c.Public)})
	}
	return rows
}

// fortnightRun runs the clock for fourteen days and returns the posts by key.
func (k *talk) fortnightRun(from, to time.Time) map[string]chat.Post {
	k.t.Helper()
	made := map[string]chat.Post{}
	k.runClock(from, to, func(p chat.Post) { made[p.Key] = p })
	return made
}

// toldIn lists what posts told somebody, by the ledger.
func (k *talk) toldIn(who string, posts map[string]chat.Post) (rows []toldRow) {
	k.t.Helper()
	l := k.lifter(who)
	err := k.store.View(context.Background(), func(tx *store.Tx) error {
		facts, err := tx.Facts(l.ID, 1000)
		for _, f := range facts {
			p, made := posts[f.Post]
			if !made || f.State != store.FactSent {
				continue
			}
			named := p.To.Person == "" && slices.ContainsFunc(strings.Split(p.Message.Text, "\n"), func(line string) bool {
				_, names, _ := strings.Cut(line, ": ")
				return slices.Contains(strings.FieldsFunc(names, func(r rune) bool { return strings.ContainsRune(" ,.;", r) }), who)
			}) && newsKind(f.Kind) && !strings.Contains(f.Key, "/again-")
			rows = append(rows, toldRow{f.Kind, p.At.UTC().Format(time.RFC3339), fmt.Sprint(named)})
		}
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return rows
}

func newsKind(kind string) bool {
	for _, s := range nudge.Kinds() {
		if string(s.Kind) == kind {
			return s.Audience == nudge.News
		}
	}
	return false
}

// What /nudges promises for the next fortnight is what is posted in it, for two
// hundred drawn lifters, where nobody says anything meanwhile: the same kinds at the
// same moments in the same places.
func TestFortnightIsWhatIsPosted(t *testing.T) {
	if testing.Short() {
		t.Skip("long: left to the run without -short")
	}
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 14))
	clubs, each := 10, 20
	if testing.Short() {
		clubs = 2
	}
	rows := 0
	for range clubs {
		rows += compareFortnight(t, r, each)
	}
	t.Logf("%d lifters were told %d things, as promised", clubs*each, rows)
	if rows < clubs*each/2 {
		t.Errorf("only %d things were told at all", rows)
	}
}

// compareFortnight draws a club, lets some weeks go by, changes some settings, and
// compares what everybody is promised with what is posted.
func compareFortnight(t *testing.T, r *rand.Rand, each int) (rows int) {
	t.Helper()
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.now = k.now.AddDate(0, 0, r.IntN(300))
	k.ok(k.say("cap", fmt.Sprintf("/club settings hour:%02d:00 zone:%s advance:%s", 6+r.IntN(5), oneOf(r, "Europe/Lisbon", "America/New_York"), oneOf(r, "agreed", "ask"))))
	var all []string
	for i := range each {
		all = append(all, fmt.Sprintf("lifter%c", 'a'+rune(i)))
		k.randomLifter(r, all[i])
		if r.IntN(4) > 0 {
			k.say(all[i], "squat 100x5")
		}
	}
	past := k.now
	k.now = k.now.Add(time.Duration(r.IntN(60*24*60)) * time.Minute)
	k.fortnightRun(past, k.now)
	for _, who := range all {
		switch r.IntN(6) {
		case 0:
			k.randomTimes(r, who)
		case 1:
			k.say("cap", fmt.Sprintf(`/meet add lifter:%s name:"Lake Cup" date:%s kind:tune-up`, who, k.now.AddDate(0, 0, 3+r.IntN(40)).Format(time.DateOnly)))
		case 2:
			k.say(who, "/season away from:"+k.now.AddDate(0, 0, r.IntN(5)).Format(time.DateOnly)+" to:"+k.now.AddDate(0, 0, 6+r.IntN(20)).Format(time.DateOnly))
		}
	}
	want := map[string][]toldRow{}
	for _, who := range all {
		want[who] = k.promised(who)
	}
	posts := k.fortnightRun(k.now, k.now.Add(fortnight))
	for _, who := range all {
		got := k.toldIn(who, posts)
		byText := func(a, b toldRow) int { return strings.Compare(a.String(), b.String()) }
		slices.SortFunc(got, byText)
		slices.SortFunc(want[who], byText)
		if !slices.Equal(got, want[who]) {
			t.Errorf("%s asked on %s was promised\n%v\nand told\n%v", who, k.now.Format(time.RFC3339), want[who], got)
		}
		rows += len(got)
	}
	return rows
}
