package discord_test

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
)

const callbackRoute = "/interactions/{interaction_id}/{interaction_token}/callback"

// soonDeferred makes deferral quick enough for a test.
func soonDeferred(s *setup) { s.conf.Timing.Defer = 20 * time.Millisecond }

// acknowledged counts the first answers that the platform has heard.
func (p *play) acknowledged() int {
	n := 0
	for _, r := range p.srv.RequestsTo("POST", callbackRoute) {
		if r.Status/100 == 2 {
			n++
		}
	}
	return n
}

// slow answers only after the deferral has reached the platform, having done what
// takes so long.
func (p *play) slow(r chat.Reply, work ...func()) {
	before := p.acknowledged()
	p.answers(func(ctx context.Context, _ chat.Event) (chat.Reply, error) {
		if err := p.srv.Until(ctx, func() bool { return p.acknowledged() > before }); err != nil {
			return chat.Reply{}, err
		}
		for _, w := range work {
			w()
		}
		return r, nil
	})
}

func TestCommandIsAnsweredPrivately(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Week 3 of 6.", true))
	act := p.srv.User("ana").Command("#training-log", "block")
	m, err := act.AwaitMessage(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	if m.Content != "Week 3 of 6." || !m.Private() || act.Callback() != 4 {
		t.Errorf("answered with %d, %v; want a private message at once", act.Callback(), m)
	}
	if seen := p.srv.User("bea").Sees("#training-log"); len(seen) != 0 {
		t.Errorf("others see %v", seen)
	}
}

func TestPublicAnswerIsSeenByAll(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("For all.", false))
	if _, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	if seen := p.srv.User("bea").Sees("#training-log"); len(seen) != 1 || seen[0].Content != "For all." {
		t.Errorf("others see %v", seen)
	}
}

func TestFailureIsAlwaysPrivate(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(chat.Reply{Kind: chat.Failure, Message: chat.Message{Text: "No such day."}})
	m, err := p.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t))
	if err != nil || !m.Private() {
		t.Errorf("%v %v", m, err)
	}
}

func TestSlowAnswerIsDeferredPrivately(t *testing.T) {
	p := start(t, withTable, soonDeferred)
	p.registered()
	p.slow(quick("It took a while.", true))
	act := p.srv.User("ana").Command("#training-log", "block")
	m, err := act.AwaitMessage(soon(t))
	if err != nil || act.Callback() != 5 || m.Content != "It took a while." || !m.Private() {
		t.Errorf("callback %d, %v, %v", act.Callback(), m, err)
	}
}

func TestSlowPublicAnswerStandsBesideTheDeferral(t *testing.T) {
	p := start(t, withTable, soonDeferred)
	p.registered()
	p.slow(quick("For all.", false))
	act := p.srv.User("ana").Command("#training-log", "block")
	more, err := act.AwaitFollowUps(soon(t), 1)
	if err != nil || more[0].Content != "For all." || more[0].Private() {
		t.Errorf("%v %v", more, err)
	}
	if first, err := act.AwaitMessage(soon(t)); err != nil || !first.Private() {
		t.Errorf("the deferral ended with %v %v", first, err)
	}
}

func TestDeferralComesWhileAnEarlierEventOfThePersonIsUnderWay(t *testing.T) {
	p := start(t, withTable, soonDeferred)
	p.registered()
	release := make(chan struct{})
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) {
		<-release
		return quick("Done.", true), nil
	})
	first := p.srv.User("ana").Command("#training-log", "block")
	second := p.srv.User("ana").Command("#training-log", "season show")
	for _, act := range []*discordtest.Action{first, second} {
		if kind, err := act.Await(soon(t)); err != nil || kind != 5 {
			t.Errorf("callback %d, %v", kind, err)
		}
	}
	close(release)
	if m, err := second.AwaitMessage(soon(t)); err != nil || m.Content != "Done." {
		t.Errorf("%v %v", m, err)
	}
}

