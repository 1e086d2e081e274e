package main

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot"
	"blockbell/bot/chat"
	"blockbell/bot/discord/discordtest"
	"blockbell/bot/nudge"
	"blockbell/bot/parse"
	"blockbell/store"
)

// stage plays a script's lines on the platform.
type stage struct {
	*serving
	people []*discordtest.User
	said   map[string][]string // by person and channel: messages that are still there
	edits  map[string]int      // what was seen of the bot's messages, by id
	marks  int                 // how many marks were seen
	author map[string]string   // of messages that people wrote, by id
	reader *store.Store        // to look when something is due
}

// onThePlatform plays lines through blockbell serve and the emulator. want is what
// the terminal did, by which it is known for how many answers to wait.
func onThePlatform(s *serving, lines []string, want []scene) []scene {
	s.t.Helper()
	p := &stage{serving: s, said: map[string][]string{}, edits: map[string]int{}, author: map[string]string{}}
	var err error
	if p.reader, err = store.OpenForReading(s.t.Context(), s.db); err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { p.reader.Close() })
	var all []scene
	for i, line := range lines {
		got := p.play(line, len(want[i].heard))
		all = append(all, scene{line: line, heard: sorted(got)})
	}
	return all
}

// play plays one line and returns what the bot did.
func (p *stage) play(line string, wanted int) []heard {
	p.t.Helper()
	if to, found := strings.CutPrefix(line, "clock "); found {
		return p.walk(to)
	}
	who, do := p.understand(line)
	kind := do()
	var got []heard
	err := p.srv.Until(soon(p.t), func() bool {
		got = append(got, p.look(who, kind)...)
		return len(got) >= min(1, wanted) // what else there is comes with the minute
	})
	if err != nil {
		p.t.Errorf("%s: nothing was heard: %v", line, err)
	}
	p.minute()
	return append(got, p.look(who, kind)...)
}

// walk goes from due to due, as the terminal does.
func (p *stage) walk(to string) (got []heard) {
	p.t.Helper()
	target, err := time.Parse(time.RFC3339, to)
	if err != nil {
		p.t.Fatal(err)
	}
	runner := nudge.Runner{Store: p.reader}
	for now := p.srv.Now(); now.Before(target); now = p.srv.Now() {
		next, found, err := runner.Next(p.t.Context(), now, target)
		if err != nil {
			p.t.Fatal(err)
		}
		if !found {
			next = target
		}
		p.srv.Advance(next.Sub(now))
		p.minute()
		got = append(got, p.look("", "")...)
	}
	return got
}

// speech is how a line begins that a person says.
var speech = regexp.MustCompile(`(?s)^(edit |delete |press )?(?:(#\S+) )?@(\S+)\s*(.*)$`)

// understand reads a line. do does it and returns what kind of answer a message
// that comes is: answer or edit.
func (p *stage) understand(line string) (who string, do func() (kind string)) {
	p.t.Helper()
	parts := speech.FindStringSubmatch(line)
	if parts == nil {
		p.t.Fatalf("not understood: %s", line)
	}
	verb, channel, who, text := strings.TrimSpace(parts[1]), parts[2], parts[3], parts[4]
	u := p.person(who)
	if channel == "" {
		channel = "#training-log"
	}
	place := who + " " + channel
	switch {
	case verb == "press":
		return who, func() string { return p.press(u, strings.Trim(text, `"`)) }
	case strings.HasPrefix(text, "/"):
		return who, func() string { p.ask(u, channel, text); return "answer" }
	}
	return who, func() string {
		var err error
		switch verb {
		case "edit":
			err = u.Edit(last(p.said[place]), text)
		case "delete":
			err = u.Delete(last(p.said[place]))
			p.said[place] = p.said[place][:len(p.said[place])-1]
		default:
			var id string
			id, err = u.Say(channel, text)
			p.said[place] = append(p.said[place], id)
			p.author[id] = who
		}
		if err != nil {
			p.t.Fatalf("%s: %v", line, err)
		}
		return "answer"
	}
}

func last(all []string) string { return all[len(all)-1] }

func (p *stage) person(name string) *discordtest.User {
	u := p.srv.User(name)
	if !slices.Contains(p.people, u) {
		p.people = append(p.people, u)
	}
	return u
}

// press presses the newest visible button of a label.
func (p *stage) press(u *discordtest.User, label string) (kind string) {
	p.t.Helper()
	act := u.Press("", label)
	callback, err := act.Await(soon(p.t))
	if err != nil {
		p.t.Fatalf("@%s presses %q: %v", u.Name, label, err)
	}
	if callback == 7 {
		return "edit"
	}
	return "answer"
}

// ask uses a typed command as the platform has it: by name, subcommand and options.
func (p *stage) ask(u *discordtest.User, channel, text string) {
	p.t.Helper()
	path, opts := structured(p.t, text)
	for i, o := range opts { // "@ana" becomes a mention, as the platform writes it
		if name, found := strings.CutPrefix(fmt.Sprint(o.Value), "@"); found {
			opts[i].Value = p.person(name).Mention()
		}
	}
	act := u.Command(channel, path, opts...)
	if _, err := act.AwaitMessage(soon(p.t)); err != nil {
		p.t.Fatalf("@%s %s: %v", u.Name, text, err)
	}
}

