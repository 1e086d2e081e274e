package discordtest

import (
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestOneNonceMakesOneMessage(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	post := object{"content": "due", "nonce": "k1", "enforce_nonce": true}
	first, second := b.want(200, 0, "POST", path, post), b.want(200, 0, "POST", path, post)
	if first["id"] != second["id"] {
		t.Errorf("one nonce made two messages: %v, %v", first["id"], second["id"])
	}
	if other := b.want(200, 0, "POST", path, object{"content": "due", "nonce": "k1"}); other["id"] == first["id"] {
		t.Error("a nonce that is not enforced swallowed a message")
	}
	srv.Advance(5*time.Minute + time.Second)
	if later := b.want(200, 0, "POST", path, post); later["id"] == first["id"] {
		t.Error("the nonce outlived its window")
	}
	if got := b.want(200, 0, "GET", path+"/"+first["id"].(string), nil); got["nonce"] != "k1" {
		t.Errorf("nonce read back: %v", got["nonce"])
	}
}

func TestListsArePaged(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	ana := srv.User("ana")
	var ids []string
	for i := range 7 {
		id, err := ana.Say("#training-log", fmt.Sprint("set ", i))
		if err != nil {
			t.Fatal(err)
		}
		ids = append(ids, id)
		srv.Advance(time.Second)
	}
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	for query, want := range map[string][]string{
		"":                               {ids[6], ids[5], ids[4], ids[3], ids[2], ids[1], ids[0]},
		"?limit=2":                       {ids[6], ids[5]},
		"?limit=2&before=" + ids[3]:      {ids[2], ids[1]},
		"?limit=2&after=" + ids[3]:       {ids[5], ids[4]},
		"?limit=3&around=" + ids[3]:      {ids[4], ids[3], ids[2]},
		"?after=" + IDAt(TimeOf(ids[5])): {ids[6], ids[5]},
		"?limit=1&after=" + ids[6]:       {},
		"?limit=100&before=" + IDAt(time.Unix(1500000000, 0)): {},
	} {
		_, raw := b.raw("GET", path+query, nil)
		var got []string
		for _, m := range parseList(t, raw) {
			got = append(got, m["id"].(string))
		}
		if !slices.Equal(got, want) && len(got)+len(want) > 0 {
			t.Errorf("%q: %v, want %v", query, got, want)
		}
	}
}

func TestFilesComeWithWords(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	status := b.upload("/channels/"+srv.Channel("#training-log")+"/messages", object{"embeds": []object{{"title": "plan", "image": object{"url": "attachment://season.png"}}},
		"attachments": []object{{"id": 0, "description": "a chart"}}}, "season.png", "picture")
	if status != 200 {
		t.Fatal(status)
	}
	m := srv.User("ana").Sees("#training-log")[0]
	if a := m.Attachments[0]; a.Description != "a chart" || string(a.Bytes) != "picture" || m.Embeds[0].Image.URL != a.URL {
		t.Fatalf("%+v %+v", m.Attachments, m.Embeds)
	}
	get, _ := http.NewRequestWithContext(t.Context(), "GET", m.Attachments[0].URL, nil)
	resp, err := http.DefaultClient.Do(get)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if data, _ := io.ReadAll(resp.Body); string(data) != "picture" {
		t.Errorf("the file host hands out %q", data)
	}
	path := "/channels/" + m.Channel + "/messages/" + m.ID
	b.want(200, 0, "PATCH", path, object{"content": "kept"})
	if n := len(srv.User("ana").Sees("#training-log")[0].Attachments); n != 1 {
		t.Errorf("%d files after an edit that names none, want 1", n)
	}
	b.want(200, 0, "PATCH", path, object{"attachments": []object{{"id": m.Attachments[0].ID}}})
	if n := len(srv.User("ana").Sees("#training-log")[0].Attachments); n != 1 {
		t.Errorf("%d files after an edit that lists it, want 1", n)
	}
	b.want(200, 0, "PATCH", path, object{"embeds": []object{}, "attachments": []object{}})
	if n := len(srv.User("ana").Sees("#training-log")[0].Attachments); n != 0 {
		t.Errorf("%d files after an edit that lists none, want 0", n)
	}
}

func TestWhoIsPinged(t *testing.T) {
	srv, b := connected(t, Options{})
	g, ana := srv.Guild(), srv.User("ana")
	loud, quiet := g.AddRole("loud", 0, true), g.AddRole("quiet", 0, false)
	b.register("block")
	text := fmt.Sprintf("%s <@&%s> <@&%s> @everyone", ana.Mention(), loud, quiet)
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	last := func() Pings {
		seen := ana.Sees("#training-log")
		return seen[len(seen)-1].Pings
	}
	for _, c := range []struct {
		mentions any
		users    int
		roles    int
	}{
		{nil, 1, 1}, // without allowed_mentions a plain post pings all it may
		{object{"parse": []string{}}, 0, 0},
		{object{"parse": []string{"users"}}, 1, 0},
		{object{"users": []string{ana.ID}}, 1, 0},
		{object{"roles": []string{quiet}}, 0, 0}, // not mentionable
		{object{"roles": []string{loud}}, 0, 1},
	} {
		body := object{"content": text}
		if c.mentions != nil {
			body["allowed_mentions"] = c.mentions
		}
		b.want(200, 0, "POST", path, body)
		if p := last(); len(p.Users) != c.users || len(p.Roles) != c.roles || p.Everyone {
			t.Errorf("%v pings %+v", c.mentions, p)
		}
	}
	b.want(200, 0, "POST", path, object{"content": text, "flags": SuppressNotifications})
	if !last().Silent {
		t.Error("the silent post is not marked")
	}
	ana.Command("#training-log", "block")
	callback, _ := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 4, "data": object{"content": text}})
	if p := last(); len(p.Users) != 1 || len(p.Roles) != 0 {
		t.Errorf("an answer to a command pings %+v, by default only people", p)
	}
}

