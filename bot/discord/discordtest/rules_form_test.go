package discordtest

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
)

// Source of the limits: components/reference of the platform's documentation.
func TestFormsThatBreakRules(t *testing.T) {
	label := func(part object) object { return object{"type": Label, "label": "l", "component": part} }
	choices := func(n int) []object {
		return manyOf(n, func(i int) object { return object{"label": fmt.Sprint(i), "value": fmt.Sprint(i)} })
	}
	input := func(more object) object {
		o := object{"type": TextInput, "style": 1, "custom_id": "f"}
		for k, v := range more {
			o[k] = v
		}
		return o
	}
	for name, c := range map[string]struct {
		parts []object
		words string
	}{
		"a field twice":       {[]object{label(input(nil)), label(input(nil))}, "comes twice"},
		"a label of 46":       {[]object{{"type": Label, "label": strings.Repeat("l", 46), "component": input(nil)}}, "45"},
		"a label of nothing":  {[]object{{"type": Label, "label": "l"}}, "component"},
		"a button":            {[]object{row(button(1))}, ""},
		"no style":            {[]object{label(input(object{"style": 3}))}, "style"},
		"a value of 4001":     {[]object{label(input(object{"value": strings.Repeat("v", 4001)}))}, "4000"},
		"lengths crossed":     {[]object{label(input(object{"min_length": 9, "max_length": 3}))}, "lengths"},
		"one radio option":    {[]object{label(object{"type": RadioGroup, "custom_id": "r", "options": choices(1)})}, "2"},
		"11 boxes":            {[]object{label(object{"type": CheckboxGroup, "custom_id": "c", "options": choices(11)})}, "10"},
		"26 options":          {[]object{label(object{"type": StringSelect, "custom_id": "s", "options": choices(26)})}, "25"},
		"a text input at top": {[]object{input(nil)}, ""},
	} {
		body := object{"custom_id": "f", "title": "t", "components": c.parts}
		var m modal
		if err := json.Unmarshal(encode(body), &m); err != nil {
			t.Fatal(err)
		}
		if bad := strings.Join(m.check(), "; "); bad == "" || !strings.Contains(bad, c.words) {
			t.Errorf("%s: %q, want %q", name, bad, c.words)
		}
	}
	fine := modal{CustomID: "f", Title: "t"}
	for i, part := range []object{{"type": Checkbox}, {"type": RadioGroup, "options": choices(2)}, {"type": CheckboxGroup, "options": choices(1)}, {"type": FileUpload}} {
		part["custom_id"] = fmt.Sprint(i)
		var c Component
		if err := json.Unmarshal(encode(label(part)), &c); err != nil {
			t.Fatal(err)
		}
		fine.Components = append(fine.Components, c)
	}
	if bad := fine.check(); len(bad) > 0 {
		t.Errorf("a good form: %q", bad)
	}
}

func TestEditsThatBreakRules(t *testing.T) {
	for name, c := range map[string]struct {
		first, edit object
		words       string
	}{
		"content of 2001":     {object{"content": "x"}, object{"content": strings.Repeat("x", 2001)}, "2000"},
		"nothing left":        {object{"content": "x"}, object{"content": nil}, "empty message"},
		"a hidden flag":       {object{"content": "x"}, object{"flags": Ephemeral}, "flags"},
		"v2 taken away":       {object{"flags": ComponentsV2, "components": []object{{"type": TextDisplay, "content": "x"}}}, object{"flags": 0}, "taken away"},
		"content in v2":       {object{"flags": ComponentsV2, "components": []object{{"type": TextDisplay, "content": "x"}}}, object{"content": "y"}, "has no content"},
		"a file from nowhere": {object{"content": "x"}, object{"attachments": []object{{"id": "77"}}}, "files[n]"},
		"a nonce":             {object{"content": "x"}, object{"content": "y", "nonce": "n"}, "plain posts only"},
	} {
		t.Run(name, func(t *testing.T) {
			srv := lenient(t, Options{})
			b := newBot(t, srv)
			path := "/channels/" + srv.Channel("#training-log") + "/messages"
			id := b.want(200, 0, "POST", path, c.first)["id"].(string)
			before := srv.User("ana").Sees("#training-log")[0]
			b.want(400, 0, "PATCH", path+"/"+id, c.edit)
			if v := strings.Join(srv.Violations(), "; "); !strings.Contains(v, c.words) {
				t.Errorf("violations %q, want %q", v, c.words)
			}
			if after := srv.User("ana").Sees("#training-log")[0]; after.Content != before.Content || after.Edits != 0 {
				t.Errorf("the refused edit left %v", after)
			}
		})
	}
}

