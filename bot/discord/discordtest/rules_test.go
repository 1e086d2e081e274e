package discordtest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// manyOf makes a list of n objects.
func manyOf(n int, make func(i int) object) []object {
	var list []object
	for i := range n {
		list = append(list, make(i))
	}
	return list
}

func button(i int) object {
	return object{"type": 2, "style": 1, "label": fmt.Sprint("b", i), "custom_id": fmt.Sprint("c", i)}
}

func row(parts ...object) object { return object{"type": 1, "components": parts} }

func option(name string, more object) object {
	o := object{"type": StringOption, "name": name, "description": "x"}
	for k, v := range more {
		o[k] = v
	}
	return o
}

// refusedAs sends a body that breaks a rule and wants 400 and a violation with
// the given words: once with the platform's document, if it is there, and once by
// the hand-written rules alone.
func refusedAs(t *testing.T, method, path string, body any, words string) {
	t.Helper()
	srv := lenient(t, Options{})
	refusedBy(t, srv, method, path, body, words)
	alone := lenient(t, Options{})
	alone.schema = nil
	refusedBy(t, alone, method, path, body, words)
}

func refusedBy(t *testing.T, srv *Server, method, path string, body any, words string) {
	t.Helper()
	path = strings.NewReplacer("APP", srv.AppID(), "CH", srv.Channel("#training-log"), "GUILD", srv.Guild().ID).Replace(path)
	status, o := newBot(t, srv).do(method, path, body)
	v := strings.Join(srv.Violations(), "\n")
	if status != 400 || !strings.Contains(v, words) || !strings.Contains(v, method) {
		t.Errorf("%s %s: %d %v, reported %q, want 400 and %q", method, path, status, o, v, words)
	}
}

// Sources of the limits: resources/message and components/reference of the
// platform's documentation.
func TestMessagesThatBreakRules(t *testing.T) {
	long := func(n int) string { return strings.Repeat("é", n) }
	for name, c := range map[string]struct {
		body  object
		words string
	}{
		"content of 2001":          {object{"content": long(2001)}, "2001 characters, at most 2000"},
		"nothing at all":           {object{}, "empty message"},
		"blank":                    {object{"content": "  "}, "empty message"},
		"nonce of 26":              {object{"content": "x", "nonce": long(26)}, "nonce"},
		"enforce without nonce":    {object{"content": "x", "enforce_nonce": true}, "without a nonce"},
		"title of 257":             {object{"embeds": []object{{"title": long(257)}}}, "257"},
		"embeds of 6001 in sum":    {object{"embeds": []object{{"description": long(4000)}, {"description": long(2001)}}}, "at most 6000"},
		"26 fields":                {object{"embeds": []object{{"fields": manyOf(26, func(int) object { return object{"name": "n", "value": "v"} })}}}, "25"},
		"a field without value":    {object{"embeds": []object{{"fields": []object{{"name": "n", "value": ""}}}}}, "name and a value"},
		"11 embeds":                {object{"embeds": manyOf(11, func(int) object { return object{"title": "t"} })}, "10"},
		"six rows":                 {object{"components": manyOf(6, func(i int) object { return row(button(i)) })}, "at most 5"},
		"six buttons in a row":     {object{"components": []object{row(manyOf(6, button)...)}}, "5"},
		"one custom_id twice":      {object{"components": []object{row(button(1), button(1))}}, "comes twice"},
		"a label of 81":            {object{"components": []object{row(object{"type": 2, "style": 1, "label": long(81), "custom_id": "c"})}}, "80"},
		"a button without id":      {object{"components": []object{row(object{"type": 2, "style": 1, "label": "l"})}}, "custom_id"},
		"a link with an id":        {object{"components": []object{row(object{"type": 2, "style": 5, "label": "l", "url": "https://example.org", "custom_id": "c"})}}, "custom_id"},
		"text without the flag":    {object{"components": []object{{"type": TextDisplay, "content": "x"}}}, "IS_COMPONENTS_V2"},
		"content beside v2":        {object{"content": "x", "flags": ComponentsV2, "components": []object{{"type": TextDisplay, "content": "x"}}}, "has no content"},
		"41 components":            {object{"flags": ComponentsV2, "components": manyOf(41, func(int) object { return object{"type": TextDisplay, "content": "x"} })}, "40"},
		"an ephemeral post":        {object{"content": "x", "flags": Ephemeral}, "flags"},
		"26 options":               {object{"components": []object{row(object{"type": 3, "custom_id": "s", "options": manyOf(26, func(i int) object { return object{"label": "l", "value": fmt.Sprint(i)} })})}}, "25"},
		"mentions both ways":       {object{"content": "x", "allowed_mentions": object{"parse": []string{"users"}, "users": []string{"1"}}}, "exclude each other"},
		"a file that is not there": {object{"content": "x", "attachments": []object{{"id": "0"}}}, "files[n]"},
		"a missing picture":        {object{"embeds": []object{{"title": "t", "image": object{"url": "attachment://a.png"}}}}, "names no file"},
		"content as a number":      {object{"content": 5}, "content"},
	} {
		t.Run(name, func(t *testing.T) { refusedAs(t, "POST", "/channels/CH/messages", c.body, c.words) })
	}
}

