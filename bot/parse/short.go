package parse

import "blockbell/planner"

// lastShort reads "5x5 120 only got 4 on the last": of equal sets the last had fewer
// repetitions. Where nothing says that it was the last, the sets are asked about. made
// is the number read, and k what stands behind it.
func (r *reader) lastShort(made amount, k int) bool {
	w := r.last
	if w == nil || !w.hasLoad && !w.own || !w.hasSets || len(w.reps) != 1 || !w.sets.whole() || w.sets.value < 2 || w.sets.value > planner.MaxSets ||
		!made.whole() || made.value < 0 || made.value >= w.reps[0].value || r.begins(k) && r.tok(k).text != "in" && r.tok(k).text != "reps" {
		return false
	}
	all := make([]amount, int(w.sets.value))
	for i := range all {
		all[i] = w.reps[0]
	}
	all[len(all)-1].value = made.value
	w.reps, w.hasSets, w.swapped = all, false, false
	w.doubtful = w.doubtful || !r.saysLast(k)
	return true
}

// saysLast tells whether "last" or "final" stands within a few words of token k.
func (r *reader) saysLast(k int) bool {
	for i := k - 6; i < k+5; i++ {
		if t := r.tok(i).text; t == "last" || t == "final" {
			return true
		}
	}
	return false
}
