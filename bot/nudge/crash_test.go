package nudge_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
	"blockbell/store/storetest"
)

const (
	endKey    = "ana/block-end/b20270104/2027-02-21/-3d"
	directKey = "direct/ana/2027-02-18"
)

// eight is the moment at which Ana's block end falls due.
var eight = time.Date(2027, 2, 18, 8, 0, 0, 0, time.UTC)

func expectSent(t *testing.T, h house, times int) {
	t.Helper()
	if got := len(h.board.posts); got != times {
		t.Errorf("%d messages posted, want %d: %q", got, times, h.board.keys())
	}
	if f := h.fact(endKey); f.State != store.FactSent || f.Post != directKey {
		t.Errorf("the ledger says %+v, want sent with %s", f, directKey)
	}
	if p := h.post(directKey); p.State != store.PostSent || p.Ref == "" {
		t.Errorf("the outbox says %+v, want sent with its reference", p)
	}
}

func TestPostedOnceInTime(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.run(eight.Add(-time.Minute))
	if len(h.board.posts) != 0 {
		t.Fatalf("posted a minute early: %q", h.board.keys())
	}
	for range 3 {
		h.run(eight)
	}
	expectSent(t, h, 1)
	p := h.board.posts[0]
	if !p.At.Equal(eight) || p.To != (chat.Target{Person: "ana"}) || !slices.Equal(p.Facts, []string{endKey}) {
		t.Errorf("posted %+v; want it to ana at %s, settling %s", p, eight, endKey)
	}
}

// Crash before the claim: the ledger and the outbox are written, nothing is claimed.
func TestCrashBeforeTheClaim(t *testing.T) {
	h := newHouse(t, club(ana()))
	down := &board{before: always(&chat.RetryError{After: time.Minute, Cause: errDown})}
	h.Poster = down
	h.run(eight)
	if p := h.post(directKey); p.State != store.PostPlanned {
		t.Fatalf("the post is %s, want planned", p.State)
	}
	h.Store, h.Poster = storetest.Reopen(t, h.Store), h.board
	h.run(eight.Add(time.Minute))
	expectSent(t, h, 1)
}

// crash claims the post as a run would, and then dies: accepted tells whether the
// platform had taken the message by then.
func crash(h house, accepted bool) {
	h.t.Helper()
	ctx, die := context.WithCancel(h.t.Context())
	h.board.before = func(chat.Post) error {
		if accepted {
			return nil
		}
		die()
		return context.Canceled
	}
	h.board.after = func(chat.Post) error {
		die()
		return context.Canceled
	}
	if err := h.Run(ctx, eight); !errors.Is(err, context.Canceled) {
		h.t.Fatalf("the run that died says %v", err)
	}
	h.board.before, h.board.after = nil, nil
	if p := h.post(directKey); p.State != store.PostClaimed || p.Attempts != 1 {
		h.t.Fatalf("after the crash the post is %s with %d attempts, want claimed with 1", p.State, p.Attempts)
	}
}

func TestCrashBetweenClaimAndPost(t *testing.T) {
	h := newHouse(t, club(ana()))
	crash(h, false)
	h.Store = storetest.Reopen(t, h.Store)
	h.run(eight.Add(time.Minute))
	if len(h.board.posts) != 0 {
		t.Fatal("posted while the lease was still running")
	}
	h.run(eight.Add(2 * time.Minute))
	expectSent(t, h, 1)
	if h.board.finds != 1 {
		t.Errorf("looked %d times for an earlier message, want once", h.board.finds)
	}
}

// Posted, not confirmed, back within minutes: even if looking finds nothing yet,
// the platform answers the repeated key with the first message.
func TestCrashBetweenPostAndConfirmBackSoon(t *testing.T) {
	h := newHouse(t, club(ana()))
	crash(h, true)
	blind := &blindBoard{h.board}
	h.Poster = blind
	h.run(eight.Add(2 * time.Minute))
	expectSent(t, h, 1)
}

