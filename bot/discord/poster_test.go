package discord_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/discord"
	"blockbell/bot/discord/discordtest"
)

const postRoute = "/channels/{channel_id}/messages"

// due is an unasked message to the announcements.
func (p *play) due(key string) chat.Post {
	return chat.Post{
		Key: key, Facts: []string{key}, At: p.srv.Now(), To: chat.Target{Channel: "#announcements"},
		Message: chat.Message{Title: "Block ends", Text: "Peaking begins on Monday."},
	}
}

// posted are the bot's messages in the announcements.
func (p *play) posted() []discordtest.Message { return p.srv.User("bea").Sees("#announcements") }

func TestPostNeedsNoGateway(t *testing.T) {
	p := prepare(t)
	post := p.due("ana/block-end/b7")
	ref, err := p.a.Post(soon(t), post)
	if err != nil {
		t.Fatal(err)
	}
	all := p.posted()
	if len(all) != 1 || !strings.HasSuffix(string(ref), "/"+all[0].ID) {
		t.Fatalf("posted %v as %s", all, ref)
	}
	m := all[0]
	if m.Embeds[0].Title != "Block ends" || m.Embeds[0].Description != "Peaking begins on Monday." || m.Nonce == "" || len(m.Nonce) > 25 {
		t.Errorf("%+v", m)
	}
	if mark := m.Embeds[0].Footer.Text; !strings.HasPrefix(mark, "#") || strings.Contains(mark, "ana") {
		t.Errorf("footer %q", mark)
	}
	if m.Pings.Everyone || len(m.Pings.Users) != 0 || len(m.Pings.Roles) != 0 {
		t.Errorf("it rings for %+v", m.Pings)
	}
}

func TestSameKeyTwiceIsOneMessage(t *testing.T) {
	p := prepare(t)
	post := p.due("k1")
	first, err := p.a.Post(soon(t), post)
	if err != nil {
		t.Fatal(err)
	}
	for _, later := range []time.Duration{0, time.Minute, 10 * time.Minute, 30 * time.Hour} {
		p.srv.Advance(later)
		again, err := p.a.Post(soon(t), post)
		if err != nil || again != first {
			t.Errorf("%s later: %s %v, want %s", later, again, err, first)
		}
	}
	if n := len(p.posted()); n != 1 {
		t.Errorf("%d messages", n)
	}
}

func TestFindLooksBackOverManyMessages(t *testing.T) {
	p := prepare(t)
	post := p.due("k1")
	if _, found, err := p.a.Find(soon(t), post); err != nil || found {
		t.Errorf("found %v %v before anything was posted", found, err)
	}
	ana := p.srv.User("ana")
	chatter := func(n int) {
		for i := range n {
			if _, err := ana.Say("#announcements", fmt.Sprint("chatter ", i)); err != nil {
				t.Fatal(err)
			}
		}
	}
	chatter(130)
	ref, err := p.a.Post(soon(t), post)
	if err != nil {
		t.Fatal(err)
	}
	chatter(130)
	if _, err := ana.Say("#announcements", "not mine: "+p.posted()[130].Embeds[0].Footer.Text); err != nil {
		t.Fatal(err)
	}
	got, found, err := p.a.Find(soon(t), post)
	if err != nil || !found || got != ref {
		t.Errorf("found %s %v %v, want %s", got, found, err, ref)
	}
	other := post
	other.Key = "k2"
	if _, found, err := p.a.Find(soon(t), other); err != nil || found {
		t.Errorf("another key was found: %v %v", found, err)
	}
}

