package discordtest

import (
	"errors"
	"testing"
	"time"
)

func TestACommandIsAnsweredInPrivate(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("season")
	act := srv.User("ana").Command("#training-log", "season", Opt{"text", "novice"})
	callback, _ := b.asked()
	o := b.want(200, 0, "POST", callback+"?with_response=true", object{"type": 4, "data": object{"content": "hello", "flags": Ephemeral,
		"components": []object{{"type": 1, "components": []object{{"type": 2, "style": 1, "label": "Accept plan", "custom_id": "x1"}}}}}})
	m, err := act.AwaitMessage(soon(t))
	if err != nil || m.Content != "hello" || !m.Private() {
		t.Fatal(m, err)
	}
	if kind, err := act.Await(soon(t)); err != nil || kind != 4 || !act.Answered().Equal(srv.Now()) {
		t.Errorf("answer of type %d at %v: %v", kind, act.Answered(), err)
	}
	if id := o["resource"].(object)["message"].(object)["id"]; id != m.ID {
		t.Errorf("with_response tells message %v, ana sees %v", id, m.ID)
	}
	if n := len(srv.User("bea").Sees("#training-log")); n != 0 {
		t.Errorf("bea sees %d messages of ana's", n)
	}
	b.want(404, 10008, "GET", "/channels/"+m.Channel+"/messages/"+m.ID, nil)
}

func TestAPressUpdatesItsMessage(t *testing.T) {
	srv, b := connected(t, Options{})
	ch := srv.Channel("#training-log")
	b.want(200, 0, "POST", "/channels/"+ch+"/messages", object{"content": "which?", "components": []object{
		{"type": 1, "components": []object{{"type": 2, "style": 1, "label": "Yes", "custom_id": "y"}, {"type": 2, "style": 2, "label": "No", "custom_id": "n", "disabled": true}}},
		{"type": 1, "components": []object{{"type": 3, "custom_id": "s", "options": []object{{"label": "One", "value": "1"}, {"label": "Two", "value": "2"}}}}}}})
	ana := srv.User("ana")
	act := ana.Press("", "Yes")
	callback, _ := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 7, "data": object{"content": "yes!"}})
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "yes!" || m.Edits != 1 {
		t.Error(m, err)
	}
	if err := ana.Press("", "No").Err(); err == nil {
		t.Error("a disabled button was pressed")
	}
	if err := ana.Press("", "Maybe").Err(); err == nil {
		t.Error("a button that does not exist was pressed")
	}
	act = ana.Choose("", "s", "Two")
	callback, webhook := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 6})
	b.want(200, 0, "PATCH", webhook+"/messages/@original", object{"content": "two!", "components": []object{}})
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "two!" || len(m.Components) != 0 {
		t.Error(m, err)
	}
}

func TestADeferralEndsWithAnEdit(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	act := srv.User("ana").Command("", "block") // in the direct conversation
	callback, webhook := b.asked()
	b.want(404, 10015, "POST", webhook, object{"content": "too early"})
	b.want(204, 0, "POST", callback, object{"type": 5, "data": object{"flags": Ephemeral}})
	b.want(400, 40060, "POST", callback, object{"type": 4, "data": object{"content": "again"}})
	if in := srv.User("ana").Inbox(); len(in) != 1 || in[0].Flags&Loading == 0 {
		t.Errorf("while the answer is coming ana sees %v", in)
	}
	b.want(200, 0, "PATCH", webhook+"/messages/@original", object{"content": "day 3"})
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "day 3" || !m.Private() {
		t.Error(m, err)
	}
	more := b.want(200, 0, "POST", webhook, object{"content": "and more"})
	b.want(200, 0, "GET", webhook+"/messages/"+more["id"].(string), nil)
	if list, err := act.AwaitFollowUps(soon(t), 1); err != nil || list[0].Content != "and more" {
		t.Error(list, err)
	}
	b.want(204, 0, "DELETE", webhook+"/messages/@original", nil)
	b.want(404, 10008, "GET", webhook+"/messages/@original", nil)
	srv.Advance(15*time.Minute + time.Second)
	b.want(401, 50027, "POST", webhook, object{"content": "too late"})
	if srv.InvalidRequests() != 1 {
		t.Errorf("%d invalid requests, want the one with the dead token", srv.InvalidRequests())
	}
}

func TestTheFirstFollowUpAfterADeferralEditsTheOriginal(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	act := srv.User("ana").Command("#training-log", "block")
	callback, webhook := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 5})
	b.want(200, 0, "POST", webhook, object{"content": "here"})
	if m, err := act.AwaitMessage(soon(t)); err != nil || m.Content != "here" || len(srv.User("bea").Sees("#training-log")) != 1 {
		t.Error(m, err)
	}
}

func TestThreeSecondsToAnswer(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	act := srv.User("ana").Command("#training-log", "block")
	callback, _ := b.asked()
	srv.Advance(3*time.Second + time.Millisecond)
	b.want(404, 10062, "POST", callback, object{"type": 4, "data": object{"content": "late"}})
	if _, err := act.Await(soon(t)); !errors.Is(err, ErrNoResponse) {
		t.Errorf("ana waits: %v", err)
	}
	b.want(404, 10062, "POST", "/interactions/1/x/callback", object{"type": 6})
}

