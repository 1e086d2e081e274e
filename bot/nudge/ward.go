package nudge

import (
	"strings"

	"blockbell/planner"
	"blockbell/store"
)

// Ward is a lifter who has not joined, with the meets of whom the member is told in
// their place.
type Ward struct {
	Lifter planner.Lifter
	Meets  []planner.Meet
}

// loadPapers reads what the member's papers and those of the member's wards say.
func (m *Member) loadPapers(tx *store.Tx) error {
	l, err := tx.Licence(m.Lifter.ID)
	if err != nil {
		return err
	}
	m.Licence, m.Reviewed, m.Places = l.Until, map[planner.MeetID]bool{}, map[planner.MeetID]store.Roster{}
	for _, x := range m.Meets {
		r, err := tx.Roster(x.ID)
		if err != nil {
			return err
		}
		if r != (store.Roster{}) {
			m.Places[x.ID] = r
		}
		if _, told, err := tx.Review(x.ID); err != nil {
			return err
		} else if told {
			m.Reviewed[x.ID] = true
		}
	}
	if m.Absent {
		return nil
	}
	wards, err := tx.WardsOf(m.Lifter.ID, m.Lifter.Captain)
	for _, w := range wards {
		meets, err := tx.Meets(w.ID)
		if err != nil {
			return err
		}
		m.Wards = append(m.Wards, Ward{w, meets})
	}
	return err
}

// licenceSteps are the days before a meet on which a licence that ends too soon is
// told: a new one can take weeks (common practice).
var licenceSteps = []step{{42, "-6w", false, nil}, {21, "-3w", false, nil}, {7, "-1w", false, nil}}

// findLicences: the licence as it was told ends before the meet does. Test days need
// none.
func findLicences(s *search) {
	until := s.member.Licence
	if until.IsZero() {
		return
	}
	for _, m := range s.member.Meets {
		if m.Kind == planner.Test || until >= m.Date {
			continue
		}
		for i, step := range licenceSteps {
			if day := m.Date.AddDays(-step.days); s.near(day) {
				s.add(Nudge{Day: day, Meet: m, Step: i}, meetObject(m), m.Date, step.fact)
			}
		}
	}
}

// toldLicence says which licence ends before which meet.
func (n *Nudge) toldLicence() []string {
	return []string{
		"Your licence is valid until " + n.Member.Licence.Short() + ", and " + n.meetName() + " is on " + n.Meet.Date.Short() + ".",
		"Renew it in time: most meets let nobody lift without one. Renewed already? /me licence until:… and I stop asking.",
	}
}

// toldEve says the day before a meet where the member has to be, as far as that was
// told.
func (n *Nudge) toldEve(today planner.Date) []string {
	lines := append([]string{n.meetName() + " " + n.away(today) + "."}, weighIns[n.Step].lines...)
	r := n.Member.Places[n.Meet.ID]
	var told []string
	for _, x := range []struct{ name, value string }{{"session", r.Session}, {"flight", r.Flight}, {"travel", r.Travel}} {
		if x.value != "" {
			told = append(told, x.name+" "+x.value)
		}
	}
	if len(told) > 0 {
		lines = append(lines, "As told: "+strings.Join(told, ", ")+". The organiser's list decides.")
	}
	return lines
}