// Source of the limits: interactions/application-commands of the platform's
// documentation.
func TestCommandsThatBreakRules(t *testing.T) {
	long := func(n int) string { return strings.Repeat("x", n) }
	command := func(more object) object {
		o := object{"name": "block", "description": "x"}
		for k, v := range more {
			o[k] = v
		}
		return o
	}
	for name, c := range map[string]struct {
		body  object
		words string
	}{
		"capitals":                 {command(object{"name": "Block"}), "lower case"},
		"a space":                  {command(object{"name": "my block"}), "lower case"},
		"33 letters":               {command(object{"name": long(33)}), "32"},
		"no description":           {command(object{"description": ""}), "description"},
		"101 in a description":     {command(object{"description": long(101)}), "100"},
		"required behind optional": {command(object{"options": []object{option("a", nil), option("b", object{"required": true})}}), "stands behind an optional one"},
		"one name twice":           {command(object{"options": []object{option("a", nil), option("a", nil)}}), "comes twice"},
		"26 options":               {command(object{"options": manyOf(26, func(i int) object { return option(fmt.Sprint("o", i), nil) })}), "25"},
		"26 choices":               {command(object{"options": []object{option("a", object{"choices": manyOf(26, func(i int) object { return object{"name": "n", "value": fmt.Sprint(i)} })})}}), "25"},
		"choices and autocomplete": {command(object{"options": []object{option("a", object{"autocomplete": true, "choices": []object{{"name": "n", "value": "v"}}})}}), "exclude each other"},
		"subcommand beside option": {command(object{"options": []object{option("a", nil), option("b", object{"type": SubCommand})}}), "side by side"},
		"group in a group":         {command(object{"options": []object{option("a", object{"type": SubGroup, "options": []object{option("b", object{"type": SubGroup})}})}}), "option"},
		"more than 8000": {command(object{"options": manyOf(25, func(i int) object {
			return option(fmt.Sprint("o", i), object{"choices": manyOf(25, func(j int) object { return object{"name": fmt.Sprint(j) + long(12), "value": fmt.Sprint(j)} })})
		})}), "8000"},
		"a translation in capitals": {command(object{"name_localizations": object{"de": "Block"}}), "lower case"},
		"a long translation":        {command(object{"description_localizations": object{"de": long(101)}}), "100"},
		"a locale that is none":     {command(object{"name_localizations": object{"xx": "block"}}), "xx"},
	} {
		t.Run(name, func(t *testing.T) { refusedAs(t, "POST", "/applications/APP/commands", c.body, c.words) })
	}
	refusedAs(t, "PUT", "/applications/APP/commands", []object{command(nil), command(nil)}, "comes twice")
	refusedAs(t, "POST", "/applications/APP/guilds/GUILD/commands", command(object{"contexts": []int{0}}), "global")
}

// callbackRefused answers one interaction wrongly.
func callbackRefused(t *testing.T, srv *Server, begin func(*User) *Action, body object, words string) {
	t.Helper()
	b := newBot(t, srv)
	b.connect(everything)
	b.register("block")
	act := begin(srv.User("ana"))
	if act.Err() != nil {
		t.Fatal(act.Err())
	}
	callback, _ := b.asked()
	status, o := b.do("POST", callback, body)
	v := strings.Join(srv.Violations(), "\n")
	if status != 400 || !strings.Contains(v, words) {
		t.Errorf("%d %v, reported %q, want 400 and %q", status, o, v, words)
	}
}

