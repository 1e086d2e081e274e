package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"blockbell/bot/discord/discordtest"
)

// TestSeasonIsTheSameOnBothStages plays a season at the terminal and through the
// real program against the emulated platform, and compares everything the bot
// said and everything it kept.
func TestSeasonIsTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	raw, err := os.ReadFile(filepath.Join(scripts, "season.txt"))
	if err != nil {
		t.Fatal(err)
	}
	compareStages(t, string(raw), 120)
}

// TestReplanIsTheSameOnBothStages does the same with a season that does not go as
// planned.
func TestReplanIsTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	raw, err := os.ReadFile(filepath.Join(scripts, "replan.txt"))
	if err != nil {
		t.Fatal(err)
	}
	compareStages(t, string(raw), 60)
}

// TestWeeksAreTheSameOnBothStages does the same with the work of some weeks and its
// buttons.
func TestWeeksAreTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	raw, err := os.ReadFile(filepath.Join(scripts, "weeks.txt"))
	if err != nil {
		t.Fatal(err)
	}
	compareStages(t, string(raw), 60)
}

// TestTrendIsTheSameOnBothStages does the same with what is told about how training
// goes.
func TestTrendIsTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	raw, err := os.ReadFile(filepath.Join(scripts, "trend.txt"))
	if err != nil {
		t.Fatal(err)
	}
	compareStages(t, string(raw), 60)
}

// more is what the season leaves out: changed and removed messages, other channels,
// a thread of buttons, things only asked for, refusals, names with markup in them.
const more = `clock 2027-01-04T07:00:00Z
@cap /club settings zone:Europe/Lisbon hour:07:30 log_channel:#training-log
@ana /me set name:"An*a* _B_"
@ana /meet add name:"River *Open* ~~x~~ <@&1> # [a](b)" date:2027-05-15
@ana /me set name:"Ana B" category:women level:intermediate squat:120 bench:70 deadlift:150 nudges:channel
@ben /me set category:men level:novice squat:100 bench:70 deadlift:130 nudges:direct born:2011-02-03
@ana /meet add name:"River Open" date:2027-05-15 kind:main
@ben /meet add name:"Harbour Cup" date:2027-04-24 kind:main
@ana /season build
press @ana "Accept plan"
@ben /season build
press @ben "Accept plan"
press @ben "Accept plan"
@cap /club board
@ana /meet list
@ana /me show
@ana squat 100x5 @8
edit @ana squat 102.5x5 @8
@ana /log recent
@ana bench 60x5
delete @ana
@ana /log recent
@ben squat 80x5
@ben squat 800x5
@ben squat 80x-5
#announcements @ana squat 100x5
@ana squat 100x5\
bench 60x5
@ana deadlift 120x5 knee hurts
@ana bw 62.4
@ana /block aloud:yes
@ana /help
@ana /help words
@ana /help privacy
@ana /nudges
@ana /nudges off block-end
@ana /me set zone:Nowhere
@ben /block lifter:ana
@ana /meet move name:"No such meet" date:2027-05-22
@cap /club assign lifter:@ana coach:@ben group:monday
@ben /block lifter:@ana
@ben /block lifter:"Ana B"
@ana /mydata export
@cap /club announce
press @cap "Post it"
@cap /club announce text:"Bring *chalk* @everyone <@123> https://example.org/a_b_c"
press @cap "Post it"
clock 2027-02-20T09:00:00Z
@ana squat 130x1
@ana /season show
@ana /mydata erase
press @ana "Erase everything"
@ana /me show
clock 2027-05-20T09:00:00Z
`

func TestOddThingsAreTheSameOnBothStages(t *testing.T) {
	t.Parallel()
	compareStages(t, more, 60)
}

// zonesOf are the zones that a script speaks of.
func zonesOf(script string) (all []*time.Location) {
	all = append(all, time.UTC)
	for _, m := range zoneNamed.FindAllStringSubmatch(script, -1) {
		if zone, err := time.LoadLocation(m[1]); err == nil {
			all = append(all, zone)
		}
	}
	return all
}

var zoneNamed = regexp.MustCompile(`\bzone:(\S+)`)

// sameMoments tells whether what the terminal tells in words is what the platform
// shows in each reader's zone: each second there reads as the words do, in one of
// the zones.
func sameMoments(told, shown []string, zones []*time.Location) bool {
	if len(told) != len(shown) { // either may be the terminal's
		return false
	}
	for i := range told {
		words, mark := told[i], shownMoment.FindStringSubmatch(shown[i])
		if mark == nil {
			words, mark = shown[i], shownMoment.FindStringSubmatch(told[i])
		}
		if mark == nil {
			return words == told[i]
		}
		second, err := strconv.ParseInt(mark[1], 10, 64)
		reads := func(zone *time.Location) bool {
			return time.Unix(second, 0).In(zone).Format("Mon 2 January, 15:04") == words
		}
		if err != nil || !slices.ContainsFunc(zones, reads) {
			return false
		}
	}
	return true
}

