package bot

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// announceAhead is how far ahead, in days, something can be announced.
const announceAhead = 366

// announceAt reads day and time on the club's clock, in milliseconds: a day, a time,
// or both. A day alone means the club's hour, a time alone today.
func (t *turn) announceAt(v string) (int64, error) {
	zone := zoneOf(planner.Lifter{}, t.club)
	day, hour, minute := planner.DateOf(t.now.In(zone)), t.club.Hour, t.club.Minute
	words := strings.Fields(v)
	if n := len(words); n > 0 {
		if h, m, err := parse.Clock(words[n-1]); err == nil && (n > 1 || strings.ContainsAny(words[0], ":")) {
			hour, minute, words = h, m, words[:n-1]
		}
	}
	if len(words) > 0 || strings.TrimSpace(v) == "" {
		var err error
		if day, err = parse.Date(strings.Join(words, " "), day); err != nil {
			return 0, named("at", err)
		}
	}
	at := day.At(zone, hour, minute)
	if at.Before(t.now) || at.After(t.now.AddDate(0, 0, announceAhead)) {
		return 0, planner.Errorf(planner.Invalid, "For example at:\"2027-03-01 18:00\".", "at: %s is past, or more than a year ahead", render.Moment(at, zone))
	}
	return at.UnixMilli(), nil
}

// editAnnouncement answers 'Edit' with a form that holds the words.
func editAnnouncement(t *turn, b store.Button) (chat.Reply, error) {
	return t.announceForm(b, func(a announcement) chat.FormField {
		return chat.FormField{Name: "text", Label: "What to announce", Value: a.Text, Required: true, Long: true}
	}, `Write it anew: /club announce text:"…"`)
}

// whenAnnouncement answers 'Schedule' with a form that asks when.
func whenAnnouncement(t *turn, b store.Button) (chat.Reply, error) {
	return t.announceForm(b, func(a announcement) chat.FormField {
		f := chat.FormField{Name: "at", Label: "When", Hint: "on the club's clock, for example 2027-03-01 18:00", Required: true}
		if at := a.at(); !at.IsZero() {
			f.Value = at.In(zoneOf(planner.Lifter{}, t.club)).Format("2006-01-02 15:04")
		}
		return f
	}, `Say when: /club announce text:"…" at:"2027-03-01 18:00"`)
}

func (t *turn) announceForm(b store.Button, field func(announcement) chat.FormField, typed string) (chat.Reply, error) {
	a, err := args[announcement](b)
	if err != nil {
		return chat.Reply{}, err
	}
	send, err := t.button("Send", "announce.sent", a, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r := private(chat.Message{Text: typed})
	r.Form = &chat.Form{Token: send.Token, Title: "Announcement", Fields: []chat.FormField{field(a)}}
	return r, nil
}

// announcementSent answers the filled form with the preview again.
func announcementSent(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[announcement](b)
	if err != nil {
		return chat.Reply{}, err
	}
	for _, o := range t.event.Options {
		switch o.Name {
		case "text":
			a.Text, err = announceable(o.Value)
		case "at":
			a.AtMS, err = t.announceAt(o.Value)
		}
		if err != nil {
			return chat.Reply{}, err
		}
	}
	return t.previewOf(a)
}

// announcedArgs is what 'Take back' carries.
type announcedArgs struct {
	Key string `json:"key"`
}

// showAnnounced answers /club announced: what waits for its time.
func showAnnounced(t *turn) (chat.Reply, error) {
	waiting, err := t.tx.PostsWaiting("announce")
	if err != nil {
		return chat.Reply{}, err
	}
	m := chat.Message{Title: "Announcements that wait"}
	rows := []map[string]any{}
	for i, p := range waiting[:min(len(waiting), 10)] {
		var body struct{ Message chat.Message }
		if err := json.Unmarshal(p.Body, &body); err != nil {
			return chat.Reply{}, err
		}
		b, err := t.button(fmt.Sprintf("Take back %d", i+1), "announce.back", announcedArgs{p.Key}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
		m.Fields = append(m.Fields, chat.Field{Name: fmt.Sprintf("%d: %s", i+1, render.Moment(p.Due, zoneOf(planner.Lifter{}, t.club))),
			Value: cutTo(body.Message.Text, 200) + "\nto " + p.Channel})
		rows = append(rows, map[string]any{"at": p.Due.Format(time.RFC3339), "channel": p.Channel, "announcement": body.Message.Text})
	}
	if more := len(waiting) - len(rows); more > 0 {
		m.Text = render.Count(more, "more announcement") + " after these."
	}
	if len(rows) == 0 {
		m.Text = "None. /club announce with at: makes one."
	}
	m.Data = map[string]any{"announced": rows}
	trouble, err := t.undelivered()
	m.Text = strings.TrimSpace(m.Text + "\n" + trouble)
	return private(m), err
}

// cutTo shortens words to n characters.
func cutTo(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return strings.TrimSpace(string(r[:n-1])) + "…"
	}
	return s
}

// withdrawAnnouncement answers 'Take back': what is not posted yet never is.
func withdrawAnnouncement(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[announcedArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	p, there, err := t.tx.Post(a.Key)
	if err != nil {
		return chat.Reply{}, err
	}
	if !there || p.State != store.PostPlanned {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "/club announced lists what waits.", "That announcement no longer waits")
	}
	if err := t.tx.BuryPost(a.Key, "taken back by a captain", t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "took an announcement back", t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: "Taken back. It is not posted.", Data: map[string]any{"withdrawn": true}}), nil
}
