package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
	"blockbell/store"
)

// marked tells whether the data is marked as that of a club that let the bot go,
// and how many members are kept.
func (s *serving) marked() (marked bool, members int) {
	s.t.Helper()
	reader, err := store.OpenForReading(s.t.Context(), s.db)
	if err != nil {
		s.t.Fatal(err)
	}
	defer reader.Close()
	err = reader.View(s.t.Context(), func(tx *store.Tx) error {
		if _, marked, err = tx.Removed(); err != nil {
			return err
		}
		all, err := tx.Lifters()
		members = len(all)
		return err
	})
	if err != nil {
		s.t.Fatal(err)
	}
	return marked, members
}

// night lets the upkeep of one night be done.
func (s *serving) night() {
	s.t.Helper()
	if err := s.hand.Nightly(soon(s.t), s.srv.Now()); err != nil {
		s.t.Fatal(err)
	}
}

// nights lets n days go by.
func (s *serving) nights(n int) {
	s.t.Helper()
	for range n {
		s.srv.Advance(24 * time.Hour)
		s.night()
	}
}

// What serve says when the bot is out of its server, and when it is in it.
const (
	threwOut = "the bot is not in its server; its data goes after 30 days"
	isBack   = "the bot is in its server"
)

// keeps fails unless the data is there, marked or not.
func (s *serving) keeps(marked bool) {
	s.t.Helper()
	got, members := s.marked()
	if got != marked || members != 3 {
		s.t.Errorf("marked %v with %d members, want %v with 3", got, members, marked)
	}
}

func TestRemovedBotForgetsItsClubAfterThirtyDays(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	s.nights(60)
	s.keeps(false)
	s.srv.Guild().RemoveBot()
	s.err.await(t, 1, threwOut)
	s.nights(29)
	s.keeps(true)
	s.nights(1)
	if marked, members := s.marked(); marked || members != 0 {
		t.Errorf("after 30 days: marked %v, %d members", marked, members)
	}
	status, out, errs := run(t, "", "export", "--json", "--db", s.db)
	if status != statusOK {
		t.Fatal(errs)
	}
	s.end()
	raw, err := os.ReadFile(s.db)
	if err != nil {
		t.Fatal(err)
	}
	for _, trace := range []string{"River Open", "Harbour Cup", s.srv.User("ana").ID, s.srv.Guild().ID} {
		if strings.Contains(out, trace) || bytes.Contains(raw, []byte(trace)) {
			t.Errorf("%q is still kept", trace)
		}
	}
}

func TestBotThatIsBackKeepsItsClub(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	s.srv.Guild().RemoveBot()
	s.err.await(t, 1, threwOut)
	s.nights(29)
	s.keeps(true)
	s.srv.Guild().LetIn()
	m, err := s.srv.User("ana").Command("#training-log", "block").AwaitMessage(soon(t))
	if err != nil || len(m.Embeds) == 0 {
		t.Errorf("the bot does not answer: %v %v", m, err)
	}
	s.err.await(t, 2, isBack)
	s.nights(60)
	s.keeps(false)
}

func TestRemovalWhileNobodyServed(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.srv.Guild().RemoveBot()
	s.ready()
	s.err.await(t, 1, threwOut)
	s.end()
	s.keeps(true)
	s.srv.Guild().LetIn()
	s.srv.Advance(90 * 24 * time.Hour)
	s.ready()
	s.err.await(t, 1, isBack)
	s.nights(1)
	s.keeps(false)
}

// Data is not erased on a guess: neither while the platform cannot be reached nor
// while the server is only unavailable.
func TestNothingIsErasedWhileNobodyKnows(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.ready()
	s.srv.Guild().Outage(true)
	s.nights(40)
	s.keeps(false)
	s.srv.Guild().Outage(false)
	s.srv.Guild().RemoveBot()
	s.err.await(t, 1, threwOut)
	s.srv.Gateway().Refuse(true)
	s.srv.Gateway().Drop()
	s.err.await(t, 1, "gateway connection ended")
	s.nights(40)
	s.keeps(true)
}

// A bot that is let into another club's server does not show it the first one's
// data, and does not take the other for its own.
func TestDataOfOneClubIsNotShownToAnother(t *testing.T) {
	t.Parallel()
	s := clubServing(t, func() time.Time { return monday })
	s.srv.Guild().RemoveBot()
	other := s.srv.AddGuild("Hill Lifting Club")
	channel := other.AddChannel("hill-log")
	dora := s.srv.User("dora")
	other.Join(dora)
	s.ready()
	s.err.await(t, 1, threwOut)
	for _, u := range []*discordtest.User{dora, s.srv.User("cap")} {
		m, err := u.Command(channel, "club board").AwaitMessage(soon(t))
		if err != nil || !strings.Contains(m.Content, "another server") {
			t.Errorf("%s reads %v, %v", u.Name, m, err)
		}
	}
	s.keeps(true)
	s.end()
	s.ready("--guild", other.ID) // who runs the bot may move a club on purpose
	m, err := s.srv.User("cap").Command(channel, "club board").AwaitMessage(soon(t))
	if err != nil || !strings.Contains(fmt.Sprint(m.Embeds), "Harbour Cup") {
		t.Errorf("the club that moved reads %v, %v", m, err)
	}
	s.err.await(t, 1, isBack)
	s.keeps(false)
}
