package bot

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// ask sends a structured command, as a platform does.
func (k *talk) ask(who string, words ...string) chat.Reply {
	k.t.Helper()
	return k.handle(k.asking(who, words...))
}

func (k *talk) asking(who string, words ...string) chat.Event {
	e := k.event(who)
	e.Kind, e.Command, e.Message = chat.Asked, words, ""
	return e
}

// disk is what lies on the disk: the database and its write-ahead log. Whatever is
// committed changes one of them.
func (k *talk) disk() [2][]byte {
	k.t.Helper()
	var files [2][]byte
	for i, end := range []string{"", "-wal"} {
		var err error
		if files[i], err = os.ReadFile(k.store.Path() + end); err != nil {
			k.t.Fatal(err)
		}
	}
	return files
}

// kept is everything the database holds.
func (k *talk) kept() string {
	k.t.Helper()
	var out bytes.Buffer
	if err := k.store.Export(context.Background(), &out); err != nil {
		k.t.Fatal(err)
	}
	return out.String()
}

// TestCommandsThatReadWriteNothing asks every command that is marked so, twice with
// one identity, and looks at the files.
func TestCommandsThatReadWriteNothing(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("cap", "2027-06-12")
	k.ok(k.say("cap", "squat 140x5 @8"))
	asked := 0
	for _, c := range Commands() {
		if !c.Reads {
			continue
		}
		asked++
		e := k.asking("cap", strings.Fields(c.Path()[1:])...)
		for _, p := range c.Params {
			if p.Required { // the example says what is allowed
				e.Options = append(e.Options, chat.Option{Name: p.Name, Value: strings.TrimPrefix(c.Example, c.Path()+" ")})
			}
		}
		before := k.disk()
		first, again := k.ok(k.handle(e)), k.ok(k.handle(e))
		if after := k.disk(); !bytes.Equal(before[0], after[0]) || !bytes.Equal(before[1], after[1]) {
			t.Errorf("%s wrote to the disk: the table must not mark it Reads", c.Path())
		}
		if diff := cmp.Diff(first, again); diff != "" {
			t.Errorf("%s: the second delivery is answered otherwise: %s", c.Path(), diff)
		}
	}
	if asked < 7 {
		t.Errorf("only %d commands are marked as reading", asked)
	}
}

// TestReadingGivesTheSameAnswerAsWriting compares each such command with the same
// one typed, which always goes through a write transaction.
func TestReadingGivesTheSameAnswerAsWriting(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("cap", "2027-06-12")
	k.planned("ana", "2027-05-01")
	k.ok(k.say("ana", "squat 140x5 @8"))
	for _, c := range Commands() {
		if !c.Reads {
			continue
		}
		for _, who := range []string{"cap", "ana"} {
			typed, asked := k.say(who, c.Path()), k.ask(who, strings.Fields(c.Path()[1:])...)
			if diff := cmp.Diff(typed, asked); diff != "" {
				t.Errorf("%s of %s: %s", c.Path(), who, diff)
			}
		}
	}
}

// TestANewcomerIsKeptOnce: who asks for the first time becomes a member, whatever
// they ask, and the answer is the one of a member.
func TestANewcomerIsKeptOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	e := k.asking("ana", "block")
	first := k.ok(k.handle(e))
	before := k.kept()
	if n := strings.Count(before, `"handle": "ana"`); n != 1 {
		t.Fatalf("ana is kept %d times", n)
	}
	if !strings.Contains(before, `"`+e.ID+`"`) {
		t.Error("the event that wrote something is not remembered")
	}
	if diff := cmp.Diff(first, k.ask("ana", "block")); diff != "" {
		t.Errorf("asked again: %s", diff)
	}
	if after := k.kept(); after != before {
		t.Errorf("asking again changed something: %s", cmp.Diff(before, after))
	}
}

// TestANewCaptainIsKept: a right that came with the event is kept, although the
// command only reads.
func TestANewCaptainIsKept(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.ask("ana", "help"))
	e := k.asking("ana", "club", "history")
	e.Author.Captain = true
	k.ok(k.handle(e))
	k.read(func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle("ana")
		if !l.Captain {
			t.Error("the captain was not kept")
		}
		return err
	})
}

