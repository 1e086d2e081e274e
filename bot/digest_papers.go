package bot

import (
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
)

// paperParts are the headings of the digest about papers, in the order of paperLines.
var paperParts = []digestPart{{Name: "Licence ends before the meet"}, {Name: "More is asked for than to expect"}, {Name: "Result still missing"}, {Name: "Not joined yet; a claim waits"}}

// missingFor is how many days after a meet its missing result is listed.
const missingFor = 14

// paperLines says of one lifter what belongs under each heading about papers; empty
// where nothing does.
func (t *turn) paperLines(c course) (out [4]string, err error) {
	licence, err := t.tx.Licence(c.lifter.ID)
	if err != nil {
		return out, err
	}
	for _, m := range c.meets {
		name := parse.Clean(m.Name)
		days := c.today.DaysUntil(m.Date)
		switch {
		case m.Kind == planner.Test:
		case days < 0 && days >= -missingFor && !m.ResultEntered:
			out[2] = name + " on " + m.Date.Short()
		case days >= 0 && !licence.Until.IsZero() && licence.Until < m.Date && out[0] == "":
			out[0] = "until " + licence.Until.Short() + ", " + name + " on " + m.Date.Short()
		}
	}
	if out[1], err = t.askedTooMuch(c); err != nil {
		return out, err
	}
	p, waits, err := t.tx.Placeholder(c.lifter.ID)
	if err != nil || !waits || p.Claims == 0 {
		return out, err
	}
	who, err := t.tx.Lifter(p.Claims)
	out[3] = parse.Clean(render.Called(who)) + " says to be them: /club placeholders"
	return out, err
}

// askedTooMuch says which next meet asks for a total that is not to be expected by its
// day.
func (t *turn) askedTooMuch(c course) (string, error) {
	m, ok := c.nextMeet()
	if !ok || m.Qualifying == 0 {
		return "", nil
	}
	f, err := t.forecast(c, m)
	if err != nil || f.High == 0 || m.Qualifying <= f.High {
		return "", err
	}
	unit := c.lifter.Unit
	return parse.Clean(m.Name) + " asks for " + m.Qualifying.Text(unit) + "; estimate for the day " + f.Low.Number(unit) + " to " + f.High.Text(unit), nil
}
