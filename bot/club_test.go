package bot

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/store"
)

// posts collects what the runner posts.
type posts []chat.Post

func (k *talk) due() posts {
	k.t.Helper()
	var out posts
	r := nudge.Runner{Store: k.store, Poster: posterFunc(func(p chat.Post) { out = append(out, p) })}
	if err := r.Run(k.t.Context(), k.now); err != nil {
		k.t.Fatal(err)
	}
	return out
}

func TestAnnouncementIsSeenBeforeItIsPostedAndPostedOnce(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	r := k.ok(k.say("cap", "/club announce text:\"Gym closes early, @everyone <@1234>\""))
	if strings.Contains(r.Message.Text, "@everyone") || strings.Contains(r.Message.Text, "<@") {
		t.Errorf("it would ring everybody's bell: %s", r.Message.Text)
	}
	if got := k.due(); len(got) != 0 {
		t.Fatalf("posted before it was confirmed: %+v", got)
	}
	k.ok(k.press("cap", "Post it"))
	got := k.due()
	if len(got) != 1 || got[0].To.Channel != "#announcements" || !strings.HasPrefix(got[0].Message.Text, "Gym closes early") {
		t.Fatalf("%+v", got)
	}
	k.ok(k.press("cap", "Post it"))
	if got := k.due(); len(got) != 0 {
		t.Errorf("posted again: %+v", got)
	}
	k.refused(k.say("cap", "/club announce text:\""+strings.Repeat("x", 2001)+"\""), "2000")
}

func TestAnnouncementOfTheWeekNamesOnlyWhoMayBeNamed(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	for _, who := range []string{"ana", "ben", "kid", "shy"} {
		k.ok(k.say(who, `/meet add name:"River Open" date:2027-06-12`))
	}
	k.ok(k.say("kid", "/me set born:2011-05-05"))
	k.ok(k.say("shy", "/me set public:no"))
	for _, who := range []string{"ana", "kid", "shy"} {
		k.ok(k.say(who, "/season build"))
		k.ok(k.press(who, "Accept plan"))
	}
	r := k.ok(k.say("cap", "/club announce"))
	if !strings.Contains(r.Message.Text, "ana") || strings.Contains(r.Message.Text, "kid") || strings.Contains(r.Message.Text, "shy") || strings.Contains(r.Message.Text, "ben") {
		t.Errorf("the preview is %s", r.Message.Text)
	}
	k.clock("2027-01-12T09:00:00Z")
	k.refused(k.say("cap", "/club announce"), "Nobody begins")
}

func TestBoardIsOneRowALifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.ok(k.say("ben", "/me"))
	got := data[struct {
		Lifters []struct {
			Name     string   `json:"name"`
			Block    *string  `json:"block"`
			DaysLeft *int     `json:"days_left"`
			Meet     *string  `json:"meet"`
			MeetDays *int     `json:"meet_days_left"`
			Flags    []string `json:"flags"`
		} `json:"lifters"`
	}](t, k.ok(k.say("cap", "/club board")))
	if len(got.Lifters) != 3 {
		t.Fatalf("%+v", got)
	}
	for _, l := range got.Lifters {
		switch l.Name {
		case "ana":
			if l.Block == nil || *l.Block != "hypertrophy" || l.DaysLeft == nil || l.MeetDays == nil || *l.MeetDays != 110 || len(l.Flags) != 0 {
				t.Errorf("ana: %+v", l)
			}
		case "ben":
			if l.Block != nil || l.DaysLeft != nil || l.Meet != nil || len(l.Flags) != 2 {
				t.Errorf("ben: %+v", l)
			}
		}
	}
}

func TestSettingsAreCheckedAndAudited(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.refused(k.say("cap", "/club settings zone:Lisbon"), "zone", "Europe/Lisbon")
	k.refused(k.say("cap", "/club settings hour:25:00"), "25")
	k.refused(k.say("cap", "/club settings hour:09:00 advance:agred"), "agreed")
	k.refused(k.say("cap", "/club settings log_channel:\"two words\""), "log_channel")
	k.refused(k.say("cap", "/club settings smallest_step:50"), "smallest_step")
	if got := k.settings(); got["hour"] != "08:00" {
		t.Errorf("half of a refused change was kept: %v", got)
	}
	k.ok(k.say("cap", "/club settings zone:Europe/Lisbon hour:07:30 week_start:sunday log_channel:lifting women_shorter:no"))
	got := k.settings()
	if got["zone"] != "Europe/Lisbon" || got["hour"] != "07:30" || got["week_start"] != "sunday" || got["log_channel"] != "#lifting" || got["women_shorter"] != "no" {
		t.Errorf("%v", got)
	}
	k.read(func(tx *store.Tx) error {
		trail, err := tx.AuditTrail(10)
		if len(trail) != 1 || !strings.Contains(trail[0].What, "zone") {
			t.Errorf("audit %+v", trail)
		}
		return err
	})
}

func (k *talk) settings() map[string]string {
	k.t.Helper()
	return data[struct{ Settings map[string]string }](k.t, k.ok(k.say("cap", "/club settings"))).Settings
}

func TestNudgesAreSwitchedOffAndOnByTheLifter(t *testing.T) {
	k := newTalk(t, "2027-01-04T09:00:00Z")
	k.planned("ana", "2027-04-24")
	k.ok(k.say("ana", "/nudges where direct"))
	season := data[seasonAnswer](t, k.ok(k.say("ana", "/season")))
	end := season.Blocks[0].End
	k.now = end.AddDays(-3).At(time.UTC, 8, 0)
	got := k.due()
	if len(got) != 1 || got[0].To.Person != "ana" || len(got[0].Facts) != 1 {
		t.Fatalf("three days before the end: %+v", got)
	}
	if want := "ana/block-end/b20270104/" + end.String() + "/-3d"; got[0].Facts[0] != want {
		t.Errorf("key %s, want %s", got[0].Facts[0], want)
	}
	for _, b := range got[0].Message.Buttons {
		if b.Label == "Fewer of these" {
			k.ok(k.pressToken("ana", b.Token))
		}
	}
	k.now = season.Blocks[1].End.AddDays(-3).At(time.UTC, 8, 0)
	for _, p := range k.due() {
		if strings.Contains(strings.Join(p.Facts, " "), "block-end") {
			t.Errorf("told although switched off: %+v", p)
		}
	}
	k.refused(k.say("ana", "/nudges off blockend"), "Did you mean block-end")
	k.ok(k.say("ana", "/nudges on block-end"))
	raw, _ := json.Marshal(k.ok(k.say("ana", "/nudges")).Message.Data)
	if !strings.Contains(string(raw), `{"kind":"block-end","on":true}`) {
		t.Errorf("%s", raw)
	}
}
