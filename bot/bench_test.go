package bot

import (
	"context"
	"fmt"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/store/storetest"
)

// stage is a bot with one lifter who has an agreed plan.
func stage(b *testing.B) func(text string) chat.Reply {
	b.Helper()
	bot := New(Config{Store: storetest.New(b)})
	now := time.Date(2027, time.January, 4, 18, 0, 0, 0, time.UTC)
	n := 0
	say := func(text string) chat.Reply {
		n++
		r, err := bot.Handle(context.Background(), chat.Event{ID: fmt.Sprint(n), Kind: chat.Said, At: now,
			Author: chat.Person{ID: "ana", Name: "Ana"}, Channel: "#training-log", Message: fmt.Sprint("m", n), Text: text})
		if err != nil || r.Kind == chat.Failure {
			b.Fatal(r.Message.Text, err)
		}
		return r
	}
	say("/me set level:intermediate squat:160 bench:100 deadlift:190")
	say(`/meet add name:"River Open" date:2027-06-12`)
	say("/season build")
	say("/season accept")
	return say
}

// BenchmarkLogLine is one message with one set, from event to committed row and
// acknowledgement, synchronous writes included, for a lifter with a year of
// three squat sets a week behind them.
func BenchmarkLogLine(b *testing.B) {
	say := stage(b)
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

// BenchmarkBlock is one /block, from event to answer.
func BenchmarkBlock(b *testing.B) {
	say := stage(b)
	for b.Loop() {
		say("/block")
	}
}
