package bot

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store/storetest"
)

// stage is a bot with one lifter who has an agreed plan.
func stage(b *testing.B) (say, ask func(text string) chat.Reply) {
	b.Helper()
	bot := New(Config{Store: storetest.New(b)})
	now := time.Date(2027, time.January, 4, 18, 0, 0, 0, time.UTC)
	n := 0
	handle := func(e chat.Event) chat.Reply {
		n++
		e.ID, e.At, e.Author, e.Channel = fmt.Sprint(n), now, chat.Person{ID: "ana", Name: "Ana"}, "#training-log"
		r, err := bot.Handle(context.Background(), e)
		if err != nil || r.Kind == chat.Failure {
			b.Fatal(r.Message.Text, err)
		}
		return r
	}
	say = func(text string) chat.Reply {
		return handle(chat.Event{Kind: chat.Said, Message: fmt.Sprint("m", n), Text: text})
	}
	ask = func(command string) chat.Reply {
		return handle(chat.Event{Kind: chat.Asked, Command: strings.Fields(command)})
	}
	say("/me set level:intermediate squat:160 bench:100 deadlift:190")
	say(`/meet add name:"River Open" date:2027-06-12`)
	say("/season build")
	say("/season accept")
	return say, ask
}

// BenchmarkLogLine is one message with one set, from event to committed row and
// acknowledgement, synchronous writes included, for a lifter with a year of
// three squat sets a week behind them.
func BenchmarkLogLine(b *testing.B) {
	say, _ := stage(b)
	year := planner.NewDate(2026, time.January, 5)
	for week := range 52 {
		for set := range 3 {
			say(fmt.Sprintf("%s squat %dx5 @8", year.AddDays(7*week+2*set), 120+week/4+set))
		}
	}
	for b.Loop() {
		say("squat 140x5 @8")
		b.StopTimer()
		say("undo")
		b.StartTimer()
	}
}

// BenchmarkBlock is one /block, from event to answer: as a command, which only
// reads, and typed as a message, whose ID has to be kept.
func BenchmarkBlock(b *testing.B) {
	say, ask := stage(b)
	b.Run("command", func(b *testing.B) {
		for b.Loop() {
			ask("block")
		}
	})
	b.Run("typed", func(b *testing.B) {
		for b.Loop() {
			say("/block")
		}
	})
}

// BenchmarkBoard is one /club board over forty lifters with agreed plans.
func BenchmarkBoard(b *testing.B) {
	bot := New(Config{Store: storetest.New(b), Captains: []string{"lifter0"}})
	now := time.Date(2027, time.January, 4, 18, 0, 0, 0, time.UTC)
	n := 0
	handle := func(e chat.Event, who string) {
		n++
		e.ID, e.At, e.Author, e.Message = fmt.Sprint(n), now, chat.Person{ID: who, Name: who}, fmt.Sprint(n)
		if r, err := bot.Handle(context.Background(), e); err != nil || r.Kind == chat.Failure {
			b.Fatal(r.Message.Text, err)
		}
	}
	for l := range 40 {
		for _, text := range []string{"/me set level:intermediate squat:160 bench:100 deadlift:190", `/meet add name:"River Open" date:2027-06-12`, "/season build", "/season accept"} {
			handle(chat.Event{Kind: chat.Said, Text: text}, fmt.Sprint("lifter", l))
		}
	}
	for b.Loop() {
		handle(chat.Event{Kind: chat.Asked, Command: []string{"club", "board"}}, "lifter0")
	}
}
