package discordtest

import (
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// registerFull registers one command with an option of every type.
func registerFull(b *bot) {
	b.t.Helper()
	b.want(200, 0, "PUT", "/applications/"+b.srv.AppID()+"/commands", []object{
		{"name": "meet", "description": "x", "options": []object{
			{"type": SubGroup, "name": "day", "description": "x", "options": []object{
				{"type": SubCommand, "name": "add", "description": "x", "options": []object{
					option("name", object{"required": true, "min_length": 2, "max_length": 5}),
					option("kind", object{"choices": []object{{"name": "Main meet", "value": "main"}}}),
					option("tries", object{"type": IntegerOption, "min_value": 1, "max_value": 9}),
					option("weight", object{"type": NumberOption}),
					option("raw", object{"type": BooleanOption}),
					option("lifter", object{"type": UserOption}),
					option("where", object{"type": ChannelOption}),
					option("for", object{"type": RoleOption}),
				}}}}}},
		{"name": "Read this", "type": 3}, {"name": "Show block", "type": 2},
	})
}

func TestOptionsArriveTyped(t *testing.T) {
	srv, b := connected(t, Options{})
	registerFull(b)
	ana, bea := srv.User("ana"), srv.User("bea")
	role := srv.Guild().AddRole("captains", 0, false)
	act := ana.Command("#training-log", "/meet day add", Opt{"name", "River"}, Opt{"kind", "Main meet"}, Opt{"tries", 9}, Opt{"weight", "62.5"},
		Opt{"raw", true}, Opt{"lifter", bea}, Opt{"where", "#announcements"}, Opt{"for", "captains"})
	if act.Err() != nil {
		t.Fatal(act.Err())
	}
	data := b.until("INTERACTION_CREATE").D["data"].(object)
	group := data["options"].([]any)[0].(object)
	sub := group["options"].([]any)[0].(object)
	if data["name"] != "meet" || group["name"] != "day" || sub["name"] != "add" {
		t.Fatalf("%v", data)
	}
	want := []any{"River", "main", 9.0, 62.5, true, bea.ID, srv.Channel("#announcements"), role}
	for i, o := range sub["options"].([]any) {
		if o.(object)["value"] != want[i] {
			t.Errorf("option %v, want %v", o, want[i])
		}
	}
	resolved := data["resolved"].(object)
	if resolved["users"].(object)[bea.ID] == nil || resolved["members"].(object)[bea.ID] == nil || resolved["channels"] == nil || resolved["roles"] == nil {
		t.Errorf("resolved %v", resolved)
	}
}

func TestWhatAClientRefuses(t *testing.T) {
	srv, b := connected(t, Options{})
	registerFull(b)
	name := Opt{"name", "River"}
	for words, opts := range map[string][]Opt{
		"option \"name\" is required": nil,
		"too few":                     {{"name", "R"}},
		"too many":                    {{"name", "River Open"}},
		"among the choices":           {name, {"kind", "other"}},
		"out of range":                {name, {"tries", 10}},
		"whole number":                {name, {"tries", 1.5}},
		"invalid syntax":              {name, {"weight", "heavy"}},
		"no person":                   {name, {"lifter", "nobody"}},
		"no channel":                  {name, {"where", "nowhere"}},
		"no role":                     {name, {"for", "nobody"}},
		"no option":                   {name, {"colour", "red"}},
	} {
		if err := srv.User("ana").Command("#training-log", "meet day add", opts...).Err(); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v: %v, want %q", opts, err, words)
		}
	}
	for _, words := range []string{"", "meet", "meet day", "meet night", "Show block"} {
		if err := srv.User("ana").Command("#training-log", words).Err(); err == nil {
			t.Errorf("/%s was sent", words)
		}
	}
	if err := srv.User("ana").Command("#nowhere", "meet day add", name).Err(); err == nil {
		t.Error("a command was used in a channel that does not exist")
	}
	if err := srv.User("ana").Autocomplete("#training-log", "meet day add", "name", "R").Err(); err == nil {
		t.Error("an option without suggestions was completed")
	}
}