func TestOldInteractionIsDroppedBeforeAnyWork(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Now.", true))
	p.srv.Gateway().Refuse(true)
	p.srv.Gateway().Drop()
	p.until(func() bool { return p.srv.Gateway().Stats().Ready == 0 })
	old := p.srv.User("ana").Command("#training-log", "block")
	p.srv.Advance(3100 * time.Millisecond)
	p.srv.Gateway().Refuse(false)
	p.ready(2)
	fresh := p.srv.User("ana").Command("#training-log", "season show")
	if _, err := fresh.AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	if _, err := old.Await(soon(t)); !errors.Is(err, discordtest.ErrNoResponse) {
		t.Errorf("the old one was answered: %v", err)
	}
	if heard := p.bot.await(t, 1); len(heard) != 1 || heard[0].ID != fresh.ID {
		t.Errorf("the bot worked at %+v", heard)
	}
}

func TestDuplicateInteractionIsHandledOnce(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.says(quick("Once.", true))
	act := p.srv.User("ana").Command("#training-log", "block")
	act.Repeat()
	if _, err := act.AwaitMessage(soon(t)); err != nil {
		t.Fatal(err)
	}
	p.answering()
	if n := len(p.bot.await(t, 2)); n != 2 {
		t.Errorf("%d events were worked at, want 2", n)
	}
}

func TestPanicIsAnsweredWithAReference(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) { panic("plates fell") })
	act := p.srv.User("ana").Command("#training-log", "block")
	m, err := act.AwaitMessage(soon(t))
	if err != nil || !m.Private() || !strings.Contains(m.Content, act.ID) {
		t.Errorf("%v %v", m, err)
	}
	if !strings.Contains(p.log.String(), "plates fell") {
		t.Error("the cause is not in the log")
	}
	p.answering()
}

func TestErrorOfTheBotIsAnsweredWithAReference(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) { return chat.Reply{}, errors.New("disk full") })
	act := p.srv.User("ana").Command("#training-log", "block")
	if m, err := act.AwaitMessage(soon(t)); err != nil || !strings.Contains(m.Content, act.ID) {
		t.Errorf("%v %v", m, err)
	}
}

// TestFirstAnswerSurvivesFaults breaks the first answer in each way that can be
// made good.
func TestFirstAnswerSurvivesFaults(t *testing.T) {
	for name, f := range map[string]discordtest.Fault{
		"429 short":             {Kind: discordtest.TooMany, RetryAfter: 50 * time.Millisecond},
		"429 short, global":     {Kind: discordtest.TooMany, RetryAfter: 50 * time.Millisecond, Scope: "global", NoReset: true},
		"429 as a page":         {Kind: discordtest.TooMany, RetryAfter: 50 * time.Millisecond, HTML: true},
		"500":                   {Kind: discordtest.RefuseBefore, Status: 500},
		"502 before the work":   {Kind: discordtest.RefuseBefore, Status: 502},
		"502 after the work":    {Kind: discordtest.RefuseAfter, Status: 502},
		"503 as a page":         {Kind: discordtest.RefuseBefore, Status: 503, HTML: true},
		"504":                   {Kind: discordtest.RefuseBefore, Status: 504},
		"cut before the work":   {Kind: discordtest.CutBefore},
		"cut after the work":    {Kind: discordtest.CutAfter},
		"cut within the answer": {Kind: discordtest.CutBody},
	} {
		t.Run(name, func(t *testing.T) {
			p := start(t, withTable)
			p.registered()
			f.Method, f.Route = "POST", callbackRoute
			p.srv.Fail(f)
			p.says(quick("Here.", true))
			act := p.srv.User("ana").Command("#training-log", "block")
			m, err := act.AwaitMessage(soon(t))
			if err != nil || m.Content != "Here." {
				t.Fatalf("%v %v", m, err)
			}
			if strings.Contains(p.log.String(), act.Token()) {
				t.Error("the interaction's token is in the log")
			}
			p.answering()
			if n := len(p.srv.User("ana").Sees("#training-log")); n != 2 {
				t.Errorf("%d messages are there, want one an interaction", n)
			}
		})
	}
}

