package bot

import (
	"fmt"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// announceDays is how far ahead an announcement of block changes looks.
const announceDays = 7

// announcement is what the buttons under a preview carry. ID makes the post one.
type announcement struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	AtMS int64  `json:"at_ms,omitempty"` // when it is to be posted; 0: at once
}

// at is when it is to be posted; zero: at once.
func (a announcement) at() time.Time {
	if a.AtMS == 0 {
		return time.Time{}
	}
	return time.UnixMilli(a.AtMS).UTC()
}

// announceParams are what /club announce takes.
func announceParams() []Param {
	return []Param{
		{Name: "text", About: "your own words; without them: the block changes of the next seven days", Positional: true},
		{Name: "at", About: "day and time on the club's clock, for example 2027-03-01 18:00; without: at once"},
	}
}

// announce answers /club announce with a preview. Nothing is posted before the
// captain confirms.
func announce(t *turn) (chat.Reply, error) {
	text, err := t.announcementText()
	if err != nil {
		return chat.Reply{}, err
	}
	a := announcement{ID: "announce/" + t.event.ID, Text: text}
	if v, given := t.options["at"]; given {
		if a.AtMS, err = t.announceAt(v); err != nil {
			return chat.Reply{}, err
		}
	}
	return t.previewOf(a)
}

// previewOf shows an announcement with what can be done with it.
func (t *turn) previewOf(a announcement) (chat.Reply, error) {
	m := chat.Message{Title: "Preview for " + t.club.NudgeChannel, Text: a.Text,
		Data: map[string]any{"announcement": a.Text, "channel": t.club.NudgeChannel}}
	post := "Post it"
	if at := a.at(); !at.IsZero() {
		post = "Schedule it"
		m.Title += ", " + render.Moment(at, zoneOf(planner.Lifter{}, t.club))
		m.Data = map[string]any{"announcement": a.Text, "channel": t.club.NudgeChannel, "at": at.Format(time.RFC3339)}
	}
	for _, b := range []struct{ label, does string }{
		{post, "announce.post"}, {"Edit", "announce.edit"}, {"Schedule", "announce.when"}, {"Leave it", "announce.drop"},
	} {
		if b.does == "announce.when" && a.AtMS != 0 {
			b.label = "Another time"
		}
		button, err := t.button(b.label, b.does, a, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, button)
	}
	return private(m), nil
}

// announcementText is the captain's own words, or this week's block changes.
func (t *turn) announcementText() (string, error) {
	own, given := t.options["text"]
	if !given {
		return t.changesText()
	}
	return announceable(own)
}

// announceable makes a captain's words fit for a post that rings nobody's bell.
func announceable(own string) (string, error) {
	text := parse.Quiet(own)
	if n := len([]rune(text)); n == 0 || n > chat.MaxText {
		return "", planner.Errorf(planner.Invalid, "Keep it shorter.", "An announcement has 1 to %d characters; this has %d", chat.MaxText, n)
	}
	return text, nil
}

// changesText lists who begins which block in the next seven days, by day.
// Lifters who opted out of being named, and members under 18, are left out.
func (t *turn) changesText() (string, error) {
	text, some, err := t.newBlocks()
	if err == nil && !some {
		err = planner.Errorf(planner.NotFound, `Write your own words: /club announce text:"…"`, "Nobody begins a new block in the next %d days", announceDays)
	}
	return text, err
}

// newBlocks is that list as one post; of a club whose names are too many for one it
// names some on each line and counts the rest.
func (t *turn) newBlocks() (text string, some bool, err error) {
	changes, err := t.changesAhead()
	if err != nil {
		return "", false, err
	}
	for most := 100; ; most /= 2 {
		lines := []string{"New blocks this week"}
		for _, c := range changes {
			lines = append(lines, fmt.Sprintf("%s: %s for %s", c.day.Short(), render.BlockName(c.kind), render.Some(c.names, most)))
		}
		if text = strings.Join(lines, "\n"); len([]rune(text)) <= chat.MaxText || most == 0 {
			return text, len(changes) > 0, nil
		}
	}
}

// blockChange is who begins a kind of block on a day.
type blockChange struct {
	day   planner.Date
	kind  planner.BlockKind
	names []string
}

