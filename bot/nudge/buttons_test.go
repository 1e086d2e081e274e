package nudge_test

import (
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// pressed returns what a button of the post settles for a lifter.
func pressed(h house, p chat.Post, label string, by planner.LifterID) (store.Button, []nudge.Settles) {
	h.t.Helper()
	var row store.Button
	var own []nudge.Settles
	for _, b := range p.Message.Buttons {
		if b.Label != label {
			continue
		}
		h.update(func(tx *store.Tx) (err error) {
			var known bool
			if row, known, err = tx.Button(b.Token); err != nil || !known {
				h.t.Fatalf("the button %q is not kept: %v", label, err)
			}
			own, err = nudge.Pressed(row.Args, by)
			return err
		})
	}
	return row, own
}

func TestPersonalButtonsNameWhatTheySettle(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.run(eight)
	for label, want := range map[string]struct {
		action  string
		settles nudge.Settles
	}{
		"Not yet, one more week": {"block.extend", nudge.Settles{Lifter: 1, Plan: 1, Index: 0}},
		"Remind me tomorrow":     {"nudge.snooze", nudge.Settles{Lifter: 1, Key: endKey}},
		"Fewer of these":         {"nudge.off", nudge.Settles{Lifter: 1, Kind: nudge.BlockEnd}},
	} {
		row, own := pressed(h, h.board.posts[0], label, 1)
		if row.Action != want.action || row.Owner != 1 || len(own) != 1 || own[0] != want.settles {
			t.Errorf("%q of %d does %s with %+v, want %s with %+v", label, row.Owner, row.Action, own, want.action, want.settles)
		}
	}
}

// In the club's post a button belongs to nobody and settles the presser's own.
func TestButtonsOfTheClubPostActForWhoeverPresses(t *testing.T) {
	h := newHouse(t, club(friend(1, "ana", "Ana"), friend(2, "ben", "Ben"), friend(3, "cy", "Cy")))
	h.update(func(tx *store.Tx) error { return tx.SetNudge(3, string(nudge.BlockBegin), false) })
	h.run(day(time.February, 22).At(time.UTC, 8, 0))
	p := h.board.posts[0]
	for by, plan := range map[planner.LifterID]int64{1: 1, 2: 2} {
		row, own := pressed(h, p, "Not yet, one more week", by)
		if row.Owner != 0 || len(own) != 1 || own[0] != (nudge.Settles{Lifter: by, Plan: plan, Index: 0}) {
			t.Errorf("pressed by %d it settles %+v, owner %d", by, own, row.Owner)
		}
	}
	if _, own := pressed(h, p, "Not yet, one more week", 3); len(own) != 0 {
		t.Errorf("pressed by somebody it is not about it settles %+v", own)
	}
	if strings.Contains(p.Message.Text, "Cy") {
		t.Errorf("Cy switched this off and is told: %q", p.Message.Text)
	}
}

func TestSwitchedOffIsSkippedWithTheReason(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.update(func(tx *store.Tx) error { return tx.SetNudge(1, string(nudge.BlockEnd), false) })
	h.run(eight)
	if f := h.fact(endKey); f.State != store.FactSkipped || f.Reason != "switched off by the lifter" || len(h.board.posts) != 0 {
		t.Errorf("the ledger says %+v, posted %q", f, h.board.keys())
	}
}

func TestOnlyWhenAskingIsSkippedWithTheReason(t *testing.T) {
	m := ana()
	m.Lifter.Nudges = planner.Ask
	h := newHouse(t, club(m))
	h.run(eight)
	if f := h.fact(endKey); f.State != store.FactSkipped || f.Reason != "asked to be left alone until asking" || len(h.board.posts) != 0 {
		t.Errorf("the ledger says %+v, posted %q", f, h.board.keys())
	}
}

// 'Remind me tomorrow' means tomorrow's message, whatever the hour of the press,
// and can be pressed again under the reminder.
func TestSnoozedComesAgainTomorrow(t *testing.T) {
	h := newHouse(t, club(ana()))
	h.run(eight)
	now := eight
	for i, want := range []string{"direct/ana/2027-02-19", "direct/ana/2027-02-20", "direct/ana/2027-02-21"} {
		_, own := pressed(h, h.board.posts[i], "Remind me tomorrow", 1)
		h.update(func(tx *store.Tx) error { return tx.Snooze(1, own[0].Key, now.Add(27*time.Hour)) })
		at, ok, err := h.Next(t.Context(), now, now.AddDate(0, 0, 5))
		if err != nil || !ok || !at.Equal(now.Add(24*time.Hour)) {
			t.Fatalf("next is %s, %t, %v; want a day later", at, ok, err)
		}
		h.run(at)
		now = at
		if got := h.board.keys(); len(got) != i+2 || got[i+1] != want {
			t.Fatalf("posted %q, want %s last", got, want)
		}
	}
	// On the block's last day there is no tomorrow to remind on.
	h.update(func(tx *store.Tx) error { return tx.Snooze(1, endKey, now.Add(24*time.Hour)) })
	at, ok, err := h.Next(t.Context(), now, now.Add(47*time.Hour))
	if err != nil || !ok {
		t.Fatalf("next: %t, %v", ok, err)
	}
	h.run(at)
	for _, p := range h.board.posts[4:] {
		if strings.Contains(strings.Join(p.Facts, " "), endKey) {
			t.Errorf("reminded after the end of the block in %s", p.Key)
		}
	}
}

// Someone told in the channel is counted there, sees their own under 'Mine', and
// nobody else does.
func TestPersonalThingsAreCountedAndShownToTheirOwnerOnly(t *testing.T) {
	f := club(friend(1, "ana", "Ana"), friend(2, "ben", "Ben"), friend(3, "cy", "Cy"))
	f.Ask = true
	f.Members[2].Season.Begun = []planner.Date{0, day(time.February, 22), 0, 0}
	h := newHouse(t, f)
	at := day(time.February, 22).At(time.UTC, 8, 0)
	h.run(at)
	p := h.board.posts[0]
	if p.Key != "club/2027-02-22" || p.Message.Text != "2 lifters have something new." {
		t.Fatalf("%s says %q", p.Key, p.Message.Text)
	}
	for by, want := range map[planner.LifterID]string{1: "it waits for you", 2: "it waits for you", 3: "Nothing new for you."} {
		h.update(func(tx *store.Tx) error {
			m, err := nudge.Mine(tx, by, at.Add(time.Hour))
			if !m.Private || !strings.Contains(m.Text, want) {
				t.Errorf("lifter %d reads %q, private %t; want %q", by, m.Text, m.Private, want)
			}
			if _, again := nudge.Mine(tx, by, at.Add(time.Hour)); again != nil {
				t.Errorf("asking twice in one moment: %v", again)
			}
			return err
		})
	}
}

func TestButtonsNeedReadableArguments(t *testing.T) {
	if _, err := nudge.Pressed([]byte(`{`), 1); err == nil {
		t.Error("unreadable arguments are taken")
	}
	if own, err := nudge.Pressed([]byte(`{"kind":"meet"}`), 5); err != nil || len(own) != 1 || own[0].Kind != nudge.MeetNear {
		t.Errorf("plain arguments give %+v, %v", own, err)
	}
}
