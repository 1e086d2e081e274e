package strength

import (
	"fmt"

	"blockbell/planner"
)

// stale is how many days without rated work leave nothing to say about today.
const stale = 28

// verdict draws the conclusion from the figures, with one sentence for the lifter.
func (x Test) verdict(h *History, t *track) (Verdict, string) {
	last := t.lastRated()
	switch {
	case !last.IsZero() && last.DaysUntil(h.Today) > stale:
		return TooLittle, fmt.Sprintf("The last set with its effort is from %s, too long ago to say how the lift moves now.", last.Long())
	case x.Days <= fewest:
		return TooLittle, fmt.Sprintf("%s so far with a set and how hard it was; about %d are needed before a trend can show.", days(x.Days), fewest+3)
	case x.Fall >= fallAt:
		return Falling, fmt.Sprintf("The estimate has fallen by about %.1f %% a week since about %s.", x.Falls, x.FallSince.Short())
	case x.Expected >= 100*slowest && x.Plateau >= x.threshold():
		return Holding, fmt.Sprintf("Since about %s %.1f %% less has come than %s, more than chance explains.",
			x.Since.Short(), x.Missing, h.expects())
	case x.Expected < 100*slowest && x.Ends != nil && x.Ends.Last.DaysUntil(h.Today) <= endsHold:
		return x.Ends.verdict()
	case x.Rise >= riseAt && x.Lag >= x.threshold():
		return Rising, "The estimate rises, though by less than " + h.expects() + "."
	case x.Rise >= riseAt:
		return Rising, "The estimate rises, and by more than chance explains."
	case x.Expected < 100*slowest:
		return TooLittle, x.waiting(h)
	}
	if len(h.Blocks) == 0 {
		return TooLittle, "No sign of a halt yet; the ups and downs of single days are still larger than the progress."
	}
	return TooLittle, "Nothing speaks against your plan yet; the ups and downs of single days are still larger than the progress."
}

// expects names what the lift is held against: nobody without a plan is told of one.
func (h *History) expects() string {
	if len(h.Blocks) == 0 {
		return "is usual at your level"
	}
	return "your plan expects"
}

// verdict concludes from two block ends.
func (e *Ends) verdict() (Verdict, string) {
	told := fmt.Sprintf("From the end of one %s to the end of the next (%s) the estimate moved by %+.1f %%, give or take %.1f",
		words(e.Kind), e.Last.Short(), e.Change, e.SD)
	switch {
	case e.Change > surely*e.SD:
		return Rising, told + "."
	case e.Change < -surely*e.SD && e.Expected >= 0:
		return Falling, told + "."
	case e.Expected-e.Change > surely*e.SD:
		return Holding, told + fmt.Sprintf("; %.1f %% was expected.", e.Expected)
	}
	return TooLittle, told + fmt.Sprintf("; a halt would show in about %.0f of 100 such pairs.", 100*e.Power)
}

// lastRated returns the last day with rated work.
func (t *track) lastRated() (last planner.Date) {
	for _, o := range t.obs {
		if o.Rated {
			last = o.Day
		}
	}
	return last
}

// days writes a number of days.
func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

// words names a kind of block as lifters know it.
func words(k planner.BlockKind) string {
	switch k {
	case planner.Hypertrophy:
		return "muscle block (hypertrophy)"
	case planner.Peaking:
		return "peaking block"
	}
	return "strength block"
}