func TestPostSurvivesFaultsOnce(t *testing.T) {
	for name, f := range map[string]discordtest.Fault{
		"429 short":             {Kind: discordtest.TooMany, RetryAfter: 50 * time.Millisecond},
		"429 global":            {Kind: discordtest.TooMany, RetryAfter: 50 * time.Millisecond, Scope: "global", NoReset: true},
		"500 before the work":   {Kind: discordtest.RefuseBefore, Status: 500},
		"500 after the work":    {Kind: discordtest.RefuseAfter, Status: 500},
		"502 after the work":    {Kind: discordtest.RefuseAfter, Status: 502},
		"503":                   {Kind: discordtest.RefuseBefore, Status: 503, HTML: true},
		"504 after the work":    {Kind: discordtest.RefuseAfter, Status: 504},
		"cut before the work":   {Kind: discordtest.CutBefore},
		"cut after the work":    {Kind: discordtest.CutAfter},
		"cut within the answer": {Kind: discordtest.CutBody},
	} {
		t.Run(name, func(t *testing.T) {
			p := prepare(t)
			f.Method, f.Route = "POST", postRoute
			p.srv.Fail(f)
			if ref, err := p.a.Post(soon(t), p.due("k1")); err != nil || ref == "" {
				t.Errorf("%s %v", ref, err)
			}
			if n := len(p.posted()); n != 1 {
				t.Errorf("%d messages", n)
			}
		})
	}
}

func TestPostThatCannotBeMadeNowNamesTheWait(t *testing.T) {
	for name, c := range map[string]struct {
		fault discordtest.Fault
		wait  time.Duration
	}{
		"429 long":        {discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: 90 * time.Second}, 90 * time.Second},
		"429 long, page":  {discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: 90 * time.Second, HTML: true}, 90 * time.Second},
		"500 without end": {discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 500, Times: -1}, time.Second},
		"cut without end": {discordtest.Fault{Kind: discordtest.CutBefore, Times: -1}, 5 * time.Second},
		"429 without end": {discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: 20 * time.Millisecond, Times: -1}, time.Second},
		"503 as a page":   {discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, HTML: true, Times: -1}, time.Second},
	} {
		t.Run(name, func(t *testing.T) {
			p := prepare(t)
			c.fault.Method, c.fault.Route = "POST", postRoute
			p.srv.Fail(c.fault)
			_, err := p.a.Post(soon(t), p.due("k1"))
			var retry *chat.RetryError
			if !errors.As(err, &retry) || retry.After != c.wait {
				t.Errorf("%v, want a retry after %s", err, c.wait)
			}
			if n := len(p.srv.RequestsTo("POST", postRoute)); n > 4 {
				t.Errorf("%d requests were made", n)
			}
		})
	}
}

func TestRateLimitedRouteEndsWithTheContext(t *testing.T) {
	p := prepare(t)
	p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.TooMany, RetryAfter: 30 * time.Second})
	if _, err := p.a.Post(soon(t), p.due("k1")); err == nil {
		t.Fatal("no error")
	}
	ctx, cancel := context.WithTimeout(soon(t), 50*time.Millisecond)
	defer cancel()
	_, err := p.a.Post(ctx, p.due("k2")) // the route is still closed
	var retry *chat.RetryError
	if !errors.As(err, &retry) || retry.After != 30*time.Second {
		t.Errorf("%v", err)
	}
	other := p.due("k3")
	other.To.Channel = "#training-log"
	if _, err := p.a.Post(soon(t), other); err != nil {
		t.Errorf("another channel is held up as well: %v", err)
	}
}

func TestHangingPlatformIsATimeout(t *testing.T) {
	p := prepare(t)
	held := p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.HoldBefore, Times: -1})
	t.Cleanup(held.Release)
	ctx, cancel := context.WithTimeout(soon(t), 200*time.Millisecond)
	defer cancel()
	_, err := p.a.Post(ctx, p.due("k1"))
	var retry *chat.RetryError
	if !errors.As(err, &retry) {
		t.Errorf("%v", err)
	}
}

func TestDirectPost(t *testing.T) {
	p := prepare(t)
	ana := p.srv.User("ana")
	post := p.due("k1")
	post.To = chat.Target{Person: ana.ID}
	ref, err := p.a.Post(soon(t), post)
	if err != nil {
		t.Fatal(err)
	}
	if in := ana.Inbox(); len(in) != 1 || in[0].Embeds[0].Title != "Block ends" {
		t.Errorf("inbox %v", in)
	}
	if got, found, err := p.a.Find(soon(t), post); err != nil || !found || got != ref {
		t.Errorf("%s %v %v", got, found, err)
	}
}

