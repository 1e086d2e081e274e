package load

import "blockbell/planner"

// longestRun is how many loading weeks a lifter has between two deloads at most
// (common practice; survey median 5.6 weeks, Rogerson et al. 2024).
func longestRun(level planner.Level, age int) int {
	run := [3]int{8, 5, 5}[tier(level)]
	switch {
	case age >= 50:
		run = min(run, 4)
	case age >= 40:
		run = min(run, 5)
	}
	return run
}

// waves cuts a block of n weeks of hypertrophy or strength into runs of loading
// weeks, each but perhaps the last followed by a deload; the longest come first.
// Blocks up to 3 weeks have no deload; longer ones end in one.
func waves(n, longest int) []int {
	if n <= 3 {
		return []int{n}
	}
	k := 1
	for (n-k+k-1)/k > longest {
		k++
	}
	var runs []int
	for left := n - k; k > 0; k-- {
		run := (left + k - 1) / k
		runs = append(runs, run)
		left -= run
	}
	return runs
}

// deloads marks the deload weeks of a block, index 0 for its first week; before and
// next are its neighbours.
func deloads(before, b planner.Block, next planner.BlockKind, level planner.Level, age int, gapToTaper int) []bool {
	n := max(b.Weeks, 1)
	marks := make([]bool, n)
	switch b.Kind {
	case planner.Peaking:
		if !rested(before, n, level, age) {
			peakDeload(marks)
		}
		return marks
	case planner.Recovery:
		return marks
	}
	at := 0
	runs := waves(n, longestRun(level, age))
	beforePeak := b.Kind == planner.Strength && next == planner.Peaking
	if beforePeak {
		runs = reversed(runs)
	}
	if longest := longestRun(level, age); beforePeak && gapToTaper < 10 && runs[len(runs)-1]+1 > longest && n > longest {
		runs = openEnded(n, longest)
	}
	for i, run := range runs {
		at += run
		last := i == len(runs)-1
		skip := last && beforePeak && (run < 4 || gapToTaper < 10)
		if at < n && !skip {
			marks[at] = true
		}
		at++
	}
	return marks
}

// peakDeload gives a peaking block of more than 6 weeks one easy week: in its
// first half, so that it never comes near the taper.
func peakDeload(marks []bool) {
	if n := len(marks); n > 6 {
		marks[min(4, (n-3)/2)] = true
	}
}

// rested tells whether a peaking block of n weeks needs no deload of its own: the
// strength block before it ended in one, and the loading weeks up to the last two,
// which are easy anyway, are no longer run than elsewhere.
func rested(before planner.Block, n int, level planner.Level, age int) bool {
	if before.Kind != planner.Strength {
		return false
	}
	marks := deloads(planner.Block{}, before, planner.Peaking, level, age, 99)
	return marks[len(marks)-1] && n-2 <= longestRun(level, age)
}

// openEnded cuts a block of n weeks that cannot end in a deload, because the taper is
// near: one deload fewer than runs of loading weeks, the longest first.
func openEnded(n, longest int) (runs []int) {
	k := 1
	for (n-(k-1)+k-1)/k > longest {
		k++
	}
	for left := n - (k - 1); k > 0; k-- {
		run := (left + k - 1) / k
		runs, left = append(runs, run), left-run
	}
	return runs
}

func reversed(runs []int) []int {
	out := make([]int, 0, len(runs))
	for i := len(runs) - 1; i >= 0; i-- {
		out = append(out, runs[i])
	}
	return out
}