func TestAFormIsFilledIn(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("log")
	ana := srv.User("ana")
	act := ana.Command("#training-log", "log")
	callback, _ := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 9, "data": object{"custom_id": "f", "title": "Your set", "components": []object{
		{"type": Label, "label": "Weight", "component": object{"type": TextInput, "custom_id": "w", "style": 1}},
		{"type": Label, "label": "Lift", "component": object{"type": StringSelect, "custom_id": "l", "options": []object{{"label": "Squat", "value": "sq"}}}},
		{"type": Label, "label": "Note", "component": object{"type": TextInput, "custom_id": "n", "style": 2, "required": false, "value": "as told"}}}}})
	form, err := act.AwaitForm(soon(t))
	if err != nil || form.Title != "Your set" {
		t.Fatal(form, err)
	}
	if ana.Submit(form, map[string]any{"Lift": []string{"Squat"}}).Err() == nil {
		t.Error("a required field was left empty")
	}
	if srv.User("bea").Submit(form, nil).Err() == nil {
		t.Error("bea sent ana's form")
	}
	sent := ana.Submit(form, map[string]any{"Weight": "140", "Lift": []string{"Squat"}})
	if sent.Err() != nil {
		t.Fatal(sent.Err())
	}
	e := b.until("INTERACTION_CREATE").D
	fields := e["data"].(object)["components"].([]any)
	first := fields[0].(object)["component"].(object)
	if first["custom_id"] != "w" || first["value"] != "140" || fields[2].(object)["component"].(object)["value"] != "as told" {
		t.Errorf("fields %v", fields)
	}
	path := "/interactions/" + e["id"].(string) + "/" + e["token"].(string) + "/callback"
	b.want(204, 0, "POST", path, object{"type": 4, "data": object{"content": "noted"}})
	if m, err := sent.AwaitMessage(soon(t)); err != nil || m.Content != "noted" {
		t.Error(m, err)
	}
}

func TestAFormWithBoxes(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("log")
	ana := srv.User("ana")
	act := ana.Command("#training-log", "log")
	callback, _ := b.asked()
	days := []object{{"label": "Monday", "value": "mo"}, {"label": "Friday", "value": "fr"}}
	b.want(204, 0, "POST", callback, object{"type": 9, "data": object{"custom_id": "f", "title": "Days", "components": []object{
		{"type": Label, "label": "Days", "component": object{"type": CheckboxGroup, "custom_id": "d", "options": days}},
		{"type": Label, "label": "First", "component": object{"type": RadioGroup, "custom_id": "r", "options": days}},
		{"type": Label, "label": "Agreed", "component": object{"type": Checkbox, "custom_id": "a"}},
		{"type": Label, "label": "Picture", "component": object{"type": FileUpload, "custom_id": "p", "required": false}},
		{"type": TextDisplay, "content": "That is all."}}}})
	form, err := act.AwaitForm(soon(t))
	if err != nil {
		t.Fatal(err)
	}
	sent := ana.Submit(form, map[string]any{"Days": []string{"Monday", "Friday"}, "First": "mo", "Agreed": true})
	if sent.Err() != nil {
		t.Fatal(sent.Err())
	}
	fields := b.until("INTERACTION_CREATE").D["data"].(object)["components"].([]any)
	part := func(i int) object { return fields[i].(object)["component"].(object) }
	if len(fields) != 4 || len(part(0)["values"].([]any)) != 2 || part(1)["value"] != "mo" || part(2)["value"] != true || len(part(3)["values"].([]any)) != 0 {
		t.Errorf("fields %v", fields)
	}
	for _, bad := range []map[string]any{{"Days": []string{}, "First": "mo"}, {"Days": []string{"Sunday"}, "First": "mo"}, {"Weeks": 1, "Days": []string{"Monday"}, "First": "mo"}} {
		if ana.Submit(form, bad).Err() == nil {
			t.Errorf("%v was sent", bad)
		}
	}
}

func TestValuesAreSuggested(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("log")
	act := srv.User("ana").Autocomplete("#training-log", "log", "text", "sq")
	e := b.until("INTERACTION_CREATE").D
	if o := e["data"].(object)["options"].([]any)[0].(object); o["focused"] != true || o["value"] != "sq" {
		t.Errorf("option %v", o)
	}
	path := "/interactions/" + e["id"].(string) + "/" + e["token"].(string) + "/callback"
	b.want(204, 0, "POST", path, object{"type": 8, "data": object{"choices": []object{{"name": "squat", "value": "squat"}}}})
	if list, err := act.AwaitChoices(soon(t)); err != nil || len(list) != 1 || list[0].Name != "squat" {
		t.Error(list, err)
	}
}

func TestAnInteractionIsDeliveredTwice(t *testing.T) {
	srv, b := connected(t, Options{})
	b.register("block")
	act := srv.User("ana").Command("#training-log", "block")
	first, _ := b.asked()
	act.Repeat()
	if second, _ := b.asked(); second != first {
		t.Errorf("the second delivery is another interaction: %s, %s", first, second)
	}
}
