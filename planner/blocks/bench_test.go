package blocks

import (
	"testing"
)

func benchmark(b *testing.B, weeks ...int) {
	for _, level := range trained {
		b.Run(string(level), func(b *testing.B) {
			r := fresh(level, weeks...)
			for b.Loop() {
				if _, err := Build(r); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkBuild52WeeksTwoMeets(b *testing.B)    { benchmark(b, 24, 52) }
func BenchmarkBuild104WeeksThreeMeets(b *testing.B) { benchmark(b, 30, 66, 104) }
func BenchmarkBuild156Weeks(b *testing.B)           { benchmark(b, 156) }
