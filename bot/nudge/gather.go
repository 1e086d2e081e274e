package nudge

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// buttonLife is how long a button under a nudge can be pressed: after a week the
// plan it speaks of has moved on.
const buttonLife = 7 * 24 * time.Hour

// daytime is how long after its hour a post may still be made; what is later than
// that waits for the next day's hour and does not ring at night.
const daytime = 12 * time.Hour

// slot is one post of one day: the club's, or the direct one to a lifter.
type slot struct {
	key    string
	day    planner.Date
	opens  time.Time
	closes time.Time // no new post is made from here on
	over   time.Time // the day has ended: the words no longer fit
	person string    // handle; empty for the club's post
}

// slotOn is the slot of the nudge's place on a day.
func (f *Facts) slotOn(n Nudge, day planner.Date) slot {
	zone := f.zone(n.Member, n.Place)
	s := slot{key: "club/" + day.String(), day: day, opens: f.hour(n.Member, n.Place, day)}
	if n.Place == Directly {
		s.person = n.Member.Lifter.Handle
		s.key = "direct/" + s.person + "/" + day.String()
	}
	s.over = day.AddDays(1).Midnight(zone)
	s.closes = s.opens.Add(daytime)
	if s.over.Before(s.closes) {
		s.closes = s.over
	}
	return s
}

// slotAt is the slot of the nudge's place on the civil day of now.
func (f *Facts) slotAt(n Nudge, now time.Time) slot {
	return f.slotOn(n, planner.DateOf(now.In(f.zone(n.Member, n.Place))))
}

// open tells whether a post may be made at now.
func (s slot) open(now time.Time) bool { return !now.Before(s.opens) && now.Before(s.closes) }

// frozen is a post as it lies in the outbox: its words do not change any more,
// whatever happens to the plan, so that a second attempt says the same.
type frozen struct {
	Message chat.Message `json:"message"`
	At      time.Time    `json:"at"`    // when it fell due, or was queued where that is later
	Until   time.Time    `json:"until"` // not posted from this instant on
}

// draft is a gathered post before it is written to the outbox.
type draft struct {
	slot    slot
	nudges  []Nudge
	message chat.Message
	buttons []store.Button
}

// gather puts the nudges of one slot into one post.
func (f *Facts) gather(s slot, nudges []Nudge) (draft, error) {
	slices.SortStableFunc(nudges, byName)
	d := draft{slot: s, nudges: nudges}
	if s.person == "" {
		d.message = f.clubPost(s, nudges)
	} else {
		d.message = f.directPost(s.day, nudges)
	}
	return d, d.addButtons(f)
}

// byName is the order within a post. Names come before keys, since a key begins with
// a handle, and a handle may be a number that means nothing to anybody.
func byName(a, b Nudge) int {
	return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(order[a.Kind], order[b.Kind]),
		strings.Compare(strings.ToLower(a.Member.name()), strings.ToLower(b.Member.name())), strings.Compare(a.Key, b.Key))
}

// news is one line of the club's post and whom it is about.
type news struct {
	line, tail string
	who        map[planner.LifterID]string
}

// text writes the line with its names in alphabetical order.
func (n news) text() string {
	who := slices.SortedFunc(maps.Values(n.who), func(a, b string) int {
		return cmp.Or(strings.Compare(strings.ToLower(a), strings.ToLower(b)), strings.Compare(a, b))
	})
	return n.line + ": " + strings.Join(who, ", ") + n.tail
}

// clubPost says the news by name, equal lines together, and counts the rest.
func (f *Facts) clubPost(s slot, nudges []Nudge) chat.Message {
	var all []news
	at := map[string]int{} // a line, in lower case, to its place in all
	private := map[planner.LifterID]bool{}
	for i := range nudges {
		n := &nudges[i]
		who := n.Member.Lifter.ID
		if n.Place != Named {
			private[who] = true
			continue
		}
		line := n.line(s.day)
		place, known := at[strings.ToLower(line)]
		if !known {
			place, at[strings.ToLower(line)] = len(all), len(all)
			all = append(all, news{line: line, tail: n.tail(), who: map[planner.LifterID]string{}})
		}
		all[place].who[who] = n.Member.name()
	}
	var lines []string
	for _, n := range all {
		lines = append(lines, n.text())
	}
	return chat.Message{Title: s.day.Short(), Text: fit(append(lines, counts(len(private))...), "\n", "more line", "each lifter finds theirs with /block")}
}

// counts is the line that stands for everything personal, without names.
func counts(lifters int) []string {
	switch lifters {
	case 0:
		return nil
	case 1:
		return []string{"1 lifter has something new."}
	}
	return []string{fmt.Sprintf("%d lifters have something new.", lifters)}
}

// directPost tells one lifter everything of the day.
func (f *Facts) directPost(day planner.Date, nudges []Nudge) chat.Message {
	var told together
	entries := 0
	for i := range nudges {
		n := &nudges[i]
		if n.Kind == EntryCloses {
			entries++
		}
		switch text := f.told(n, day); {
		case n.Kind == Approval:
			told.add(string(Approval), called(n.Asked.Lifter), func(names []string) string { return strings.Join(toldAsked(names), "\n") })
		case n.Ward.ID != 0:
			told.add(text, called(render.Called(n.Ward)), func(names []string) string { return forWards(names) + text })
		default:
			told.parts = append(told.parts, text)
		}
	}
	if entries > mostEntries {
		told.parts = append(told.parts, someEntered)
	}
	return chat.Message{Title: day.Short(), Text: fit(told.parts, "\n\n", "more thing", "the buttons below show them")}
}

// fit joins parts and keeps to what one message can hold. A club whose news are
// longer than that still gets one post: what is left out is counted as so many things,
// with where to find them.
func fit(parts []string, between, things, where string) string {
	for left := 0; ; left++ {
		kept := parts[:len(parts)-left]
		text := strings.Join(kept, between)
		if left > 0 {
			text += between + render.Count(left, things) + "; " + where + "."
		}
		if len([]rune(text)) <= chat.MaxText || len(kept) == 0 {
			return text
		}
	}
}

// rows turns a draft into what the outbox and the ledger keep.
// What came up after its hour appears when it is queued.
func (d *draft) rows(channel string, now time.Time) (store.OutPost, []store.Fact, error) {
	at := d.slot.opens
	if now.After(at) {
		at = now
	}
	body, err := json.Marshal(frozen{Message: d.message, At: at, Until: d.slot.over})
	if err != nil {
		return store.OutPost{}, nil, fmt.Errorf("freeze %s: %w", d.slot.key, err)
	}
	p := store.OutPost{Key: d.slot.key, Channel: channel, Person: d.slot.person, Body: body, Due: d.slot.opens}
	if p.Person != "" {
		p.Channel = ""
	}
	var facts []store.Fact
	for _, n := range d.nudges {
		facts = append(facts, n.fact())
		p.Facts = append(p.Facts, n.Key)
	}
	return p, facts, nil
}

// fact is the ledger row of a nudge.
func (n Nudge) fact() store.Fact {
	return store.Fact{Key: n.Key, Lifter: n.Member.Lifter.ID, Kind: string(n.Kind), Due: n.Due}
}
