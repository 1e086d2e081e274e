package blocks

import (
	"fmt"
	"testing"

	"blockbell/planner"
)

func bench(b *testing.B, name string, r Request) {
	b.Run(name, func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := Build(r); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkBuild is the curve: 12 to 156 weeks, one meet to five, evenly apart. Aims
// on one core: 52 weeks with two meets under 5 ms, 104 with three under 40.
func BenchmarkBuild(b *testing.B) {
	for _, level := range trained {
		for _, weeks := range []int{12, 26, 52, 104, 156} {
			for meets := 1; meets <= 5; meets++ {
				if weeks/meets < 12 {
					continue
				}
				var at []int
				for i := 1; i <= meets; i++ {
					at = append(at, weeks*i/meets)
				}
				bench(b, fmt.Sprintf("%s/weeks=%d/meets=%d", level, weeks, meets), fresh(level, at...))
			}
		}
	}
}

// BenchmarkBuildPinned has pins on the first and the third block, a bound and a time
// away.
func BenchmarkBuildPinned(b *testing.B) {
	for _, weeks := range []int{26, 52, 104} {
		r := fresh(planner.Intermediate, weeks/2, weeks)
		r.Pins = []Pin{{Ordinal: 1, Kind: planner.Hypertrophy}, {Kind: planner.Strength, Weeks: 6}}
		r.Bounds = []Bound{{Kind: planner.Hypertrophy, Max: 9}}
		r.Away = []Away{{From: monday.AddDays(30), To: monday.AddDays(44)}}
		bench(b, fmt.Sprintf("weeks=%d", weeks), r)
	}
}

// BenchmarkBuildTestDay has no main meet: the share of hypertrophy is counted along.
func BenchmarkBuildTestDay(b *testing.B) {
	for _, weeks := range []int{26, 52, 104, 156} {
		bench(b, fmt.Sprintf("weeks=%d", weeks), testDays(planner.Intermediate, weeks))
	}
}
