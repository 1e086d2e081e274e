package bot

import (
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/planner"
	"blockbell/store"
)

// deskParams are what /club desk takes.
func deskParams() []Param {
	return []Param{
		{Name: "channel", About: "a channel only captains can read, for example #captains; none: none"},
		{Name: "digest", About: "the weekday of the weekly digest; off: none", Choices: append(weekdayWords(), "off")},
		{Name: "changes", About: "announce the week's new blocks each week, without being asked", Choices: yesNo},
		{Name: "checkin", About: "the weekday on which the club is asked how everybody feels; off: never", Choices: append(weekdayWords(), "off")},
	}
}

// deskSettings answers /club desk: shows the settings, or changes what is named.
func deskSettings(t *turn) (chat.Reply, error) {
	d, err := t.tx.Desk()
	if err != nil {
		return chat.Reply{}, err
	}
	if v, given := t.options["channel"]; given {
		if d.Channel, err = t.deskChannel(v); err != nil {
			return chat.Reply{}, err
		}
	}
	if v, given := t.options["digest"]; given {
		day := slices.Index(weekdayWords(), v)
		if d.Digest = day >= 0; d.Digest {
			d.Day = time.Weekday(day)
		}
	}
	if v, given := t.options["changes"]; given {
		d.Changes = v == "yes"
	}
	if v, given := t.options["checkin"]; given {
		day := slices.Index(weekdayWords(), v)
		if d.CheckIn = day >= 0; d.CheckIn {
			d.AskOn = time.Weekday(day)
		}
	}
	if d.Digest && d.Channel == "" {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "/club desk channel:#captains digest:monday", "The digest names who is late or away, so it needs a channel that only captains can read")
	}
	if len(t.options) > 0 {
		if err := t.tx.SaveDesk(d); err != nil {
			return chat.Reply{}, err
		}
		if err := t.tx.Audit(t.speaker.ID, 0, "changed the desk: "+strings.Join(t.optionNames(), ", "), t.now); err != nil {
			return chat.Reply{}, err
		}
	}
	return private(t.deskMessage(d)), nil
}

// deskChannel reads a channel and makes sure that ordinary members cannot read it.
func (t *turn) deskChannel(v string) (string, error) {
	if strings.EqualFold(strings.TrimSpace(v), "none") {
		return "", nil
	}
	name, err := channelName("channel", v)
	if err != nil {
		return "", err
	}
	if strings.EqualFold(name, t.club.LogChannel) || strings.EqualFold(name, t.club.NudgeChannel) {
		return "", planner.Errorf(planner.Invalid, "Choose a channel that only captains can read.", "%s is where the whole club reads", name)
	}
	if t.bot.hidden == nil {
		return name, nil
	}
	if readers := t.bot.hidden(name); readers != "" {
		return "", planner.Errorf(planner.Forbidden, "Open the channel's settings, page Permissions, and take View Channel from them; then try again.", "%s can be read by %s", name, readers)
	}
	return name, nil
}

func (t *turn) deskMessage(d store.Desk) chat.Message {
	digest, changes, channel, asked := "off", "no", "none", "off"
	if d.CheckIn {
		asked = weekdayWords()[d.AskOn]
	}
	if d.Digest {
		digest = weekdayWords()[d.Day]
	}
	if d.Changes {
		changes = "yes"
	}
	if d.Channel != "" {
		channel = d.Channel
	}
	return chat.Message{
		Title: "The captain's desk", Text: "Digest and announcement come at the club's hour.",
		Fields: []chat.Field{{Name: "channel", Value: channel}, {Name: "digest", Value: digest}, {Name: "changes", Value: changes}, {Name: "checkin", Value: asked}},
		Data:   map[string]any{"desk": map[string]any{"channel": channel, "digest": digest, "changes": changes, "checkin": asked}},
	}
}

// Weekly lists what the club posts each week by itself.
func (b *Bot) Weekly(tx *store.Tx) ([]nudge.Weekly, error) {
	d, err := tx.Desk()
	if err != nil {
		return nil, err
	}
	club, err := tx.Club()
	if err != nil {
		return nil, err
	}
	var all []nudge.Weekly
	if d.Digest && d.Channel != "" {
		all = append(all, nudge.Weekly{Name: "digest", Day: d.Day, Channel: d.Channel, Make: b.makeDigest})
	}
	if d.Changes {
		all = append(all, nudge.Weekly{Name: "changes", Day: club.WeekStart, Channel: club.NudgeChannel, Make: b.makeChanges})
	}
	if d.CheckIn {
		all = append(all, nudge.Weekly{Name: "check-in", Day: d.AskOn, Channel: club.NudgeChannel, Make: b.makeCheckIn})
	}
	return all, nil
}

// makeCheckIn writes the club's weekly question. Its button answers whoever presses
// it, in private.
func (b *Bot) makeCheckIn(tx *store.Tx, now time.Time) (chat.Message, bool, error) {
	t, err := b.unasked(tx, now)
	if err != nil {
		return chat.Message{}, false, err
	}
	button, err := t.button("Check in", "checkin.ask", struct{}{}, planner.Lifter{})
	return chat.Message{Text: "How rested and how keen is everybody? Two taps, seen by you and your coach only.", Buttons: []chat.Button{button}}, true, err
}

// unasked is a turn without an event: the bot speaks by itself.
func (b *Bot) unasked(tx *store.Tx, now time.Time) (*turn, error) {
	club, err := tx.Club()
	return &turn{bot: b, tx: tx, now: now, club: club, options: map[string]string{}}, err
}

// makeDigest writes the weekly digest. A digest that was set to a channel which
// ordinary members can read since then is not posted.
func (b *Bot) makeDigest(tx *store.Tx, now time.Time) (chat.Message, bool, error) {
	t, err := b.unasked(tx, now)
	if err != nil {
		return chat.Message{}, false, err
	}
	d, err := tx.Desk()
	if err != nil {
		return chat.Message{}, false, err
	}
	if b.hidden != nil && b.hidden(d.Channel) != "" {
		b.log.Warn("the digest is not posted: its channel can be read by ordinary members", "channel", d.Channel)
		return chat.Message{}, false, nil
	}
	m, some, err := t.digest()
	return m, some, err
}

// makeChanges writes the announcement of the week's new blocks.
func (b *Bot) makeChanges(tx *store.Tx, now time.Time) (chat.Message, bool, error) {
	t, err := b.unasked(tx, now)
	if err != nil {
		return chat.Message{}, false, err
	}
	text, some, err := t.newBlocks()
	return chat.Message{Text: text}, some, err
}