func TestMomentsOfTheStagesAreCompared(t *testing.T) {
	zones := zonesOf("@ana /me set zone:Europe/Lisbon unit:kg")
	for _, c := range []struct {
		told, shown string
		want        bool
	}{
		{"Mon 5 July, 09:00", "<t:1814774400:f>", true},  // 08:00 UTC in summer
		{"Mon 5 July, 10:00", "<t:1814774400:f>", false}, // an hour off
		{"Tue 6 July, 09:00", "<t:1814774400:f>", false}, // a day off
	} {
		for _, turned := range []bool{false, true} {
			a, b := []string{c.told}, []string{c.shown}
			if turned {
				a, b = b, a
			}
			if got := sameMoments(a, b, zones); got != c.want {
				t.Errorf("%s and %s: %v", c.told, c.shown, got)
			}
		}
	}
	if sameMoments([]string{"Mon 5 July, 09:00"}, nil, zones) {
		t.Error("a moment that is missing is not seen")
	}
}

// compareStages fails where the stages differ, or where fewer things than least
// were heard at all.
func compareStages(t *testing.T, script string, least int) {
	t.Helper()
	lines := readScript(script)
	first, found := strings.CutPrefix(lines[0], "clock ")
	begin, err := time.Parse(time.RFC3339, first)
	if !found || err != nil {
		t.Fatalf("the script begins with %s", lines[0])
	}
	db := filepath.Join(t.TempDir(), "terminal.db")
	want := atTheTerminal(t, db, lines)

	s := newServing(t, discordtest.Options{Now: func() time.Time { return begin }})
	s.ready()
	got := onThePlatform(s, lines, want)
	if status := s.end(); status != statusOK {
		t.Errorf("serve ended with status %d", status)
	}
	count, moments := 0, 0
	for i := range want {
		count += len(want[i].heard)
		for _, h := range want[i].heard {
			moments += len(h.Moments)
		}
		if diff := cmp.Diff(want[i].heard, got[i].heard, cmpopts.EquateEmpty(), cmp.FilterPath(func(path cmp.Path) bool {
			return path.Last().String() == ".Moments"
		}, cmp.FilterValues(func(a, b []string) bool { return len(a)+len(b) > 0 },
			cmp.Comparer(func(told, shown []string) bool { return sameMoments(told, shown, zonesOf(script)) })))); diff != "" {
			t.Errorf("%s (-terminal +platform)\n%s", lines[i], diff)
		}
	}
	if count < least {
		t.Errorf("only %d things were heard", count)
	}
	t.Logf("%d lines, %d things heard on each stage, %d moments in them", len(lines), count, moments)
	if diff := cmp.Diff(keptData(t, db, nil), keptData(t, s.db, s.names())); diff != "" {
		t.Errorf("kept data (-terminal +platform)\n%s", diff)
	}
}

// names are the numbers of people and the names the script gives them.
func (s *serving) names() *strings.Replacer {
	var pairs []string
	for _, name := range []string{"cap", "mira", "bram", "odile", "teo", "kasia", "jun", "ana", "ben", "ines", "nuno", "lia", "tiago",
		"cleo", "dora", "emil", "finn", "greta", "hugo", "iris", "jan", "kira", "leo", "noel"} {
		pairs = append(pairs, s.srv.User(name).ID, name)
	}
	return strings.NewReplacer(pairs...)
}

// sortLists sorts the lists of handles in the body of a post: names and numbers
// have different orders.
func sortLists(v any) {
	switch v := v.(type) {
	case map[string]any:
		for _, part := range v {
			sortLists(part)
		}
	case []any:
		slices.SortStableFunc(v, func(a, b any) int {
			x, isText := a.(string)
			y, areText := b.(string)
			if !isText || !areText {
				return 0
			}
			return strings.Compare(x, y)
		})
		for _, part := range v {
			sortLists(part)
		}
	}
}

// tokens finds the names of buttons, which are chance.
var tokens = regexp.MustCompile(`"Token":\s*"[^"]*"`)

// announced finds the keys of announcements, which end in the number of an event.
var announced = regexp.MustCompile(`announce/(terminal/)?[0-9]+`)

// keptData is what a database holds of the club, table by table: not what belongs
// to one stage only, and not the numbers a platform gives to messages and events.
func keptData(t *testing.T, db string, names *strings.Replacer) map[string][]map[string]any {
	t.Helper()
	status, out, errs := run(t, "", "export", "--json", "--db", db)
	if status != statusOK {
		t.Fatalf("export: status %d: %s", status, errs)
	}
	if names != nil {
		out = names.Replace(out)
	}
	out = tokens.ReplaceAllString(out, `"Token":""`)
	out = announced.ReplaceAllString(out, "announce/")
	var all map[string][]map[string]any
	if err := json.Unmarshal([]byte(out), &all); err != nil {
		t.Fatal(err)
	}
	for _, table := range []string{"origin", "events", "terminal", "terminal_messages", "terminal_presses", "sign_ins", "home", "buttons", "button_uses"} {
		delete(all, table)
	}
	for _, rows := range all {
		for _, row := range rows {
			delete(row, "message")
			delete(row, "ref")
			if args, ok := row["args"].(map[string]any); ok {
				delete(args, "message")
			}
			sortLists(row["body"])
		}
		slices.SortFunc(rows, func(a, b map[string]any) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
	}
	return all
}
