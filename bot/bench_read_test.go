package bot

import (
	"context"
	"testing"
	"time"

	"blockbell/bot/chat"
	"blockbell/planner"
	"blockbell/planner/strength"
	"blockbell/store"
	"blockbell/store/storetest"
)

// fiveYears is a club with one lifter who logged three lifts twice a week for five
// years and has an agreed plan.
func fiveYears(b *testing.B) (*talk, planner.LifterID) {
	b.Helper()
	s := storetest.New(b)
	k := &talk{t: b, store: s, bot: New(Config{Store: s}), last: map[string][]chat.Button{}}
	k.now = time.Date(2027, time.January, 4, 18, 0, 0, 0, time.UTC)
	k.strong("ana", "2027-06-12")
	for lift, kg := range map[planner.Lift]float64{planner.Squat: 150, planner.Bench: 100, planner.Deadlift: 180} {
		k.keepLog("ana", halted(lift, kg, 0.0005, planner.NewDate(2027, 1, 3), 260, 0))
	}
	return k, k.lifter("ana").ID
}

// BenchmarkReadFiveYears is reading all three lifts of five years anew, from the log
// to the kept readings.
func BenchmarkReadFiveYears(b *testing.B) {
	k, id := fiveYears(b)
	k.update(func(tx *store.Tx) error { return k.bot.ReadLog(tx, id, k.now) })
	equations := strength.Equations()
	for b.Loop() {
		k.update(func(tx *store.Tx) error {
			c, err := tx.Club()
			if err != nil {
				return err
			}
			equations[0], equations[1] = equations[1], equations[0]
			c.Equation = string(equations[0])
			if err := tx.SaveClub(c); err != nil { // all is unread again
				return err
			}
			if lifts, err := tx.Unread(id); err != nil || len(lifts) != 3 {
				b.Fatal(lifts, err)
			}
			return k.bot.ReadLog(tx, id, k.now)
		})
	}
}

// BenchmarkLiftFiveYears is one /lift over five years, from event to answer with its
// picture drawn.
func BenchmarkLiftFiveYears(b *testing.B) {
	k, _ := fiveYears(b)
	for b.Loop() {
		e := k.event("ana")
		e.Kind, e.Command, e.Options = chat.Asked, []string{"lift"}, []chat.Option{{Name: "lift", Value: "squat"}}
		r, err := k.bot.Handle(context.Background(), e)
		if err != nil || r.Kind == chat.Failure || len(r.Message.Files) != 1 || r.Message.Files[0].Bytes == nil {
			b.Fatal(r.Message.Text, err)
		}
	}
}