func TestCommandsFromMenus(t *testing.T) {
	srv := New(t, Options{})
	b := newBot(t, srv)
	b.connect(GuildsIntent) // without the intent for content
	registerFull(b)
	ana := srv.User("ana")
	id, _ := ana.Say("#training-log", "squat 100x5")
	if err := ana.CommandOnMessage(id, "Read this").Err(); err != nil {
		t.Fatal(err)
	}
	data := b.until("INTERACTION_CREATE").D["data"].(object)
	if m := data["resolved"].(object)["messages"].(object)[id].(object); data["target_id"] != id || m["content"] != "squat 100x5" {
		t.Errorf("%v, want the message with its content", data)
	}
	if err := ana.CommandOnUser("#training-log", srv.User("bea"), "Show block").Err(); err != nil {
		t.Fatal(err)
	}
	if data := b.until("INTERACTION_CREATE").D["data"].(object); data["target_id"] != srv.User("bea").ID {
		t.Errorf("%v", data)
	}
}

func TestPeopleTalk(t *testing.T) {
	srv, b := connected(t, Options{})
	ana, bea := srv.User("ana"), srv.User("bea")
	post := b.want(200, 0, "POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"content": "how was it?"})["id"].(string)
	b.until("MESSAGE_CREATE")
	id, err := ana.Reply(post, "hard")
	if err != nil {
		t.Fatal(err)
	}
	e := b.until("MESSAGE_CREATE").D
	if e["referenced_message"].(object)["id"] != post || e["type"] != 19.0 || e["member"] == nil {
		t.Errorf("%v, want a reply", e)
	}
	if err := bea.Edit(id, "x"); err == nil {
		t.Error("bea edited ana's message")
	}
	if err := bea.Delete(id); err == nil {
		t.Error("bea deleted ana's message")
	}
	if err := ana.Edit(id, "easy"); err != nil {
		t.Error(err)
	}
	if e := b.until("MESSAGE_UPDATE").D; e["content"] != "easy" || e["edited_timestamp"] == nil {
		t.Errorf("%v", e)
	}
	if err := srv.User("cap").Delete(id); err != nil {
		t.Error(err)
	}
	if e := b.until("MESSAGE_DELETE").D; e["id"] != id {
		t.Errorf("%v", e)
	}
	if _, err := srv.OtherBot("beep").Say("#training-log", "beep"); err != nil {
		t.Fatal(err)
	}
	if e := b.until("MESSAGE_CREATE").D; e["author"].(object)["bot"] != true {
		t.Errorf("%v, want a bot's message", e)
	}
}

func TestTheWorldChanges(t *testing.T) {
	srv, b := connected(t, Options{})
	g, ana := srv.Guild(), srv.User("ana")
	ch := g.AddChannel("#coaches")
	g.Overwrite("#coaches", Overwrite{ID: g.ID, Deny: ViewChannel})
	if _, err := ana.Say("#coaches", "hello?"); err == nil || ana.Sees("#coaches") != nil {
		t.Error("ana sees a channel that is closed to everyone")
	}
	role := g.AddRole("coach", 0, false)
	g.Overwrite("#coaches", Overwrite{ID: role, Allow: ViewChannel})
	g.Grant(ana, role)
	if _, err := ana.Say("#coaches", "hello"); err != nil {
		t.Error(err)
	}
	g.Revoke(ana, role)
	if ana.Sees("#coaches") != nil {
		t.Error("ana still sees the channel")
	}
	g.ChangeRole(role, ManageGuild)
	g.DeleteRole(role)
	g.Leave(ana)
	g.Join(ana)
	g.Transfer(ana)
	thread := g.AddThread("#training-log", "june")
	g.DeleteChannel(thread)
	g.DeleteChannel("#coaches")
	var heard []string
	for len(heard) < 15 {
		heard = append(heard, b.read().T)
	}
	want := []string{"GUILD_CREATE", "GUILD_MEMBER_ADD", "CHANNEL_CREATE", "CHANNEL_UPDATE", "GUILD_ROLE_CREATE", "CHANNEL_UPDATE", "GUILD_MEMBER_UPDATE",
		"GUILD_MEMBER_UPDATE", "GUILD_ROLE_UPDATE", "GUILD_ROLE_DELETE", "GUILD_MEMBER_REMOVE", "GUILD_MEMBER_ADD", "GUILD_UPDATE", "THREAD_CREATE", "THREAD_DELETE"}
	if !slices.Equal(heard, want) {
		t.Errorf("heard %v\nwant  %v", heard, want)
	}
	if p := b.read(); p.T != "CHANNEL_DELETE" || p.D["id"] != ch {
		t.Errorf("%v, want the end of the channel", p)
	}
}

func TestNamesAndMembers(t *testing.T) {
	srv := New(t, Options{})
	ana := srv.User("ana")
	b := newBot(t, srv)
	b.connect(GuildsIntent | MembersIntent)
	if members := b.until("GUILD_CREATE").D["members"].([]any); len(members) != 1 {
		t.Errorf("%d members are listed without the intent for presences, want the bot alone", len(members))
	}
	srv.Guild().Nick(ana, "Ana B.")
	if e := b.until("GUILD_MEMBER_UPDATE").D; e["nick"] != "Ana B." {
		t.Errorf("%v", e)
	}
	full := newBot(t, srv)
	full.connect(GuildsIntent | PresencesIntent)
	if members := full.until("GUILD_CREATE").D["members"].([]any); len(members) != 3 {
		t.Errorf("%d members are listed, want cap, ana and the bot", len(members))
	}
}

func TestLocalesTravel(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	srv.User("ana").Speak("de")
	srv.User("ana").Command("#training-log", "block")
	if e := b.until("INTERACTION_CREATE").D; e["locale"] != "de" || e["guild_locale"] != "en-US" {
		t.Errorf("%v, %v", e["locale"], e["guild_locale"])
	}
}

func TestTwoConnectionsHearTheSame(t *testing.T) {
	srv, one := connected(t, Options{})
	two := newBot(t, srv)
	two.ready()
	id, _ := srv.User("ana").Say("#training-log", "hello")
	if a, b := one.until("MESSAGE_CREATE").D["id"], two.until("MESSAGE_CREATE").D["id"]; a != id || b != id {
		t.Errorf("%v and %v, want %s twice", a, b, id)
	}
}

func TestSettingsAndBrokenPackets(t *testing.T) {
	srv := New(t, Options{})
	g := srv.Gateway()
	b := newBot(t, srv)
	b.ready()
	g.SendRaw(`{"op":0,"t":"OUT_OF_ORDER","s":1,"d":{}}`)
	if p := b.read(); p.T != "OUT_OF_ORDER" || p.S != 1 {
		t.Errorf("%v", p)
	}
	g.Freeze()
	g.Thaw()
	b.send(1, 1)
	if op := b.readLoose(); op != 11 {
		t.Errorf("after the thaw: op %d, want 11", op)
	}
	srv.Disallow(MessageContentIntent)
	other := newBot(t, srv)
	other.hello()
	other.identify(nil)
	if code := other.closed(); code != 4014 {
		t.Errorf("closed with %d, want 4014", code)
	}
	g.HalfFrame()
	frame := make([]byte, 5)
	if _, err := io.ReadFull(b.ws.NetConn(), frame); err != nil || frame[0] != 0x81 {
		t.Errorf("%v %v, want the head of a frame", frame, err)
	}
}

func TestFilesCanBeGone(t *testing.T) {
	srv := New(t, Options{})
	resp, err := plainGet(t, srv.URL()+"/attachments/1/2/none.png")
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusNotFound {
		t.Errorf("%d, want 404", resp.StatusCode)
	}
	srv.Fail(Fault{Kind: RefuseBefore, Route: "/attachments", Status: 503})
	if resp, err = plainGet(t, srv.URL()+"/attachments/1/2/none.png"); err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != 503 {
		t.Errorf("%d, want 503", resp.StatusCode)
	}
}
