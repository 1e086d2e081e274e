package terminal

import (
	"bytes"
	"context"
	"encoding/json"
	"log/slog"
	"slices"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
)

// notebook is a Memory that lives as long as the test.
type notebook struct {
	clock   time.Time
	set     bool
	records []Record
	pressed map[string]bool
	events  int64
	fault   error // returned by every method while set
}

func newNotebook() *notebook { return &notebook{pressed: map[string]bool{}} }

func (n *notebook) Clock(context.Context) (time.Time, bool, error) { return n.clock, n.set, n.fault }

func (n *notebook) SetClock(_ context.Context, at time.Time) error {
	n.clock, n.set = at, true
	return n.fault
}

func (n *notebook) Add(_ context.Context, r Record) (int64, bool, error) {
	if n.fault != nil {
		return 0, false, n.fault
	}
	for _, known := range n.records {
		if known.Key == r.Key {
			return known.ID, false, nil
		}
	}
	r.ID = int64(len(n.records) + 1)
	n.records = append(n.records, r)
	return r.ID, true, nil
}

func (n *notebook) ByKey(_ context.Context, key string) (Record, bool, error) {
	for _, r := range n.records {
		if r.Key == key {
			return r, true, n.fault
		}
	}
	return Record{}, false, n.fault
}

func (n *notebook) Newest(context.Context) ([]Record, error) {
	all := slices.Clone(n.records)
	slices.Reverse(all)
	return all, n.fault
}

func (n *notebook) Press(_ context.Context, record int64, token, person string, _ time.Time) (bool, error) {
	key := strings.Join([]string{string(ref(record)), token, person}, "/")
	first := !n.pressed[key]
	n.pressed[key] = true
	return first, n.fault
}

func (n *notebook) NextEvent(context.Context) (int64, error) {
	n.events++
	return n.events, n.fault
}

// scripted answers events with a function and, like a real bot, is silent to an
// event it has seen.
type scripted struct {
	answer func(chat.Event) (chat.Reply, error)
	events []chat.Event
	seen   map[string]bool
}

func (s *scripted) Handle(_ context.Context, e chat.Event) (chat.Reply, error) {
	s.events = append(s.events, e)
	if s.seen[e.ID] {
		return chat.Reply{}, nil
	}
	if s.seen == nil {
		s.seen = map[string]bool{}
	}
	s.seen[e.ID] = true
	if s.answer == nil {
		return chat.Reply{}, nil
	}
	return s.answer(e)
}

// dues is a Runner with fixed moments, each posted once into the channel.
type dues struct {
	at     []time.Time
	poster *Poster
	runs   []time.Time
	fault  error
}

func (d *dues) Run(ctx context.Context, now time.Time) error {
	d.runs = append(d.runs, now)
	if d.fault != nil {
		return d.fault
	}
	for _, due := range d.at {
		if due.After(now) {
			continue
		}
		key := "ana/week/" + stamp(due)
		p := chat.Post{Key: key, Facts: []string{key}, To: chat.Target{Channel: "#announcements"}, At: due, Message: chat.Message{Text: "due"}}
		if _, err := d.poster.Post(ctx, p); err != nil {
			return err
		}
	}
	return nil
}

func (d *dues) Next(_ context.Context, after, until time.Time) (time.Time, bool, error) {
	for _, due := range d.at {
		if due.After(after) && !due.After(until) {
			return due, true, nil
		}
	}
	return time.Time{}, false, nil
}

// stage is a terminal with everything around it in reach.
type stage struct {
	*Terminal
	memory *notebook
	bot    *scripted
	due    *dues
	out    *bytes.Buffer
	log    *bytes.Buffer
}

// wallTime is what the wall clock shows in all tests.
var wallTime = time.Date(2026, 11, 25, 9, 30, 15, 999, time.UTC)

func newStage(t *testing.T, memory *notebook, bot *scripted, at ...time.Time) *stage {
	t.Helper()
	s := &stage{memory: memory, bot: bot, out: &bytes.Buffer{}, log: &bytes.Buffer{}}
	screen := &Screen{Writer: s.out, JSON: true, Dir: t.TempDir()}
	s.due = &dues{at: at, poster: &Poster{Memory: memory, Screen: screen}}
	s.Terminal = &Terminal{
		Handler: bot, Runner: s.due, Memory: memory, Screen: screen, Captains: []string{"cap"},
		Wall: func() time.Time { return wallTime }, Log: slog.New(slog.NewTextHandler(s.log, nil)),
	}
	return s
}

// script plays lines and returns what was printed since the last call.
func (s *stage) script(t *testing.T, lines ...string) string {
	t.Helper()
	s.out.Reset()
	if err := s.Play(t.Context(), ReadLines(strings.NewReader(strings.Join(lines, "\n")))); err != nil {
		t.Fatalf("playing %q: %v", lines, err)
	}
	return s.out.String()
}

// objects reads what a JSON screen printed.
func objects(t *testing.T, text string) []object {
	t.Helper()
	var all []object
	for line := range strings.Lines(text) {
		var o object
		if err := json.Unmarshal([]byte(line), &o); err != nil {
			t.Fatalf("not an object: %s: %v", line, err)
		}
		all = append(all, o)
	}
	return all
}

// only expects exactly one object.
func only(t *testing.T, text string) object {
	t.Helper()
	all := objects(t, text)
	if len(all) != 1 {
		t.Fatalf("got %d objects, want 1:\n%s", len(all), text)
	}
	return all[0]
}

func moment(t *testing.T, s string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// says answers every event with the same words.
func says(text string) func(chat.Event) (chat.Reply, error) {
	return func(chat.Event) (chat.Reply, error) {
		return chat.Reply{Kind: chat.Answer, Message: chat.Message{Text: text}}, nil
	}
}
