package load

import "slices"

// worthTheWay is the fewest sets of accessories that make a session of their own
// (common practice).
const worthTheWay = 6

// gather moves the accessories of a day that has little else to other open days
// of the week, where those have room for all of them.
func (a *filler) gather() {
	for _, i := range a.open {
		if day := a.days[i]; len(day.Work) > 0 && onlyAccessories(day) && day.sets() < worthTheWay {
			a.handOut(i)
		}
	}
}

// handOut empties a day where each piece of its work finds another, the shortest
// that has not got the same.
func (a *filler) handOut(from int) {
	days := make([]Day, len(a.days))
	for i, d := range a.days {
		days[i] = Day{Date: d.Date, Work: slices.Clone(d.Work), Note: d.Note}
	}
	days[from].Work = nil
	for _, w := range a.days[from].Work {
		best := -1
		for _, i := range a.open {
			work := days[i].Work
			same := slices.ContainsFunc(work, func(o Work) bool { return o.Lift == w.Lift })
			if same || onlyAccessories(days[i]) || days[i].sets()+w.Sets > maxSessionSets || minutes(append(slices.Clone(work), w)) > maxMinutes {
				continue
			}
			if best < 0 || minutes(work) < minutes(days[best].Work) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		days[best].Work = append(days[best].Work, w)
	}
	copy(a.days, days)
}
