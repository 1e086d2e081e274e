package bot

import (
	"context"
	"testing"

	"blockbell/planner"
	"blockbell/store"
)

// yearsOfLog is a lifter with years of logged sets, an agreed plan of 52 weeks to three
// meets, and a coach's lift-offs and times away: the heaviest season that is likely.
func yearsOfLog(b *testing.B) *talk {
	k := newTalk(b, "2027-01-04T09:00:00Z")
	k.strong("ana", "2027-12-18")
	for _, line := range []string{
		`/meet add name:"Spring Cup" date:2027-04-24`, `/meet add name:"Gym Cup" date:2027-08-07 kind:tune-up`,
		"/season away from:2026-06-01 to:2026-08-15", "/season away from:2027-05-10 to:2027-05-30",
	} {
		k.ok(k.say("ana", line))
	}
	k.ok(k.say("ana", "/season build"))
	err := k.store.Update(context.Background(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle("ana")
		if err != nil {
			return err
		}
		from := planner.NewDate(2024, 1, 1)
		for day := 0; day < 3*365; day += 2 { // three years, every other day, three lifts of four rows
			var sets []planner.Set
			two := 2.0
			for _, lift := range planner.CompetitionLifts() {
				for n := range 4 {
					sets = append(sets, planner.Set{Day: from.AddDays(day), Seq: len(sets) + 1, Lift: lift, Weight: planner.Kilograms(100 + float64(day)/50 + 5*float64(n)), Reps: 5, Sets: 1, Reserve: &two})
				}
			}
			if _, err := tx.AddSets(l.ID, "", sets, k.now); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

func benchmarkSeason(b *testing.B, text string) {
	k := yearsOfLog(b)
	for b.Loop() {
		k.ok(k.say("ana", text))
	}
}

// The answers that the platform waits three seconds for, picture included.
func BenchmarkProposal(b *testing.B)    { benchmarkSeason(b, "/season build") }
func BenchmarkSeasonShown(b *testing.B) { benchmarkSeason(b, "/season") }
func BenchmarkCompare(b *testing.B) {
	benchmarkSeason(b, `/season compare blocks:"P47; S47; H47"`)
}
func BenchmarkWhy(b *testing.B) { benchmarkSeason(b, "/season why") }