// structured finds the command that a typed text means, by the same table the bot
// uses; a bare word becomes the option that may stand bare.
func structured(t *testing.T, text string) (path string, opts []discordtest.Opt) {
	t.Helper()
	words, options, err := parse.Command(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	for _, c := range bot.Commands() {
		rest := words[1:]
		if c.Name != words[0] {
			continue
		}
		if c.Sub != "" && len(rest) > 0 && rest[0] == c.Sub {
			rest = rest[1:]
		} else if c.Sub != "" && (!c.Default || len(rest) > 0) {
			continue
		}
		for _, param := range c.Params {
			if param.Positional && len(rest) > 0 {
				opts = append(opts, discordtest.Opt{Name: param.Name, Value: rest[0]})
				rest = rest[1:]
			}
		}
		if len(rest) > 0 {
			t.Fatalf("%s: %q is no option", text, rest)
		}
		for _, o := range options {
			opts = append(opts, discordtest.Opt{Name: o.Name, Value: o.Value})
		}
		return strings.TrimPrefix(c.Path(), "/"), opts
	}
	t.Fatalf("%s: no such command", text)
	return "", nil
}

// look returns what is new since the last look: messages of the bot, those that
// changed, and marks. who acted last, kind is how the bot answered.
func (p *stage) look(who, kind string) (got []heard) {
	got = p.marked()
	var fresh []discordtest.Message
	seen := map[string]bool{}
	for _, u := range p.people {
		for _, m := range slices.Concat(u.Sees("#training-log"), u.Sees("#announcements"), u.Inbox()) {
			if seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			if n, known := p.edits[m.ID]; m.Bot && m.Flags&discordtest.Loading == 0 && (!known || n != m.Edits) {
				p.edits[m.ID] = m.Edits
				fresh = append(fresh, m)
			}
		}
	}
	slices.SortFunc(fresh, func(a, b discordtest.Message) int { return strings.Compare(a.ID, b.ID) })
	for _, m := range fresh {
		got = append(got, p.undress(m, who, kind))
	}
	return got
}

const markRoute = "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}/@me"

// marked returns the marks that the bot has set since the last look. To set one
// that stands already changes nothing to be seen, so the requests are looked at.
func (p *stage) marked() (got []heard) {
	set := p.srv.RequestsTo("PUT", markRoute)
	for ; p.marks < len(set) && set[p.marks].Status != 0; p.marks++ {
		r := set[p.marks]
		parts := strings.Split(r.Path, "/")
		mark, err := url.PathUnescape(parts[6])
		if err != nil || r.Status != http.StatusNoContent {
			p.t.Errorf("%s: status %d, %v", r.Path, r.Status, err)
		}
		got = append(got, heard{Kind: "mark", At: stamped(r.At), To: "@" + p.author[parts[4]], Text: mark})
	}
	return got
}

// undress takes the platform's dress off a message.
func (p *stage) undress(m discordtest.Message, who, kind string) heard {
	h := heard{Kind: kind, At: stamped(m.Made), To: "@" + who, Private: m.Private(), Text: plainly(m.Content),
		Moments: shownMoment.FindAllString(m.Content, -1)}
	if kind == "edit" {
		h.At = stamped(m.Edited)
	}
	direct := ""
	for _, u := range p.people {
		if slices.ContainsFunc(u.Inbox(), func(o discordtest.Message) bool { return o.ID == m.ID }) {
			direct = u.Name
		}
	}
	if direct != "" {
		h.To, h.Private = "@"+direct, true
	}
	if raw := bare.FindString(fmt.Sprint(m.Content, m.Embeds)); raw != "" {
		p.t.Errorf("the platform would read %q as markup in %v", raw, m.Embeds)
	}
	for _, e := range m.Embeds {
		h.Title += plainly(e.Title)
		h.Text += plainly(e.Description)
		h.Moments = append(h.Moments, shownMoment.FindAllString(e.Description, -1)...)
		for _, f := range e.Fields {
			h.Fields = append(h.Fields, chat.Field{Name: plainly(f.Name), Value: plainly(f.Value)})
		}
		if e.Footer != nil && keyMark.MatchString(e.Footer.Text) {
			h.Kind = "post"
			if direct == "" {
				h.To = p.channel(m.Channel)
			}
		}
	}
	for _, row := range m.Components {
		for _, b := range row.Components {
			if !b.Disabled {
				h.Buttons = append(h.Buttons, b.Label)
			}
		}
	}
	for _, a := range m.Attachments {
		h.Files = append(h.Files, p.names().Replace(a.Filename))
	}
	return h
}

func (p *stage) channel(id string) string {
	for _, name := range []string{"#training-log", "#announcements"} {
		if p.srv.Channel(name) == id {
			return name
		}
	}
	return fmt.Sprint("channel ", id)
}

// keyMark is what stands in the footer of a post.
var keyMark = regexp.MustCompile(`^#[a-z2-7]{12}$`)

// bare finds what the platform would read as markup or as somebody's mention.
var bare = regexp.MustCompile("(^|[^\\\\])([*`]|<[@#])")

// escaped finds the marks that keep the platform from reading markup.
var escaped = regexp.MustCompile(`\\([\\*_~|<>#\]` + "`" + `-])`)

func plainly(text string) string {
	return shownMoment.ReplaceAllString(escaped.ReplaceAllString(text, "$1"), "(a moment)")
}

// shownMoment finds a moment as the platform takes it, to show it in the reader's zone.
var shownMoment = regexp.MustCompile(`<t:(\d+):f>`)