// changesAhead lists the blocks that begin in the next seven days.
func (t *turn) changesAhead() (out []blockChange, err error) {
	all, err := t.tx.Members()
	if err != nil {
		return nil, err
	}
	first := planner.DateOf(t.now.In(zoneOf(planner.Lifter{}, t.club)))
	for day := range announceDays {
		changes, err := t.changesOn(all, first.AddDays(day))
		if err != nil {
			return nil, err
		}
		out = append(out, changes...)
	}
	return out, nil
}

// changesOn lists the blocks that begin on a day, with the names of the lifters.
func (t *turn) changesOn(all []planner.Lifter, day planner.Date) (out []blockChange, err error) {
	names := map[planner.BlockKind][]string{}
	for _, l := range all {
		begins, err := t.beginsOn(l, day)
		if err != nil {
			return nil, err
		}
		if begins != "" {
			names[begins] = append(names[begins], render.Called(l))
		}
	}
	for _, k := range []planner.BlockKind{planner.Hypertrophy, planner.Strength, planner.Peaking, planner.Recovery} {
		if len(names[k]) > 0 {
			out = append(out, blockChange{day, k, names[k]})
		}
	}
	return out, nil
}

// beginsOn returns the kind of block a lifter may be named with on a day, or "". For who
// is away nothing begins.
func (t *turn) beginsOn(l planner.Lifter, day planner.Date) (planner.BlockKind, error) {
	public, err := t.tx.LifterPublic(l.ID)
	if age := planner.Age(l.Born, day); err != nil || !public || age >= 0 && age < 18 {
		return "", err
	}
	aways, err := t.tx.Aways(l.ID)
	if err != nil {
		return "", err
	}
	if _, away := awayNow(aways, day); away {
		return "", nil
	}
	plan, ok, err := t.tx.AgreedPlan(l.ID)
	if err != nil || !ok {
		return "", err
	}
	for i, b := range plan.Season.Blocks {
		if b.Start != day {
			continue
		}
		c, err := t.course(l)
		if err != nil || !t.begins(c, i) {
			return "", err
		}
		return b.Kind, nil
	}
	return "", nil
}

// begins tells whether a block of the agreed plan begins on its date as things stand:
// not where the one before it waits for somebody's yes or for a meet that was moved.
func (t *turn) begins(c course, i int) bool {
	start := c.agreed.Season.Blocks[i].Start
	return c.agreed.Season.On(start, t.club.WeekStart, t.club.Advance == store.AdvanceAsk, c.meets, c.told()).Index == i
}

// postAnnouncement answers 'Post it' and 'Schedule it': the post goes into the outbox,
// which makes it appear once, whatever happens in between.
func postAnnouncement(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[announcement](b)
	if err != nil {
		return chat.Reply{}, err
	}
	due, later := a.at(), a.AtMS != 0
	if due.Before(t.now) {
		due, later = t.now, false
	}
	post, err := nudge.Announcement(a.ID, t.club.NudgeChannel, chat.Message{Text: a.Text}, due)
	if err != nil {
		return chat.Reply{}, err
	}
	fresh, err := t.tx.QueuePost(post, nil, t.now)
	if err != nil {
		return chat.Reply{}, err
	}
	if !fresh {
		return chat.Reply{}, planner.Errorf(planner.Conflict, "/club announced lists what waits; /club announce makes another.", "That announcement was posted or scheduled before")
	}
	what, said := "announced", "Posting it to "+t.club.NudgeChannel+"."
	if later {
		what = "scheduled an announcement"
		said = "It goes to " + t.club.NudgeChannel + " on " + render.Moment(due, zoneOf(planner.Lifter{}, t.club)) + ". /club announced lists what waits and takes it back."
	}
	if err := t.tx.Audit(t.speaker.ID, 0, what, t.now); err != nil {
		return chat.Reply{}, err
	}
	return private(chat.Message{Text: said, Data: map[string]any{"posted": !later, "scheduled": later}}), nil
}

// dropAnnouncement answers 'Leave it'.
func dropAnnouncement(*turn, store.Button) (chat.Reply, error) {
	return private(chat.Message{Text: "Left. Nothing was posted.", Data: map[string]any{"posted": false}}), nil
}
