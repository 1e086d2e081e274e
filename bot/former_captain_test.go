package bot

import (
	"testing"

	"blockbell/bot/chat"
	"blockbell/store"
)

// Buttons that a captain was shown do nothing for others once they are no captain any
// more, whatever they were for.
func TestButtonsOfAFormerCaptain(t *testing.T) {
	asks := []string{
		"/club board sort:name", "/club today", "/club approve", `/club announce text:"x"`, `/club announce text:"later" at:"2027-01-09 18:00"`, "/club announced",
		"/club away from:2027-02-01 to:2027-02-07", "/club move lifter:ana block:hypertrophy", "/season build lifter:ana", "/week lifter:ana", "/today lifter:ana",
		`/meet add name:"Lake Cup" date:2027-07-10 lifters:all`, "/me lifter:ana", "/log lifter:ana", "/mydata export lifter:ana", "/season lifter:ana", "/meet list lifter:ana",
		"@ana squat 400x5", "@anna squat 90x5",
	}
	pressed := 0
	for _, ask := range asks {
		k := newTalk(t, "2027-01-04T09:00:00Z")
		k.ok(k.say("cap", "/club decide who:coach"))
		k.planned("ana", "2027-06-12")
		k.ok(k.say("zoe", "/me"))
		for i := range 21 {
			k.ok(k.say(string(rune('b'+i))+"-lifter", "/me"))
		}
		k.ok(k.say("mia", "/me"))
		k.ok(k.say("cap", "/club captain member:mia"))
		k.ok(k.say("mia", `/club announce text:"mine" at:"2027-01-08 18:00"`))
		k.ok(k.press("mia", "Schedule it"))
		buttons := k.say("mia", ask).Message.Buttons
		k.ok(k.say("cap", "/club captain member:mia appoint:no"))
		before := k.everything()
		for _, b := range buttons {
			r := k.pressToken("mia", b.Token)
			if r.Kind != chat.Failure && r.Form == nil && !harmless[b.Label] {
				t.Errorf("%s: %q still works: %s %s", ask, b.Label, r.Message.Title, r.Message.Text)
			}
			pressed++
		}
		if after := k.everything(); after != before {
			t.Errorf("%s: something changed: %+v, then %+v", ask, before, after)
		}
	}
	if pressed < 20 {
		t.Errorf("only %d buttons were pressed", pressed)
	}
}

// harmless are buttons that give something up, or answer that nothing was done.
var harmless = map[string]bool{"Leave it": true, "Approve ana": true}

// counted is what a former captain must not change.
type counted struct{ posts, plans, sets, agreed, meets, notes int }

func (k *talk) everything() (n counted) {
	k.t.Helper()
	err := k.store.View(k.t.Context(), func(tx *store.Tx) error {
		waiting, err := tx.PostsWaiting("announce")
		if err != nil {
			return err
		}
		n.posts = len(waiting)
		all, err := tx.Lifters()
		for _, l := range all {
			plans, err := tx.Plans(l.ID)
			if err != nil {
				return err
			}
			n.plans += len(plans)
			for _, p := range plans {
				if p.State == store.PlanAgreed {
					n.agreed += int(p.ID)
				}
			}
			meets, err := tx.Meets(l.ID)
			if err != nil {
				return err
			}
			n.meets += len(meets)
			sets, err := tx.RecentSets(l.ID, 1000)
			if err != nil {
				return err
			}
			n.sets += len(sets)
			notes, err := tx.NotesSince(l.ID, k.at("2027-01-01T00:00:00Z"))
			if err != nil {
				return err
			}
			n.notes += len(notes)
		}
		return err
	})
	if err != nil {
		k.t.Fatal(err)
	}
	return n
}
