package bot

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// example brings one kind of nudge about and says what its words must hold: the
// reason, and what to do.
type example struct {
	kind    nudge.Kind
	why, do string
	to      string // who is told; empty: ana
	advance string // the club's setting; empty: agreed
	from    string // when the clock begins to run
	prepare func(*talk)
	settles string // the button that settles it for good; empty: Fewer of these
}

// examples has a row for every kind. Whoever adds a kind adds a row.
func examples() []example {
	return []example{
		{kind: nudge.MeetNear, why: "counts back from that day", do: "/block", from: "2027-04-10"},
		{kind: nudge.TaperStart, why: "lets your strength show", do: "Do fewer sets", from: "2027-05-28"},
		{kind: nudge.LastHeavy, why: "freshness does", do: "leave it there", from: "2027-05-28"},
		{kind: nudge.DeloadWeek, why: "what you built comes through", do: "/week", from: "2027-02-01"},
		{kind: nudge.EntryCloses, why: "Without an entry", do: "enter", from: "2027-04-20", settles: "I have entered"},
		{kind: nudge.LicenceEnds, why: "let nobody lift without one", do: "Renew it in time", from: "2027-04-26", prepare: func(k *talk) {
			k.ok(k.say("ana", "/me licence until:2027-05-31"))
		}},
		{kind: nudge.Openers, why: "on a bad day", do: "Write down your openers", from: "2027-05-26"},
		{kind: nudge.WeighIn, why: "above it", do: "lift in the class you weigh", from: "2027-05-10"},
		{kind: nudge.Checklist, why: "leave time to replace", do: "Check your kit", from: "2027-04-26"},
		{kind: nudge.BlockBegin, why: "the plan you agreed to", do: "/today", from: "2027-02-12"},
		{kind: nudge.BlockEnd, why: "the plan you agreed to", do: "If that suits you", from: "2027-02-01", settles: "Not yet, one more week"},
		{kind: nudge.BlockWaits, why: "ended on", do: "Begin it, or take one more week", from: "2027-02-10", advance: "ask", settles: "Begin it"},
		{kind: nudge.BlockLate, why: "out of practice on the day", do: "Begin it now", from: "2027-04-20", advance: "ask", settles: "Begin it"},
		{kind: nudge.PeakingLong, why: "your usual limit is", do: "/season build", from: "2027-06-12", prepare: func(k *talk) {
			k.clock("2027-06-10T09:00:00Z")
			k.ok(k.say("ana", `/meet move name:"River Open" date:2027-08-07`))
		}, settles: "Build my plan"},
		{kind: nudge.AfterMeet, why: "The next plan counts from it", do: "/meet result", from: "2027-06-12"},
		{kind: nudge.Approval, why: "waits for your yes", do: "/club approve", to: "cap", from: "2027-01-05", prepare: func(k *talk) {
			k.ok(k.say("cap", "/nudges where direct"))
			k.ok(k.say("ben", "/me set level:novice category:men bodyweight:90"))
			k.ok(k.say("ben", `/meet add name:"River Open" date:2027-06-12 kind:main`))
			k.ok(k.say("ben", "/season build"))
			k.ok(k.press("ben", "Accept plan"))
		}},
		{kind: nudge.DoneForYou, why: "(By cap.)", do: "meet", from: "2027-01-05", prepare: func(k *talk) {
			k.ok(k.say("cap", `/meet add lifter:ana name:"Lake Cup" date:2027-07-10 kind:tune-up`))
		}, settles: "Look"},
		{kind: nudge.Silence, why: "No sets of yours since", do: "nothing changes unless you say so", from: "2027-01-05", settles: "Do not ask again this block"},
		{kind: nudge.VeryTired, why: "as far as you recover", do: "Take it easier", from: "2027-01-17", prepare: func(k *talk) {
			k.feels("ana", "2027-01-10", "2027-01-17", 2, 0)
		}, settles: "All right"},
		{kind: nudge.Plateau, why: "The estimate has fallen by about", do: "What usually helps", from: "2027-01-05", prepare: func(k *talk) {
			k.keepLog("ana", halted(planner.Bench, 140, -0.006, planner.NewDate(2027, 1, 3), 30, 0))
		}, settles: "All right"},
		{kind: nudge.Stale, why: "8 weeks are usual", do: "Change sooner", from: "2027-04-12", prepare: func(k *talk) {
			k.ok(k.say("ana", "/season pin kind:hypertrophy weeks:11"))
			k.ok(k.press("ana", "Accept plan"))
			k.ok(k.say("ana", "/season unpin all"))
			k.feels("ana", "2027-04-05", "2027-04-12", 0, 2)
		}, settles: "All right"},
		{kind: nudge.WorkFit, why: "builds something else", do: "/week", from: "2027-01-15", prepare: func(k *talk) {
			for _, d := range []int{6, 9, 12, 15} {
				two := 2.0
				k.keepLog("ana", []planner.Set{{Day: planner.NewDate(2027, 1, d), Lift: planner.Bench, Weight: 75 * planner.Kilogram, Reps: 10, Sets: 5, Reserve: &two}})
			}
		}, settles: "I train by my own plan"},
	}
}