// TestButtonsUnderWhatOnlyReadsCanBePressed: a block that waits is shown with two
// buttons, which must be kept; the event is then remembered like any other.
func TestButtonsUnderWhatOnlyReadsCanBePressed(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.ok(k.say("cap", "/club settings advance:ask"))
	k.planned("ana", "2027-06-12")
	season := data[seasonAnswer](t, k.ok(k.ask("ana", "season", "show")))
	k.now = season.Blocks[1].Start.AddDays(1).At(k.now.Location(), 9, 0)
	e := k.asking("ana", "block")
	if r := k.ok(k.handle(e)); len(r.Message.Buttons) != 2 {
		t.Fatalf("buttons %+v", r.Message.Buttons)
	}
	if r := k.handle(e); r.Kind != chat.Silent {
		t.Errorf("second delivery of an event that wrote: %+v", r)
	}
	k.ok(k.ask("cap", "club", "board"))
	k.ok(k.press("ana", "Begin it"))
	if got := data[blockAnswer](t, k.ok(k.ask("ana", "block"))); got.Block == nil || got.Block.Kind != season.Blocks[1].Kind {
		t.Errorf("begun: %+v", got.Block)
	}
	k.ok(k.press("cap", "Begin all that wait"))
}

// TestWhatWasWrittenIsReadAtOnce: a lifter who changes something and asks sees the
// change, every time.
func TestWhatWasWrittenIsReadAtOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for n := range 20 {
		name := fmt.Sprint("Open ", n)
		k.ok(k.say("ana", fmt.Sprintf("/meet add name:%q date:%s", name, planner.NewDate(2027, 6, 12).AddDays(n))))
		if got := data[struct{ Meets []struct{ Name string } }](t, k.ok(k.ask("ana", "meet", "list"))); len(got.Meets) != n+1 || got.Meets[n].Name != name {
			t.Fatalf("after %s: %+v", name, got.Meets)
		}
	}
}

// TestFiftyAtOnce has fifty lifters, half of them new, ask and write at the same
// time, each several times.
func TestFiftyAtOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for n := range 25 {
		k.ok(k.say(fmt.Sprint("old", n), "/me set level:novice"))
	}
	var events [][]chat.Event
	for n := range 50 {
		who := fmt.Sprint("new", n)
		if n%2 == 0 {
			who = fmt.Sprint("old", n/2)
		}
		line := k.event(who)
		line.Text = "squat 100x5"
		events = append(events, []chat.Event{k.asking(who, "block"), k.asking(who, "season", "show"), line, k.asking(who, "log", "recent"), k.asking(who, "block")})
	}
	var all sync.WaitGroup
	for _, of := range events {
		all.Go(func() {
			for i, e := range of {
				r, err := k.bot.Handle(context.Background(), e)
				if err != nil {
					t.Error(err)
				}
				if i == 3 && !strings.Contains(r.Message.Text+fmt.Sprint(r.Message.Fields), "100") {
					t.Errorf("%s does not see the set just written: %+v", e.Author.ID, r.Message)
				}
			}
		})
	}
	all.Wait()
	var handles []string
	k.read(func(tx *store.Tx) error {
		lifters, err := tx.Lifters()
		for _, l := range lifters {
			handles = append(handles, l.Handle)
		}
		return err
	})
	slices.Sort(handles)
	if len(handles) != 50 || len(slices.Compact(handles)) != 50 {
		t.Errorf("%d members: %v", len(handles), handles)
	}
}

// TestAnAnswerFromMemoryIsNotOneFromBeforeARestart: nothing is remembered that the
// file does not hold.
func TestAnAnswerFromMemoryIsNotOneFromBeforeARestart(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-06-12")
	before := k.ok(k.ask("ana", "block"))
	k.store = storetest.Reopen(t, k.store)
	k.bot = New(Config{Store: k.store, Captains: []string{"cap"}})
	if diff := cmp.Diff(before, k.ok(k.ask("ana", "block"))); diff != "" {
		t.Error(diff)
	}
}
