package discordtest

import (
	"strings"
	"testing"
	"time"
)

func TestTheWorldIsAnswered(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	srv.Guild().AddThread("#training-log", "june")
	guild, ch := srv.Guild().ID, srv.Channel("#training-log")
	for _, path := range []string{
		"/users/@me", "/users/" + srv.User("ana").ID, "/oauth2/applications/@me", "/applications/@me", "/gateway/bot", "/gateway",
		"/guilds/" + guild, "/guilds/" + guild + "/channels", "/guilds/" + guild + "/roles", "/guilds/" + guild + "/members/" + srv.BotID(),
		"/users/@me/guilds", "/channels/" + ch, "/channels/" + srv.Channel("june"), "/applications/" + srv.AppID() + "/commands",
	} {
		b.want(200, 0, "GET", path, nil)
	}
	b.want(404, 10004, "GET", "/guilds/1", nil)
	b.want(404, 10003, "GET", "/channels/1", nil)
	b.want(404, 10007, "GET", "/guilds/"+guild+"/members/1", nil)
	b.want(404, 10013, "GET", "/users/1", nil)
	b.want(204, 0, "POST", "/channels/"+ch+"/typing", nil)
	o := b.want(200, 0, "GET", "/gateway/bot", nil)
	if limit := o["session_start_limit"].(object); limit["total"] != 1000.0 || limit["remaining"] != 1000.0 || limit["max_concurrency"] != 1.0 {
		t.Errorf("session_start_limit %v", limit)
	}
}

func TestRightsAreJudged(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/channels/" + srv.Channel("#training-log") + "/messages"
	post := object{"content": "x"}
	b.want(200, 0, "POST", path, post)
	srv.Deny("#training-log", SendMessages)
	b.want(403, 50013, "POST", path, post)
	srv.Deny("#training-log", ViewChannel)
	b.want(403, 50001, "POST", path, post)
	srv.Deny("#training-log", ReadHistory)
	if _, raw := b.raw("GET", path, nil); string(raw) != "[]" {
		t.Errorf("without the right to read history: %s", raw)
	}
	srv.Deny("#training-log", EmbedLinks)
	if o := b.want(200, 0, "POST", path, object{"content": "x", "embeds": []object{{"title": "t"}}}); len(o["embeds"].([]any)) != 0 {
		t.Error("an embed stayed without the right to embed")
	}
	if n := srv.InvalidRequests(); n != 2 {
		t.Errorf("%d invalid requests, want 2", n)
	}
	thread := srv.Guild().AddThread("#training-log", "june")
	b.want(200, 0, "POST", "/channels/"+thread+"/messages", post)
	srv.Guild().Archive(thread)
	b.want(400, 50083, "POST", "/channels/"+thread+"/messages", post)
	srv.Guild().DeleteChannel("#training-log")
	b.want(404, 10003, "POST", path, post)
	srv.Guild().RemoveBot()
	b.want(403, 50001, "GET", "/guilds/"+srv.Guild().ID, nil)
}

func TestWhoMayUseACommand(t *testing.T) {
	srv, b := connected(t, Options{})
	b.want(201, 0, "POST", "/applications/"+srv.AppID()+"/commands", object{"name": "club", "description": "x", "default_member_permissions": "32", "contexts": []int{0}})
	ana, g := srv.User("ana"), srv.Guild()
	if err := ana.Command("#training-log", "club").Err(); err == nil {
		t.Error("ana may use a command for those who manage the guild")
	}
	g.Grant(ana, g.AddRole("captains", ManageGuild, false))
	if err := ana.Command("#training-log", "club").Err(); err != nil {
		t.Error(err)
	}
	e := b.until("INTERACTION_CREATE").D["member"].(object)
	if p := rights(e["permissions"].(string)); !p.Has(ManageGuild) {
		t.Errorf("permissions of the payload: %v", p)
	}
	if err := srv.User("cap").Command("", "club").Err(); err == nil {
		t.Error("a command for guilds shows in direct messages")
	}
	if err := ana.Command("#training-log", "season build").Err(); err == nil || !strings.Contains(err.Error(), "season") {
		t.Errorf("a command that is not registered: %v", err)
	}
}

