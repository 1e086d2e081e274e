package terminal

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"time"

	"blockbell/bot/chat"
)

// Runner posts what is due. It is the nudge runner; the terminal decides when.
type Runner interface {
	// Run posts everything due at now.
	Run(ctx context.Context, now time.Time) error
	// Next returns the first moment after `after` and not later than until at
	// which something falls due; false when nothing does.
	Next(ctx context.Context, after, until time.Time) (time.Time, bool, error)
}

// Terminal plays lines. All fields but Captains, Commands and ReadFile must be set.
type Terminal struct {
	Handler  chat.Handler
	Runner   Runner
	Memory   Memory
	Screen   *Screen
	Captains []string         // IDs: lower-case names without the @
	Wall     func() time.Time // asked once, where no clock was ever set
	Log      *slog.Logger     // for the operator: what broke, never what people wrote
	// Commands tells which options of typed commands are files, and ReadFile reads
	// one by its path; nil: none can be attached.
	Commands []chat.Command
	ReadFile func(path string) ([]byte, error)

	complaints int
	kept       bool // the line has had an effect that stays, whatever fails now
	caughtUp   bool // what an earlier run left undone has been seen to
}

// Complaints counts the lines that were not understood, named no button, met a
// word unknown to the bot, or broke something inside.
func (t *Terminal) Complaints() int { return t.complaints }

// Do plays one line, whose parts may be joined by line breaks. What goes wrong
// is printed and counted, never returned: the next line can go on. An ended
// context stops a walk of the clock between two nudges and nothing else.
func (t *Terminal) Do(ctx context.Context, number int, raw string) {
	l, err := parseLine(raw)
	if err != nil {
		t.complain(ctx, number, "", err.Error())
		return
	}
	if l.verb == nothing {
		return
	}
	t.kept = l.verb == clockTo || l.verb == clockOn // the clock walks step by step
	work := context.WithoutCancel(ctx)
	now, err := t.now(work, l)
	if err == nil {
		err = t.catchUp(work, now)
	}
	if err == nil {
		err = t.play(ctx, work, number, now, l)
	}
	if err != nil {
		t.broke(work, number, l.person, err)
	}
}

// play does what one understood line says, then lets the runner post whatever
// the line has queued.
func (t *Terminal) play(ctx, work context.Context, number int, now time.Time, l line) error {
	if l.verb == clockTo || l.verb == clockOn {
		return t.moveClock(ctx, number, now, l)
	}
	t.Screen.heard(now, l)
	if l.verb == press {
		if err := t.press(work, number, now, l); err != nil {
			return err
		}
	} else if err := t.speak(work, number, now, l); err != nil {
		return err
	}
	if l.verb == say && !strings.HasPrefix(l.text, "/") {
		return nil // only commands and presses queue posts
	}
	return t.Runner.Run(work, now)
}

// catchUp lets the runner finish once what an earlier run, perhaps killed, left
// undone at the stored moment.
func (t *Terminal) catchUp(ctx context.Context, now time.Time) error {
	if t.caughtUp {
		return nil
	}
	err := t.Runner.Run(ctx, now)
	t.caughtUp = err == nil
	return err
}

// complain prints an error line and counts it; id is the person it is for, empty
// for nobody.
func (t *Terminal) complain(ctx context.Context, number int, id, text string) {
	t.complaints++
	at, found, err := t.Memory.Clock(ctx)
	if err != nil || !found {
		at = t.wall()
	}
	to := "script" // whoever wrote the line
	if id != "" {
		to = "@" + id
	}
	r := Record{At: at, Kind: string(chat.Failure), To: to}
	t.Screen.show(output{record: r, message: chat.Message{Text: text}, line: number})
}

// worded is an error with words for a person.
type worded interface{ Words() string }

// broke reports that a line could not be carried out. The cause goes to the log.
// An error with words says why on the screen too, a full disk for example; of any
// other the screen shows a reference that leads to the log.
func (t *Terminal) broke(ctx context.Context, number int, person string, err error) {
	reference := fmt.Sprintf("T%d", t.complaints+1)
	t.Log.Error("a line failed", "reference", reference, "line", number, "error", err)
	words := "Something went wrong here, and it is not your doing. Reference " + reference + "."
	var known worded
	if errors.As(err, &known) {
		words = known.Words()
		if !t.kept {
			words += " Nothing was kept."
		}
	}
	t.complain(ctx, number, strings.ToLower(person), words)
}