func TestReactionsAreSetAndTaken(t *testing.T) {
	srv, b := connected(t, Options{})
	ana := srv.User("ana")
	id, _ := ana.Say("#training-log", "squat 100x5")
	path := "/channels/" + srv.Channel("#training-log") + "/messages/" + id + "/reactions/%E2%9C%85"
	b.want(204, 0, "PUT", path+"/@me", nil)
	b.want(204, 0, "PUT", path+"/@me", nil) // once more changes nothing
	if err := ana.React(id, "✅"); err != nil {
		t.Fatal(err)
	}
	r := ana.Sees("#training-log")[0].Reactions
	if len(r) != 1 || r[0].Emoji != "✅" || !slices.Equal(r[0].By, []string{srv.BotID(), ana.ID}) {
		t.Errorf("reactions %v", r)
	}
	_, raw := b.raw("GET", path, nil)
	if list := parseList(t, raw); len(list) != 2 {
		t.Errorf("%v, want the bot and ana", list)
	}
	if e := b.until("MESSAGE_REACTION_ADD"); e.D["user_id"] != srv.BotID() {
		t.Errorf("first reaction event %v", e)
	}
	b.want(204, 0, "DELETE", path+"/@me", nil)
	b.want(403, 50013, "DELETE", path+"/"+ana.ID, nil)
	b.want(400, 10014, "PUT", strings.Replace(path, "%E2%9C%85", "ok", 1)+"/@me", nil)
	if err := ana.Unreact(id, "✅"); err != nil || len(ana.Sees("#training-log")[0].Reactions) != 0 {
		t.Error(err, "a reaction is left")
	}
}

func TestOnlyOwnMessagesAreEdited(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	id, _ := srv.User("ana").Say("#training-log", "hi")
	path := "/channels/" + srv.Channel("#training-log") + "/messages/"
	b.want(403, 50005, "PATCH", path+id, object{"content": "bye"})
	b.want(403, 50013, "DELETE", path+id, nil)
	own := b.want(200, 0, "POST", path[:len(path)-1], object{"content": "mine"})["id"].(string)
	srv.Advance(2 * time.Hour)
	for range maxOldEdits {
		b.want(200, 0, "PATCH", path+own, object{"content": "still mine"})
	}
	b.want(400, 30046, "PATCH", path+own, object{"content": "too often"})
	b.want(204, 0, "DELETE", path+own, nil)
	b.want(404, 10008, "GET", path+own, nil)
}

func TestAReplyToAMessageThatIsGone(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	ana := srv.User("ana")
	id, _ := ana.Say("#training-log", "squat 100x5")
	if o := b.want(200, 0, "POST", path, object{"content": "noted", "message_reference": object{"message_id": id}}); o["referenced_message"] == nil {
		t.Errorf("%v, want a reply", o)
	}
	if seen := ana.Sees("#training-log"); !slices.Equal(seen[1].Pings.Users, []string{ana.ID}) || seen[1].ReplyTo != id {
		t.Errorf("%+v, want a reply that pings ana", seen[1])
	}
	_ = ana.Delete(id)
	b.want(400, 50035, "POST", path, object{"content": "noted", "message_reference": object{"message_id": id}})
	if o := b.want(200, 0, "POST", path, object{"content": "noted", "message_reference": object{"message_id": id, "fail_if_not_exists": false}}); o["type"] != 0.0 {
		t.Errorf("%v, want a plain message", o)
	}
}

func TestALayoutShowsItsFiles(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	status := b.upload(path, object{"flags": ComponentsV2, "components": []object{
		{"type": MediaGallery, "items": []object{{"media": object{"url": "attachment://a.png"}, "description": "a chart"}}},
		{"type": FileComponent, "file": object{"url": "attachment://a.png"}}}}, "a.png", "picture")
	if status != 200 {
		t.Fatal(status)
	}
	_, raw := b.raw("GET", path, nil)
	list := parseList(t, raw)
	gallery := list[0]["components"].([]any)[0].(object)["items"].([]any)[0].(object)
	file := srv.User("ana").Sees("#training-log")[0].Attachments[0]
	if media := gallery["media"].(object); media["url"] != file.URL || media["attachment_id"] != file.ID || gallery["description"] != "a chart" {
		t.Errorf("%v, want the address of %+v", gallery, file)
	}
}