// blindBoard finds nothing, as a platform whose history lags behind.
type blindBoard struct{ *board }

func (b *blindBoard) Find(context.Context, chat.Post) (chat.Ref, bool, error) { return "", false, nil }

// Posted, not confirmed, back later: the platform has forgotten the key, so the
// message must be found.
func TestCrashBetweenPostAndConfirmBackLater(t *testing.T) {
	h := newHouse(t, club(ana()))
	crash(h, true)
	h.board.forgets = true
	h.run(eight.Add(3 * time.Hour))
	expectSent(t, h, 1)
}

// Even on the next day the message that was taken is found and not given up.
func TestCrashBetweenPostAndConfirmBackTooLateToPost(t *testing.T) {
	h := newHouse(t, club(ana()))
	crash(h, true)
	h.board.forgets = true
	h.run(eight.Add(26 * time.Hour))
	expectSent(t, h, 1)
}

func TestPlatformAsksToWait(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.board.before = once(&chat.RetryError{After: 90 * time.Second, Cause: errDown})
	h.run(eight)
	if p := h.post(directKey); p.State != store.PostPlanned || !p.Due.Equal(eight.Add(90*time.Second)) || p.Reason == "" {
		t.Errorf("the outbox says %+v, want it delayed by 90 s with a reason", p)
	}
	if at, ok, err := h.Next(t.Context(), eight, eight.Add(time.Hour)); err != nil || !ok || !at.Equal(eight.Add(90*time.Second)) {
		t.Errorf("next is %s, %t, %v; want 90 s later", at, ok, err)
	}
	h.run(eight.Add(time.Minute))
	h.run(eight.Add(2 * time.Minute))
	expectSent(t, h, 1)
	if at := h.board.posts[0].At; !at.Equal(eight) {
		t.Errorf("the late message says it fell due at %s, want %s", at, eight)
	}
}

// An error that names no wait is answered with a growing one, and looking for the
// message comes first, since a request that timed out may have gone through.
func TestTimedOutRequestThatWentThrough(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.board.forgets = true
	h.board.after = once(context.DeadlineExceeded)
	h.board.find = once(errDown)
	h.run(eight)
	h.run(eight.Add(2 * time.Minute)) // looking fails: nothing is posted blindly
	h.run(eight.Add(4 * time.Minute)) // the wait has doubled
	if p := h.post(directKey); p.Attempts != 2 {
		t.Errorf("%d attempts after four minutes, want 2", p.Attempts)
	}
	h.run(eight.Add(6 * time.Minute))
	expectSent(t, h, 1)
}

// Too late to be useful: a fortnight's outage leaves a skipped fact with a reason.
func TestTooLateIsSkippedWithTheReason(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.run(eight.AddDate(0, 0, 5)) // 23 February; the block ended on the 21st
	if f := h.fact(endKey); f.State != store.FactSkipped || f.Reason != "too late to be useful" {
		t.Errorf("the ledger says %+v, want skipped as too late", f)
	}
	for _, p := range h.board.posts {
		if slices.Contains(p.Facts, endKey) {
			t.Errorf("told all the same in %s", p.Key)
		}
	}
}

// Late but useful: the bot was away on the day and tells it the day after, at its
// hour and not in the night.
func TestLateButUsefulIsToldAtTheNextHour(t *testing.T) {
	h := newHouse(t, club(ana()))
	night := time.Date(2027, 2, 19, 3, 0, 0, 0, time.UTC)
	h.run(night)
	if len(h.board.posts) != 0 {
		t.Fatalf("rang at night: %q", h.board.keys())
	}
	h.walk(night, night.Add(24*time.Hour))
	if want := []string{"direct/ana/2027-02-19"}; !slices.Equal(h.board.keys(), want) {
		t.Errorf("posted %q, want %q", h.board.keys(), want)
	}
}