func TestUnreachableTargets(t *testing.T) {
	for name, c := range map[string]struct {
		to      func(*play) chat.Target
		prepare func(*play)
	}{
		"takes no direct messages (50007)": {to: func(p *play) chat.Target {
			p.srv.User("ana").CloseDirects(true)
			return chat.Target{Person: p.srv.User("ana").ID}
		}},
		"shares no server": {to: func(p *play) chat.Target { return chat.Target{Person: p.srv.Stranger("zoe").ID} }},
		"no such person":   {to: func(*play) chat.Target { return chat.Target{Person: "100000000000000001"} }},
		"no person at all": {to: func(*play) chat.Target { return chat.Target{Person: "ana"} }},
		"no such channel":  {to: func(*play) chat.Target { return chat.Target{Channel: "#nowhere"} }},
		"neither":          {to: func(*play) chat.Target { return chat.Target{} }},
		"may not see (50001)": {to: func(p *play) chat.Target {
			p.srv.Deny("announcements", discordtest.ViewChannel)
			return chat.Target{Channel: "<#" + p.srv.Channel("announcements") + ">"}
		}},
		"may not write (50013)": {to: func(p *play) chat.Target {
			p.srv.Deny("announcements", discordtest.SendMessages)
			return chat.Target{Channel: "announcements"}
		}},
		"archived thread (50083)": {to: func(p *play) chat.Target {
			thread := p.srv.Guild().AddThread("announcements", "old")
			p.srv.Guild().Archive(thread)
			return chat.Target{Channel: thread}
		}},
	} {
		t.Run(name, func(t *testing.T) {
			p := start(t)
			post := p.due("k1")
			post.To = c.to(p)
			_, err := p.a.Post(soon(t), post)
			var closed *chat.UnreachableError
			if !errors.As(err, &closed) || closed.To != post.To {
				t.Errorf("%v, want an unreachable target", err)
			}
			if !p.a.Connected() {
				t.Error("an unreachable target ended the connection")
			}
		})
	}
}

func TestRefusedTokenEndsTheProgram(t *testing.T) {
	p := start(t)
	p.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.RefuseBefore, Status: 401})
	if _, err := p.a.Post(soon(t), p.due("k1")); err == nil {
		t.Error("no error")
	}
	var fatal *discord.FatalError
	if err := p.end(); !errors.As(err, &fatal) || fatal.Code != 401 || !strings.Contains(fatal.Text, "Reset Token") {
		t.Errorf("Run returned %v", err)
	}
}

func TestManyPostsStayBelowTheGlobalLimit(t *testing.T) {
	p := prepare(t)
	var all sync.WaitGroup
	for i := range 60 {
		all.Go(func() {
			if _, err := p.a.Post(soon(t), p.due(fmt.Sprint("k", i))); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if n := len(p.posted()); n != 60 {
		t.Errorf("%d messages", n)
	}
	if n := p.srv.InvalidRequests(); n != 0 {
		t.Errorf("%d requests were refused", n)
	}
}

func TestRouteLimitIsLearnt(t *testing.T) {
	wall := func(s *setup) { s.options.Now = time.Now } // windows must pass by themselves
	p := prepare(t, wall)
	p.srv.LimitRoute("POST", postRoute, discordtest.Limit{Calls: 5, Per: time.Second})
	for i := range 12 {
		if _, err := p.a.Post(soon(t), p.due(fmt.Sprint("k", i))); err != nil {
			t.Fatal(err)
		}
	}
	if n := p.srv.InvalidRequests(); n != 0 {
		t.Errorf("%d requests ran into the limit", n)
	}
}

func TestPictureGoesAlongWithItsWords(t *testing.T) {
	p := prepare(t)
	post := p.due("k1")
	post.Message.Files = []chat.File{{Name: "season.png", Bytes: []byte("\x89PNG\r\n\x1a\n0000"), Alt: "three blocks up to June"}}
	if _, err := p.a.Post(soon(t), post); err != nil {
		t.Fatal(err)
	}
	files := p.posted()[0].Attachments
	if len(files) != 1 || files[0].Filename != "season.png" || files[0].Description != "three blocks up to June" {
		t.Errorf("%+v", files)
	}
	again, err := p.a.Post(soon(t), post)
	if err != nil || len(p.posted()) != 1 || again == "" {
		t.Errorf("%s %v, %d messages", again, err, len(p.posted()))
	}
}
