package blocks

import (
	"fmt"
	"strings"

	"blockbell/planner"
)

// limit adds up the peaking limit.
func (x *explaining) limit() string {
	const practice = ", common practice"
	var sum []string
	for _, why := range x.Limit.Reasons {
		sum = append(sum, strings.TrimSuffix(why, practice))
	}
	return fmt.Sprintf("Peaking lasts at most %s for you, taper included (%s).%s That is common practice: no study compares lengths of peaking.",
		plural(x.Limit.Weeks), strings.Join(sum, "; "), x.laterLimit())
}

// laterLimit tells the limit of the last meet where that is another one: a first meet is
// one no more, or there is gear to get used to.
func (x *explaining) laterLimit() string {
	for i := len(x.Blocks) - 1; i >= 0; i-- {
		if limit := x.limitOf(i); x.Blocks[i].Kind == planner.Peaking {
			if limit == x.Limit.Weeks {
				return ""
			}
			return fmt.Sprintf(" For %s it is %s.", x.nameOf(x.Blocks[i].End.AddDays(1)), plural(limit))
		}
	}
	return ""
}

// limitOf is the peaking limit, in weeks, of the meet that block i ends before.
func (x *explaining) limitOf(i int) int {
	if weeks, ok := x.limits[x.Blocks[i].End.AddDays(1)]; ok {
		return weeks
	}
	return x.Limit.Weeks
}

// limitsOf are the peaking limits of a request by meet; empty where it makes no plan.
func limitsOf(r Request) map[planner.Date]int {
	limits := map[planner.Date]int{}
	s, err := newSeason(r)
	if err != nil {
		return limits
	}
	for _, st := range s.stretches {
		limits[st.end.AddDays(1)] = st.limit
	}
	return limits
}