func TestAnswersThatBreakRules(t *testing.T) {
	ask := func(u *User) *Action { return u.Command("#training-log", "block") }
	typing := func(u *User) *Action { return u.Autocomplete("#training-log", "block", "text", "x") }
	field := func(i int) object {
		return object{"type": Label, "label": "l", "component": object{"type": TextInput, "style": 1, "custom_id": fmt.Sprint("f", i)}}
	}
	form := func(n int) object {
		return object{"type": 9, "data": object{"custom_id": "f", "title": "t", "components": manyOf(n, field)}}
	}
	for name, c := range map[string]struct {
		begin func(*User) *Action
		body  object
		words string
	}{
		"a form of six":             {ask, form(6), "1 to 5"},
		"a form of none":            {ask, object{"type": 9, "data": object{"custom_id": "f", "title": "t", "components": []object{}}}, "components"},
		"a title of 46":             {ask, object{"type": 9, "data": object{"custom_id": "f", "title": strings.Repeat("t", 46), "components": []object{field(1)}}}, "45"},
		"a form for suggestions":    {typing, form(1), "does not fit"},
		"suggestions for a command": {ask, object{"type": 8, "data": object{"choices": []object{}}}, "does not fit"},
		"26 suggestions":            {typing, object{"type": 8, "data": object{"choices": manyOf(26, func(i int) object { return object{"name": "n", "value": "v"} })}}, "25"},
		"an update of nothing":      {ask, object{"type": 7, "data": object{"content": "x"}}, "does not fit"},
		"a deferral with words":     {ask, object{"type": 5, "data": object{"content": "x"}}, "nothing but flags"},
		"an empty answer":           {ask, object{"type": 4, "data": object{}}, "empty message"},
		"a nonce":                   {ask, object{"type": 4, "data": object{"content": "x", "nonce": "n"}}, "plain posts only"},
	} {
		t.Run(name, func(t *testing.T) {
			callbackRefused(t, lenient(t, Options{}), c.begin, c.body, c.words)
			alone := lenient(t, Options{})
			alone.schema = nil
			callbackRefused(t, alone, c.begin, c.body, c.words)
		})
	}
}

func TestEveryCallNamesItsBot(t *testing.T) {
	srv := lenient(t, Options{})
	resp, err := plainGet(t, srv.URL()+base+"/gateway")
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if v := strings.Join(srv.Violations(), ""); !strings.Contains(v, "User-Agent") {
		t.Errorf("violations %q", v)
	}
	newBot(t, srv).want(404, 0, "GET", "/no/such/thing", nil)
	newBot(t, srv).want(405, 0, "DELETE", "/gateway/bot", nil)
	if n := len(srv.Violations()); n != 3 {
		t.Errorf("%d violations, want 3: %q", n, srv.Violations())
	}
}

func TestTheDocumentIsChecked(t *testing.T) {
	srv := lenient(t, Options{})
	if srv.schema == nil {
		t.Skip("the platform's OpenAPI document is not beside the module: its rules cannot be checked here")
	}
	status, _ := newBot(t, srv).do("POST", "/channels/"+srv.Channel("#training-log")+"/messages", object{"content": "x", "flags": "loud"})
	if v := strings.Join(srv.Violations(), ""); status != 400 || !strings.Contains(v, "/flags") {
		t.Errorf("%d, violations %q", status, v)
	}
	if _, err := Start(Options{OpenAPI: "no/such/file.json"}); err == nil {
		t.Error("a document that does not exist was accepted")
	}
}

func TestUnknownFieldsAreListed(t *testing.T) {
	srv, b := connected(t, Options{})
	if srv.schema == nil {
		t.Skip("the platform's OpenAPI document is not beside the module: nothing tells which fields are known")
	}
	b.register("block")
	srv.User("ana").Command("#training-log", "block")
	callback, webhook := b.asked()
	b.want(204, 0, "POST", callback, object{"type": 4, "data": object{"content": "x", "colour": "red",
		"components": []object{row(object{"type": 2, "style": 1, "label": "l", "custom_id": "c", "hint": "h"})}}})
	b.want(200, 0, "PATCH", webhook+"/messages/@original", object{"content": "y", "embeds": []object{{"title": "t", "tittle": "t"}}})
	want := []string{
		"PATCH /webhooks/{webhook_id}/{webhook_token}/messages/{message_id}: /embeds/n/tittle",
		"POST /interactions/{interaction_id}/{interaction_token}/callback: /data/colour",
		"POST /interactions/{interaction_id}/{interaction_token}/callback: /data/components/n/components/n/hint",
	}
	if got := srv.Unknown(); !slices.Equal(got, want) {
		t.Errorf("unknown fields:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