func TestDirectMessagesCanBeClosed(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	open := func(u *User) string {
		return b.want(200, 0, "POST", "/users/@me/channels", object{"recipient_id": u.ID})["id"].(string)
	}
	ana, stranger := srv.User("ana"), srv.Stranger("max")
	path := "/channels/" + open(ana) + "/messages"
	b.want(200, 0, "POST", path, object{"content": "psst"})
	if in := ana.Inbox(); len(in) != 1 || in[0].Content != "psst" {
		t.Errorf("inbox %v", in)
	}
	ana.CloseDirects(true)
	b.want(403, 50007, "POST", path, object{"content": "psst"})
	b.want(403, 50278, "POST", "/channels/"+open(stranger)+"/messages", object{"content": "psst"})
}

func TestCommandsAreKept(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/applications/" + srv.AppID() + "/commands"
	first := b.want(201, 0, "POST", path, object{"name": "block", "description": "old"})
	again := b.want(200, 0, "POST", path, object{"name": "block", "description": "new"})
	if first["id"] != again["id"] || again["version"] == first["version"] {
		t.Errorf("the same name twice: %v, %v", first, again)
	}
	one := path + "/" + first["id"].(string)
	b.want(200, 0, "PATCH", one, object{"description": "newer"})
	if o := b.want(200, 0, "GET", one, nil); o["description"] != "newer" {
		t.Error(o)
	}
	b.want(403, 20001, "PUT", "/applications/"+srv.AppID()+"/guilds/"+srv.Guild().ID+"/commands/"+first["id"].(string)+"/permissions", object{"permissions": []object{}})
	b.want(204, 0, "DELETE", one, nil)
	b.want(404, 10063, "DELETE", one, nil)
	b.want(403, 20012, "GET", "/applications/1/commands", nil)
	local := "/applications/" + srv.AppID() + "/guilds/" + srv.Guild().ID + "/commands"
	b.want(201, 0, "POST", local, object{"name": "block", "description": "here only"})
	if n := len(srv.Commands()); n != 1 {
		t.Errorf("%d commands, want the one of the guild", n)
	}
	b.want(200, 0, "PUT", local, []object{})
	if n := len(srv.Commands()); n != 0 {
		t.Errorf("%d commands after an empty overwrite", n)
	}
}

// 200 creations a day in a scope, 100 commands at a time; source:
// interactions/application-commands.
func TestCommandsAreCounted(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	path := "/applications/" + srv.AppID() + "/commands"
	batch := func(letter string, n int) []object {
		return manyOf(n, func(i int) object {
			return object{"name": letter + strings.Repeat("x", i%30) + strings.Repeat("y", i/30), "description": "x"}
		})
	}
	b.want(400, 30032, "PUT", path, batch("a", 101))
	b.want(200, 0, "PUT", path, batch("a", 100))
	b.want(200, 0, "PUT", path, batch("a", 100)) // none of them is new
	b.want(200, 0, "PUT", path, batch("b", 100))
	b.want(400, 30034, "PUT", path, batch("c", 1))
	if n := len(srv.Commands()); n != 100 {
		t.Errorf("%d commands after a refused overwrite, want the 100 from before", n)
	}
	srv.Advance(24 * time.Hour)
	b.want(200, 0, "PUT", path, batch("c", 1))
}

func TestAWrongTokenIsRefused(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	b.token = "wrong"
	b.want(401, 0, "GET", "/users/@me", nil)
	if n := srv.InvalidRequests(); n != 1 {
		t.Errorf("%d invalid requests, want 1", n)
	}
	srv.Advance(10 * time.Minute)
	if n := srv.InvalidRequests(); n != 0 {
		t.Errorf("%d invalid requests after ten minutes, want 0", n)
	}
}

func TestRequestsAreKeptWithoutTokens(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	act := srv.User("ana").Command("#training-log", "block")
	callback, webhook := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 4, "data": object{"content": "x"}})
	b.want(200, 0, "GET", webhook+"/messages/@original", nil)
	reqs, err := srv.AwaitRequests(soon(t), 1, "POST", "/interactions/{interaction_id}/{interaction_token}/callback")
	if err != nil || reqs[0].Status != 204 || !strings.Contains(string(reqs[0].Body), `"content":"x"`) {
		t.Fatal(reqs, err)
	}
	for _, r := range srv.Requests() {
		all := r.Path + r.Query + string(r.Body) + r.Header.Get("Authorization")
		if strings.Contains(all, act.Token()) || strings.Contains(all, srv.Token()) {
			t.Errorf("a token stands in %+v", r)
		}
	}
}