// feels keeps two check-ins of a member: how tired and how stale, 0 to 2.
func (k *talk) feels(who, first, second string, tired, stale int) {
	k.t.Helper()
	id := k.lifter(who).ID
	for _, text := range []string{first, second} {
		day, err := planner.ParseDate(text)
		if err != nil {
			k.t.Fatal(err)
		}
		k.update(func(tx *store.Tx) error {
			return tx.AddCheckIn(id, store.CheckIn{Day: day, Tired: &tired, Stale: &stale}, k.now)
		})
	}
}

// start is a club in which the example's nudge will come.
func (x example) start(t *testing.T) (*talk, time.Time) {
	t.Helper()
	k := newTalk(t, "2027-01-04T09:00:00Z")
	if x.advance != "" {
		k.ok(k.say("cap", "/club settings advance:"+x.advance))
	}
	k.ok(k.say("ana", "/me set level:intermediate category:men bodyweight:90 class:83 nudges:direct public:no competed:no born:1996-05-14"))
	k.ok(k.say("ana", `/meet add name:"River Open" date:2027-06-12 kind:main closes:2027-05-20`))
	k.ok(k.say("ana", "/season build"))
	k.ok(k.press("ana", "Accept plan"))
	k.ok(k.say("ana", "squat 100x5"))
	if x.prepare != nil {
		x.prepare(k)
	}
	return k, k.at(x.from + "T00:00:00Z")
}

// first runs the clock up to the first direct message that tells the kind.
func (x example) first(k *talk, from time.Time) (chat.Post, string) {
	k.t.Helper()
	who := x.to
	if who == "" {
		who = "ana"
	}
	for day := range 60 {
		posts := k.fortnightRun(from.AddDate(0, 0, day), from.AddDate(0, 0, day+1))
		for key, p := range posts {
			if p.To.Person != who {
				continue
			}
			for _, fact := range k.factsOf(who) {
				if fact.Kind == string(x.kind) && fact.Post == key {
					k.now = p.At.Add(time.Hour)
					return p, fact.Key
				}
			}
		}
	}
	k.t.Fatalf("%s was not told within 60 days from %s", x.kind, x.from)
	return chat.Post{}, ""
}

// factsOf is a lifter's ledger.
func (k *talk) factsOf(who string) (all []store.Fact) {
	k.t.Helper()
	id := k.lifter(who).ID
	if err := k.store.View(context.Background(), func(tx *store.Tx) (err error) { all, err = tx.Facts(id, 1000); return err }); err != nil {
		k.t.Fatal(err)
	}
	return all
}

// Every kind of nudge says why and what to do, has a button, and once any button but
// the one that puts it off was pressed the same thing is never told again; behind the
// button that settles it, and behind 'Fewer of these', nothing of the kind is.
func TestEveryKindExplainsItselfAndIsSettledByAButton(t *testing.T) {
	if testing.Short() {
		t.Skip("long: left to the run without -short")
	}
	rows := examples()
	for _, s := range nudge.Kinds() {
		i := slices.IndexFunc(rows, func(x example) bool { return x.kind == s.Kind })
		if i < 0 {
			t.Errorf("%s has no example: add a row above", s.Kind)
			continue
		}
		x := rows[i]
		t.Run(string(s.Kind), func(t *testing.T) {
			k, from := x.start(t)
			p, _ := x.first(k, from)
			if len(p.Message.Buttons) == 0 || !slices.ContainsFunc(p.Message.Buttons, func(b chat.Button) bool { return b.Label == "Fewer of these" }) {
				t.Errorf("it cannot be stopped by a button: %+v", p.Message.Buttons)
			}
			for _, want := range []string{x.why, x.do} {
				if !strings.Contains(p.Message.Text, want) {
					t.Errorf("it says %q without %q", p.Message.Text, want)
				}
			}
			for _, b := range p.Message.Buttons {
				if b.Label != "Remind me tomorrow" {
					x.pressed(t, b.Label)
				}
			}
		})
	}
}

// pressed plays the example again, presses the button, and watches the two months
// after it.
func (x example) pressed(t *testing.T, label string) {
	t.Helper()
	k, from := x.start(t)
	p, key := x.first(k, from)
	who := p.To.Person
	i := slices.IndexFunc(p.Message.Buttons, func(b chat.Button) bool { return b.Label == label })
	if i < 0 {
		t.Fatalf("the second time there is no %q", label)
	}
	k.ok(k.pressToken(who, p.Message.Buttons[i].Token))
	if label == x.settles && label == "Build my plan" {
		k.ok(k.press(who, "Accept plan"))
	}
	posts := k.fortnightRun(k.now, k.now.AddDate(0, 2, 0))
	for _, f := range k.factsOf(who) {
		if _, told := posts[f.Post]; !told || f.State != store.FactSent || f.Kind != string(x.kind) {
			continue
		}
		stopped := label == "Fewer of these" || x.kind == nudge.EntryCloses && label == x.settles
		if strings.HasPrefix(f.Key, key) || stopped {
			t.Errorf("after %q it came again as %s on %s", label, f.Key, f.Due.Format(time.DateOnly))
		}
		if label == x.settles && sameObject(f.Key, key) {
			t.Errorf("%q did not settle it: it came again as %s", label, f.Key)
		}
	}
}

// sameObject tells whether two ledger keys, lifter/kind/object/date/fact, are about the
// same thing on the same day.
func sameObject(a, b string) bool {
	x, y := strings.Split(a, "/"), strings.Split(b, "/")
	return len(x) > 3 && len(y) > 3 && slices.Equal(x[:4], y[:4])
}