func TestFormsOfFilesThatBreakRules(t *testing.T) {
	part := func(name, file, content string) string {
		if file != "" {
			file = `; filename="` + file + `"`
		}
		return "--b\r\nContent-Disposition: form-data; name=\"" + name + "\"" + file + "\r\n\r\n" + content + "\r\n"
	}
	eleven := ""
	for i := range 11 {
		eleven += part(fmt.Sprintf("files[%d]", i), "a", "x")
	}
	for name, c := range map[string]struct {
		kind, body string
		status     int
		words      string
	}{
		"a stranger part":  {"multipart/form-data; boundary=b", part("picture", "a.png", "x") + "--b--", 400, "files[n]"},
		"no file name":     {"multipart/form-data; boundary=b", part("files[0]", "", "x") + "--b--", 400, "no file name"},
		"one n twice":      {"multipart/form-data; boundary=b", part("files[0]", "a", "x") + part("files[0]", "b", "x") + "--b--", 400, "twice"},
		"eleven files":     {"multipart/form-data; boundary=b", eleven + "--b--", 400, "at most 10"},
		"cut short":        {"multipart/form-data; boundary=b", strings.TrimSuffix(part("payload_json", "", "{"), "\r\n"), 400, "multipart"},
		"a file of 11 MiB": {"multipart/form-data; boundary=b", part("files[0]", "a", strings.Repeat("x", 11<<20)) + "--b--", 413, "too large"},
		"another kind":     {"text/plain", "hello", 400, "Content-Type"},
		"a kind left out":  {"", "{}", 400, "Content-Type"},
		"no JSON":          {"application/json", "{", 400, ""},
	} {
		t.Run(name, func(t *testing.T) {
			srv := lenient(t, Options{})
			req, _ := http.NewRequestWithContext(t.Context(), "POST", srv.URL()+base+"/channels/"+srv.Channel("#training-log")+"/messages", strings.NewReader(c.body))
			req.Header.Set("Authorization", "Bot "+srv.Token())
			req.Header.Set("User-Agent", "DiscordBot (https://example.org, 1)")
			req.Header.Set("Content-Type", c.kind)
			resp, err := http.DefaultClient.Do(req)
			if err != nil {
				t.Fatal(err)
			}
			resp.Body.Close()
			if v := strings.Join(srv.Violations(), "; "); resp.StatusCode != c.status || v == "" || !strings.Contains(v, c.words) {
				t.Errorf("%d, violations %q, want %d and %q", resp.StatusCode, v, c.status, c.words)
			}
		})
	}
}

func TestLayoutsThatBreakRules(t *testing.T) {
	text := object{"type": TextDisplay, "content": "x"}
	accessory := object{"type": Button, "style": 1, "label": "l", "custom_id": "c"}
	picture := object{"media": object{"url": "https://example.org/a.png"}}
	for name, c := range map[string]struct {
		part  object
		words string
	}{
		"a text of 4001":            {object{"type": TextDisplay, "content": strings.Repeat("x", 4001)}, "content"},
		"a section of four":         {object{"type": Section, "components": []object{text, text, text, text}, "accessory": accessory}, "3"},
		"a section without a thing": {object{"type": Section, "components": []object{text}}, "accessory"},
		"an empty gallery":          {object{"type": MediaGallery, "items": []object{}}, ""},
		"11 pictures":               {object{"type": MediaGallery, "items": manyOf(11, func(int) object { return picture })}, "10"},
		"a field of forms":          {object{"type": Label, "label": "l", "component": object{"type": TextInput, "style": 1, "custom_id": "c"}}, ""},
		"type 99":                   {object{"type": 99}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			refusedAs(t, "POST", "/channels/CH/messages", object{"flags": ComponentsV2, "components": []object{c.part}}, c.words)
		})
	}
	srv := New(t, Options{})
	o := newBot(t, srv).want(200, 0, "POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"flags": ComponentsV2, "components": []object{
		{"type": Container, "components": []object{text, {"type": Separator}, {"type": Section, "components": []object{text}, "accessory": accessory},
			{"type": MediaGallery, "items": []object{picture}}, row(button(1))}}}})
	if id := o["components"].([]any)[0].(object)["id"]; id != 1.0 {
		t.Errorf("the first component has the id %v, want 1", id)
	}
	if err := srv.User("ana").Press("", "l").Err(); err != nil {
		t.Errorf("the button beside a text: %v", err)
	}
}
