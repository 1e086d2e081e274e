package store_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

var terminal = store.Options{World: store.Terminal, Now: now}

func BenchmarkOpenFresh(b *testing.B) {
	dir := b.TempDir()
	for i := 0; b.Loop(); i++ {
		s, err := store.Open(b.Context(), filepath.Join(dir, fmt.Sprint(i, ".db")), terminal)
		if err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		s.Close()
		b.StartTimer()
	}
}

func BenchmarkOpenAgain(b *testing.B) {
	path := storetest.New(b).Path() + ".2"
	for i := 0; b.Loop(); i++ {
		s, err := store.Open(b.Context(), path, terminal)
		if err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		s.Close()
		b.StartTimer()
	}
}

// BenchmarkAddOneSet is one log line with one set, safe against a power cut when
// it returns.
func BenchmarkAddOneSet(b *testing.B) {
	s := storetest.New(b)
	ana := join(b, s, "ana")
	for i := 0; b.Loop(); i++ {
		day := planner.NewDate(2027, 1, 1).AddDays(i % 365)
		update(b, s, func(tx *store.Tx) error {
			_, err := tx.AddSets(ana, fmt.Sprint(i), []planner.Set{aSet(day)}, now)
			return err
		})
	}
}

// BenchmarkSetsOfAYear reads 185 sets, a year of one lifter among forty.
func BenchmarkSetsOfAYear(b *testing.B) {
	s := storetest.New(b)
	first := planner.NewDate(2027, 1, 1)
	var ana planner.LifterID
	for i := range 40 {
		ana = join(b, s, fmt.Sprint("lifter", i))
		var year []planner.Set
		for n := range 185 {
			year = append(year, aSet(first.AddDays(n/3*5)))
		}
		update(b, s, func(tx *store.Tx) error {
			_, err := tx.AddSets(ana, "m", year, now)
			return err
		})
	}
	for b.Loop() {
		view(b, s, func(tx *store.Tx) error {
			sets, err := tx.Sets(ana, first, first.AddDays(364))
			if len(sets) != 185 {
				b.Fatalf("%d sets, want 185", len(sets))
			}
			return err
		})
	}
}

// aSet is an ordinary set of squats.
func aSet(day planner.Date) planner.Set {
	return planner.Set{Day: day, Lift: planner.Squat, Weight: 140 * planner.Kilogram, Reps: 5, Sets: 1}
}
