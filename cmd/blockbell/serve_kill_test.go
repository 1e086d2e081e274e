package main

import (
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
	"blockbell/bot/nudge"
	"blockbell/store"
)

const (
	postRoute = "/channels/{channel_id}/messages"
	// afterLease is how long a claimed post stays with a process that may be dead.
	afterLease = 2*time.Minute + time.Second
)

// clubServing is a club of three with agreed plans on the platform, and nobody
// serving it.
func clubServing(t *testing.T, clock func() time.Time) *serving {
	t.Helper()
	s := newServing(t, discordtest.Options{Now: clock})
	s.ready()
	day := func(weeks int) string { return s.srv.Now().AddDate(0, 0, 7*weeks).Format(time.DateOnly) }
	for _, line := range []string{
		"@cap /club settings hour:08:00",
		"@ana /me set category:women level:intermediate squat:120 bench:70 deadlift:145 nudges:direct",
		`@ana /meet add name:"River Open" kind:main date:` + day(16),
		"@ana /season build",
		"@ana /season accept",
		"@ben /me set category:men level:advanced squat:220 bench:150 deadlift:250 nudges:channel",
		`@ben /meet add name:"Harbour Cup" kind:main date:` + day(12),
		"@ben /season build",
		"@ben /season accept",
		// Without weeks no easy week is told, and each due instant has one post.
		"@ana /week show weeks:own",
		"@ben /week show weeks:own",
	} {
		who, text, _ := strings.Cut(strings.TrimPrefix(line, "@"), " ")
		path, opts := structured(t, text)
		m, err := s.srv.User(who).Command("#training-log", path, opts...).AwaitMessage(soon(t))
		if err != nil || len(m.Embeds) == 0 && strings.Contains(m.Content, "For example") {
			t.Fatalf("%s: %v %v", line, m, err)
		}
	}
	if status := s.end(); status != statusOK {
		t.Fatalf("status %d", status)
	}
	return s
}

// monday is the morning of a Monday after the club's hour.
var monday = time.Date(2027, 1, 4, 9, 0, 0, 0, time.UTC)

// mondayOn is a clock that begins then and goes on with the wall's.
func mondayOn() func() time.Time {
	begun := time.Now()
	return func() time.Time { return monday.Add(time.Since(begun)) }
}

// rows reads the ledger and the outbox.
func (s *serving) rows() (posts, facts map[string]map[string]any) {
	s.t.Helper()
	status, out, errs := run(s.t, "", "export", "--json", "--db", s.db)
	if status != statusOK {
		s.t.Fatalf("export: %s", errs)
	}
	var all struct{ Posts, Facts []map[string]any }
	if err := json.Unmarshal([]byte(out), &all); err != nil {
		s.t.Fatal(err)
	}
	byKey := func(rows []map[string]any) map[string]map[string]any {
		m := map[string]map[string]any{}
		for _, row := range rows {
			m[fmt.Sprint(row["key"])] = row
		}
		return m
	}
	return byKey(all.Posts), byKey(all.Facts)
}

// open are the states of all posts that are not settled.
func (s *serving) open() (all []string) {
	posts, _ := s.rows()
	for _, p := range posts {
		if state := fmt.Sprint(p["state"]); state == "planned" || state == "claimed" {
			all = append(all, state)
		}
	}
	slices.Sort(all)
	return all
}

// toNextDue moves the platform's clock to a little after the next moment at which
// something is due.
func (s *serving) toNextDue() {
	s.t.Helper()
	reader, err := store.OpenForReading(s.t.Context(), s.db)
	if err != nil {
		s.t.Fatal(err)
	}
	defer reader.Close()
	now := s.srv.Now()
	r := nudge.Runner{Store: reader}
	next, found, err := r.Next(s.t.Context(), now, now.AddDate(1, 0, 0))
	if err != nil || !found {
		s.t.Fatalf("nothing is due any more: %v", err)
	}
	s.srv.Advance(next.Sub(now) + time.Second)
}

// postsByMark finds the bot's unasked messages by the key in their footers.
func (s *serving) postsByMark() map[string][]string {
	count := map[string][]string{}
	seen := map[string]bool{}
	for _, name := range []string{"cap", "ana", "ben"} {
		u := s.srv.User(name)
		for _, m := range slices.Concat(u.Sees("#training-log"), u.Sees("#announcements"), u.Inbox()) {
			for _, e := range m.Embeds {
				if e.Footer == nil || !keyMark.MatchString(e.Footer.Text) || seen[m.ID] {
					continue
				}
				seen[m.ID] = true
				count[e.Footer.Text] = append(count[e.Footer.Text], m.Channel+"/"+m.ID)
			}
		}
	}
	return count
}

// markOf is what a post's key is in the footer: the first 12 characters of its
// SHA-256 in lower-case base 32.
func markOf(key string) string {
	sum := sha256.Sum256([]byte(key))
	return "#" + strings.ToLower(base32.StdEncoding.EncodeToString(sum[:]))[:12]
}

