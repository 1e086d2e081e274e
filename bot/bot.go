package bot

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store"
)

// Config is what a Bot needs.
type Config struct {
	Store    *store.Store
	Captains []string // IDs of the people who run the club from the start
	Log      *slog.Logger
	// Hidden tells which ordinary members can read a channel, in words; empty:
	// none can. Nil where every channel is as good as another.
	Hidden func(channel string) (readers string)
}

// Bot answers the events of one club. It is safe for concurrent use.
type Bot struct {
	store    *store.Store
	captains []string
	log      *slog.Logger
	hidden   func(channel string) (readers string)
	queue    *queue
	table    table
}

var _ chat.Handler = (*Bot)(nil)

// New makes a bot over an open store.
func New(c Config) *Bot {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	return &Bot{store: c.Store, captains: c.Captains, log: c.Log, hidden: c.Hidden, queue: newQueue(), table: commands()}
}

// Handle answers one event. A second delivery of the same event is answered with
// silence, unless it is a command that only reads: that changes nothing, is not
// remembered, and is answered again. The error is for the operator; what the person
// should read is in the reply even then.
func (b *Bot) Handle(ctx context.Context, e chat.Event) (chat.Reply, error) {
	var reply chat.Reply
	var err error
	if waited := b.queue.do(ctx, e.Author.ID, func() { reply, err = b.answer(ctx, e) }); waited != nil {
		return chat.Reply{}, waited
	}
	if err != nil {
		return reply, err
	}
	return b.drawn(reply), nil
}

// drawn draws the pictures of an answer, outside of any transaction. What cannot be
// drawn is left out: the words say the same.
func (b *Bot) drawn(r chat.Reply) (out chat.Reply) {
	var err error
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
		out = r
		if err != nil {
			b.log.Error("a picture was left out", "err", err)
			out.Message.Files = slices.DeleteFunc(r.Message.Files, func(f chat.File) bool { return f.Bytes == nil })
		}
	}()
	err = r.Message.Drawn()
	return r
}

// answer runs the event in one transaction: either all it did is kept, together
// with the fact that the event was seen, or nothing is.
func (b *Bot) answer(ctx context.Context, e chat.Event) (reply chat.Reply, err error) {
	defer func() {
		if p := recover(); p != nil {
			b.log.Error("panic while answering", "event", e.ID, "panic", p, "stack", string(debug.Stack()))
			reply, err = b.failure(e, fmt.Errorf("panic: %v", p))
		}
	}()
	reply, done, err := b.readOnly(ctx, e)
	if !done {
		reply, err = b.update(ctx, e)
	}
	if err != nil {
		return b.failure(e, err)
	}
	return reply, nil
}

// update answers an event in a write transaction.
func (b *Bot) update(ctx context.Context, e chat.Event) (reply chat.Reply, err error) {
	var lost planner.LifterID
	err = b.store.Update(ctx, func(tx *store.Tx) error {
		fresh, err := tx.FreshEvent(e.ID, e.At)
		if err != nil || !fresh {
			return err
		}
		t, err := b.newTurn(tx, e)
		if err != nil {
			return err
		}
		reply, err = t.route()
		lost = t.lost
		return err
	})
	if err != nil && lost != 0 {
		// The refusal took back that the speaker is no captain any more.
		err = errors.Join(err, b.store.Update(ctx, func(tx *store.Tx) error { return noCaptain(tx, lost, e.At) }))
	}
	return reply, err
}

// noCaptain keeps that a lifter is no captain any more.
func noCaptain(tx *store.Tx, id planner.LifterID, now time.Time) error {
	l, err := tx.Lifter(id)
	if err != nil {
		return err
	}
	l.Captain = false
	return tx.SaveLifter(l, now)
}

// turn is the answering of one event inside its transaction.
type turn struct {
	bot     *Bot
	tx      *store.Tx
	event   chat.Event
	now     time.Time
	club    store.Club
	speaker planner.Lifter // whoever acts; ID 0 while not a member yet
	about   planner.Lifter // whom it is about; the speaker unless a captain says otherwise
	command *Command
	options map[string]string
	lost    planner.LifterID // the speaker, where they turned out to be no captain any more
}

func (b *Bot) newTurn(tx *store.Tx, e chat.Event) (*turn, error) {
	club, err := tx.Club()
	if err != nil {
		return nil, err
	}
	t := &turn{bot: b, tx: tx, event: e, now: e.At, club: club, options: map[string]string{}}
	t.speaker, _, err = tx.LifterByHandle(e.Author.ID)
	if err != nil {
		return nil, err
	}
	t.about = t.speaker
	return t, nil
}

// route sends the event to the code that answers its kind.
func (t *turn) route() (chat.Reply, error) {
	switch t.event.Kind {
	case chat.Pressed, chat.Sent:
		return t.pressed()
	case chat.Asked:
		return t.asked(t.event.Command, t.event.Options)
	case chat.Edited:
		return t.edited()
	case chat.Deleted:
		return t.deleted()
	}
	if strings.HasPrefix(strings.TrimSpace(t.event.Text), "/") {
		return t.typed()
	}
	return t.said()
}

// join makes the speaker a member on their first word that the bot acts on, and a
// captain as long as the workspace or an appointment says so.
func (t *turn) join() error {
	captain := t.event.Author.Captain || slices.Contains(t.bot.captains, t.event.Author.ID)
	if t.speaker.ID != 0 {
		if err := t.back(); err != nil {
			return err
		}
		still, err := t.stillCaptain(captain)
		if err != nil || still == t.speaker.Captain {
			return err
		}
		t.speaker.Captain = still
		if !still {
			t.lost = t.speaker.ID
		}
		if t.about.ID == t.speaker.ID {
			t.about.Captain = still
		}
		return t.tx.SaveLifter(t.speaker, t.now)
	}
	name, err := t.joinName(t.event.Author.Name)
	if err != nil {
		return err
	}
	l := planner.Lifter{Handle: t.event.Author.ID, Name: name, Captain: captain, Unit: t.club.Unit}
	id, err := t.tx.AddLifter(l, t.now)
	if err != nil {
		return err
	}
	l.ID = id
	t.speaker, t.about = l, l
	return nil
}

// stillCaptain tells whether the speaker is a captain now. A direct conversation
// does not show who runs the workspace, so there what was known last holds.
func (t *turn) stillCaptain(says bool) (bool, error) {
	if says || !t.speaker.Captain || t.event.Channel == "" {
		return says || t.speaker.Captain, nil
	}
	return t.tx.Appointed(t.speaker.ID)
}

// today is the civil day of the lifter the turn is about.
func (t *turn) today() planner.Date { return t.dayOf(t.about, t.now) }

// dayOf returns the civil day on which at falls for the lifter.
func (t *turn) dayOf(l planner.Lifter, at time.Time) planner.Date {
	return planner.DateOf(at.In(zoneOf(l, t.club)))
}

// zoneOf returns the lifter's zone, or the club's where none is set. Zones were
// checked when they were set, so an unknown one can only come from an older zone
// table; UTC is then the least surprising.
func zoneOf(l planner.Lifter, c store.Club) *time.Location {
	for _, name := range []string{l.Zone, c.Zone} {
		if name == "" {
			continue
		}
		if loc, err := time.LoadLocation(name); err == nil {
			return loc
		}
	}
	return time.UTC
}

// newToken makes an unguessable name for a button.
func newToken() string { return rand.Text() }