func TestLongRateLimitOfOneAnswerHoldsUpNoOther(t *testing.T) {
	p := start(t, withTable, func(s *setup) { s.conf.Timing.Answer, s.conf.Timing.Defer = 900*time.Millisecond, 100*time.Millisecond })
	p.registered()
	p.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: discordtest.TooMany, RetryAfter: 4 * time.Second})
	p.says(quick("Here.", true))
	stuck := p.srv.User("ana").Command("#training-log", "block")
	p.until(func() bool { return len(p.srv.RequestsTo("POST", callbackRoute)) == 1 })
	if m, err := p.srv.User("bea").Command("#training-log", "block").AwaitMessage(soon(t)); err != nil {
		t.Errorf("%v %v", m, err)
	}
	p.answering() // also for the same person
	if stuck.Callback() != 0 {
		t.Errorf("callback %d", stuck.Callback())
	}
}

func TestSlowPlatformIsAskedAgainWithinTheBudget(t *testing.T) {
	for name, kind := range map[string]discordtest.Kind{
		"slow before the work": discordtest.HoldBefore, "slow after the work": discordtest.HoldAfter,
	} {
		t.Run(name, func(t *testing.T) {
			p := start(t, withTable, func(s *setup) { s.conf.Timing.Answer = 6 * time.Second })
			p.registered()
			held := p.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: kind})
			t.Cleanup(held.Release)
			p.says(quick("Here.", true))
			act := p.srv.User("ana").Command("#training-log", "block")
			if err := held.Await(soon(t), 1); err != nil {
				t.Fatal(err)
			}
			p.until(func() bool { return len(p.srv.RequestsTo("POST", callbackRoute)) == 2 })
			p.answering()
			if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "Here." {
				t.Errorf("%v %v", m, err)
			}
			if n := len(p.srv.User("ana").Sees("#training-log")); n != 2 {
				t.Errorf("%d messages are there, want one an interaction", n)
			}
		})
	}
}

func TestAnswerThatIsTooLateIsDropped(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	p.answers(func(context.Context, chat.Event) (chat.Reply, error) {
		p.srv.Advance(4 * time.Second) // 10062
		return quick("Too late.", true), nil
	})
	p.srv.User("ana").Command("#training-log", "block")
	p.log.await(t, "10062")
	p.answering()
}

func TestTokenOfAnInteractionThatRanOutIsNoBadToken(t *testing.T) {
	p := start(t, withTable, soonDeferred)
	p.registered()
	p.slow(quick("Much too late.", true), func() { p.srv.Advance(16 * time.Minute) })
	p.srv.User("ana").Command("#training-log", "block")
	p.log.await(t, "50027")
	p.answering()
}

func TestNobodyWaitsForAnotherPerson(t *testing.T) {
	p := start(t, withTable)
	p.registered()
	var together atomic.Int32
	all := make(chan struct{})
	p.answers(func(ctx context.Context, _ chat.Event) (chat.Reply, error) {
		if together.Add(1) == 8 {
			close(all)
		}
		select {
		case <-all:
			return quick("Together.", true), nil
		case <-ctx.Done():
			return chat.Reply{}, ctx.Err()
		}
	})
	var acts []*discordtest.Action
	for _, name := range []string{"ana", "bea", "cem", "dia", "eli", "fay", "gus", "hal"} {
		acts = append(acts, p.srv.User(name).Command("#training-log", "block"))
	}
	for _, act := range acts {
		if _, err := act.AwaitMessage(soon(t)); err != nil {
			t.Error(err)
		}
	}
}

func TestEventsOfOnePersonKeepTheirOrder(t *testing.T) {
	p := start(t)
	var want []string
	for i := range 40 {
		text := "squat 100x" + string(rune('a'+i%26))
		want = append(want, text)
		if _, err := p.srv.User("ana").Say("#training-log", text); err != nil {
			t.Fatal(err)
		}
		if _, err := p.srv.User("bea").Say("#training-log", "bench"); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	for _, e := range p.bot.await(t, 80) {
		if e.Author.Name == "ana" {
			got = append(got, e.Text)
		}
	}
	if strings.Join(got, ",") != strings.Join(want, ",") {
		t.Errorf("heard %v", got)
	}
}