// A post that could not be delivered on its day is given up, and what is in it is
// told the day after.
func TestUndeliveredIsToldTheDayAfter(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.board.before = always(errDown)
	midnight := eight.Add(16 * time.Hour)
	h.walk(eight.Add(-time.Hour), midnight.Add(-time.Minute))
	h.board.before = nil
	h.walk(midnight.Add(-time.Minute), midnight.Add(24*time.Hour))
	if f := h.fact(endKey); f.State != store.FactSkipped || f.Reason != "could not be posted on its day" {
		t.Errorf("the ledger says %+v of the first attempt", f)
	}
	if f := h.fact(endKey + "/late"); f.State != store.FactSent {
		t.Errorf("the ledger says %+v of the second", f)
	}
	if want := []string{"direct/ana/2027-02-19"}; !slices.Equal(h.board.keys(), want) {
		t.Errorf("posted %q, want %q", h.board.keys(), want)
	}
}

// A run says what its own deliveries bring up, without waiting for the next one.
func TestOneRunGivesUpAndTellsLate(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.board.before = always(errDown)
	h.run(eight)
	h.board.before = nil
	h.run(eight.Add(24*time.Hour + 30*time.Minute))
	if want := []string{"direct/ana/2027-02-19"}; !slices.Equal(h.board.keys(), want) {
		t.Errorf("posted %q, want %q", h.board.keys(), want)
	}
}

// Who takes no direct messages is counted in the next club post, and finds it
// under 'Mine'.
func TestUnreachablePersonIsCountedInTheNextClubPost(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.board.before = func(p chat.Post) error {
		if p.To.Person != "" {
			return &chat.UnreachableError{To: p.To, Cause: errors.New("no direct messages")}
		}
		return nil
	}
	h.walk(eight.Add(-time.Hour), eight.Add(48*time.Hour))
	if p := h.post(directKey); p.State != store.PostDead {
		t.Errorf("the direct post is %s, want dead", p.State)
	}
	if want := []string{"club/2027-02-19"}; !slices.Equal(h.board.keys(), want) {
		t.Fatalf("posted %q, want %q", h.board.keys(), want)
	}
	if m := h.board.posts[0].Message; m.Text != "1 lifter has something new." || len(m.Buttons) != 1 || m.Buttons[0].Label != "Mine" {
		t.Errorf("the club reads %q with buttons %v", m.Text, m.Buttons)
	}
	h.update(func(tx *store.Tx) error {
		m, err := nudge.Mine(tx, 1, eight.Add(25*time.Hour))
		if want := "Your muscle block (hypertrophy) ends Sun 21 February"; err == nil && len(m.Text) < len(want) || m.Text[:len(want)] != want {
			t.Errorf("Mine says %q", m.Text)
		}
		return err
	})
}

func TestOneFailingPostBlocksNoOther(t *testing.T) {
	ben := ana()
	ben.Lifter.ID, ben.Lifter.Handle, ben.Lifter.Name = 2, "ben", "Ben"
	ben.Season, ben.Meets = season(), slices.Clone(ben.Meets)
	h := newHouse(t, club(ana(), ben))
	h.board.before = func(p chat.Post) error {
		if p.To.Person == "ana" {
			return errDown
		}
		return nil
	}
	h.run(eight)
	if want := []string{"direct/ben/2027-02-18"}; !slices.Equal(h.board.keys(), want) {
		t.Errorf("posted %q, want %q", h.board.keys(), want)
	}
}

func TestDeadContextDoesNothing(t *testing.T) {
	h := newHouse(t, club(ana()))
	ctx, die := context.WithCancel(t.Context())
	die()
	if err := h.Run(ctx, eight); !errors.Is(err, context.Canceled) {
		t.Errorf("a run in a dead context says %v", err)
	}
	if len(h.board.posts) != 0 || h.fact(endKey).State != "unknown" {
		t.Error("it did something all the same")
	}
}