// calm runs the program until it has looked at what is due, and ends it.
func (s *serving) calm() {
	s.t.Helper()
	p := s.launch()
	p.err.await(s.t, 1, "what is due was looked at")
	if status, _ := p.terminate(); status != statusOK {
		s.t.Errorf("a calm run ended with status %d", status)
	}
}

// settled fails unless every post that is said to be sent stands exactly once
// where it is said to stand, no other does, and nothing is left undone.
func (s *serving) settled() (sent int) {
	s.t.Helper()
	posts, facts := s.rows()
	marks := s.postsByMark()
	for key, p := range posts {
		got := marks[markOf(key)]
		delete(marks, markOf(key))
		switch p["state"] {
		case "sent":
			sent++
			if len(got) != 1 || got[0] != p["ref"] {
				s.t.Errorf("%s stands at %q, the ledger says %s", key, got, p["ref"])
			}
		case "dead":
			if len(got) != 0 {
				s.t.Errorf("%s is given up (%s) and stands at %q", key, p["reason"], got)
			}
		default:
			s.t.Errorf("%s is left %s", key, p["state"])
		}
	}
	if len(marks) != 0 {
		s.t.Errorf("posts that nobody knows: %v", marks)
	}
	for key, f := range facts {
		if f["state"] == "sent" && (f["post_key"] == nil || posts[fmt.Sprint(f["post_key"])]["state"] != "sent") || f["state"] == "planned" {
			s.t.Errorf("%s is %s by %v", key, f["state"], f["post_key"])
		}
	}
	return sent
}

// TestServeKilledAtEachStepOfANudgePostsItOnce ends the real program with SIGKILL
// at each step of a nudge, starts it again, and looks for one message per post.
func TestServeKilledAtEachStepOfANudgePostsItOnce(t *testing.T) {
	t.Parallel()
	s := clubServing(t, mondayOn())
	for _, step := range []struct {
		name  string
		fault *discordtest.Fault // nil: the kill comes before the program is connected
		left  string             // state of a post, empty for none
		later time.Duration      // until it is started again
	}{
		{"before the plan", nil, "", 0},
		{"planned, not claimed", &discordtest.Fault{Kind: discordtest.TooMany, RetryAfter: 40 * time.Second}, "planned", 41 * time.Second},
		{"claimed, not posted", &discordtest.Fault{Kind: discordtest.HoldBefore}, "claimed", afterLease},
		{"claimed, not posted, refused", &discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1}, "planned", time.Hour},
		{"posted, not confirmed, back within minutes", &discordtest.Fault{Kind: discordtest.HoldAfter}, "claimed", afterLease},
		{"posted, not confirmed, back after the nonce", &discordtest.Fault{Kind: discordtest.HoldAfter}, "claimed", time.Hour},
		{"half of the answer", &discordtest.Fault{Kind: discordtest.HoldBody}, "claimed", afterLease},
	} {
		s.killAt(step.name, step.fault, step.left, step.later)
		if t.Failed() {
			t.Fatalf("at the step: %s", step.name)
		}
	}
}

func (s *serving) killAt(name string, fault *discordtest.Fault, left string, later time.Duration) {
	s.t.Helper()
	s.toNextDue()
	before := s.settled()
	connections := s.srv.Gateway().Stats().Connections
	var armed *discordtest.Armed
	if fault == nil {
		s.srv.Gateway().Greet(discordtest.NoReady)
	} else {
		fault.Method, fault.Route = "POST", postRoute
		armed = s.srv.Fail(*fault)
	}
	p := s.launch()
	switch {
	case fault == nil:
		s.until(func() bool { return s.srv.Gateway().Stats().Connections > connections })
	case left == "planned":
		p.err.await(s.t, 1, "what is due was looked at")
	default:
		if err := armed.Await(soon(s.t), 1); err != nil {
			s.t.Fatal(err)
		}
	}
	p.kill()
	if armed != nil {
		armed.Off()
		armed.Release()
	}
	if open := s.open(); left != "" && !slices.Contains(open, left) || left == "" && len(open) > 0 {
		s.t.Errorf("%s: the outbox is left %v, want %q", name, open, left)
	}
	if left == "claimed" { // the claim still holds: it is nobody else's yet
		// By the ledger, not by what stands on the platform: a call of the program that was
		// killed may still arrive there.
		was, _ := s.rows()
		s.calm()
		is, _ := s.rows()
		for key, p := range was {
			if p["state"] == left && (is[key]["state"] != left || is[key]["attempts"] != p["attempts"]) {
				s.t.Errorf("%s: another run took %s, which was claimed", name, key)
			}
		}
	}
	s.srv.Advance(later)
	s.calm()
	if after := s.settled(); after <= before {
		s.t.Errorf("%s: %d posts were sent before and %d after", name, before, after)
	}
	s.t.Logf("%s: %d posts sent", name, s.settled())
}
