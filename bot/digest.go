package bot

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

const (
	// silentDays is how long nothing logged is worth a captain's look (common
	// practice: five missed sessions).
	silentDays = 10
	// nearClass is how close to the class limit a bodyweight is worth a look: one
	// part in so many.
	nearClass = 100
	// entryAhead is how many days before an entry closes it is listed.
	entryAhead = 21
)

// digestPart is one heading of the digest with the lifters under it.
type digestPart struct {
	Name  string   `json:"name"`
	Lines []string `json:"lines"`
}

// showDigest answers /club digest.
func showDigest(t *turn) (chat.Reply, error) {
	m, some, err := t.digest()
	if err == nil && !some {
		m.Text = "Nothing needs a look this week."
	}
	return private(m), err
}

// digest is what a captain should look at this week; false where that is nothing.
func (t *turn) digest() (chat.Message, bool, error) {
	all, err := t.tx.Members()
	if err != nil {
		return chat.Message{}, false, err
	}
	parts := []digestPart{{Name: "New block this week"}, {Name: "Block over"}, {Name: "Plan waits for a yes"},
		{Name: "Nothing logged for " + fmt.Sprint(silentDays) + " days or more"}, {Name: "Away"}, {Name: "Near or above the class"}, {Name: "Not entered yet"}, {Name: "Takes no direct messages; left? /club left"},
		{Name: "Stalled"}, {Name: "Work does not match the block"}}
	parts = append(parts, paperParts...)
	closed, err := t.unreached(nudge.ReasonUnreachable)
	if err != nil {
		return chat.Message{}, false, err
	}
	for _, l := range all {
		c, err := t.course(l)
		if err != nil {
			return chat.Message{}, false, err
		}
		if closed[l.Handle] {
			parts[7].Lines = append(parts[7].Lines, render.Called(l))
		}
		lines, err := t.digestLines(c)
		if err != nil {
			return chat.Message{}, false, err
		}
		trends, err := t.trendLines(c)
		if err != nil {
			return chat.Message{}, false, err
		}
		papers, err := t.paperLines(c)
		if err != nil {
			return chat.Message{}, false, err
		}
		for i, line := range slices.Concat(lines[:], []string{""}, trends[:], papers[:]) {
			if line != "" {
				parts[i].Lines = append(parts[i].Lines, render.Called(l)+": "+line)
			}
		}
	}
	m := chat.Message{Title: "This week's digest"}
	kept := []digestPart{}
	for _, p := range parts {
		if len(p.Lines) > 0 {
			m.Fields = append(m.Fields, chat.Field{Name: p.Name, Value: shortened(p.Lines)})
			kept = append(kept, p)
		}
	}
	m.Data = map[string]any{"digest": kept}
	return m, len(kept) > 0, nil
}

// shortened joins lines as far as one field holds them, and counts the rest.
func shortened(lines []string) string {
	text := ""
	for i, line := range lines {
		more := fmt.Sprintf("and %d more", len(lines)-i)
		if len([]rune(text))+len([]rune(line))+len(more)+2 > chat.MaxFieldValue {
			return text + more
		}
		text += line + "\n"
	}
	return strings.TrimSuffix(text, "\n")
}

// digestLines says of one lifter what belongs under each heading of the digest;
// empty where nothing does.
func (t *turn) digestLines(c course) ([7]string, error) {
	var out [7]string
	_, away := awayNow(c.aways, c.today)
	for i, b := range c.agreed.Season.Blocks {
		_, gone := awayNow(c.aways, b.Start)
		if days := c.today.DaysUntil(b.Start); c.has && !gone && days >= 0 && days < announceDays {
			if out[0] = render.BlockShort(b.Kind) + " from " + b.Start.Short(); !t.begins(c, i) {
				out[0] += " by plan; it waits"
			}
		}
	}
	if c.at.Index >= 0 && c.at.Overdue > 0 && !away {
		out[1] = render.BlockShort(c.at.Block.Kind) + ", for " + render.Count(c.at.Overdue, "day")
	}
	proposal, open, err := t.tx.ProposedPlan(c.lifter.ID)
	if err != nil {
		return out, err
	}
	if open {
		out[2] = "since " + planner.DateOf(proposal.Built).Short()
	}
	if out[3], out[4], err = t.absence(c); err != nil {
		return out, err
	}
	out[6] = entryLine(c)
	// The digest is for every captain, so a bodyweight stands in it only where each of
	// them may see it.
	seen, err := t.tx.BodySeenBy(c.lifter.ID)
	if seen == store.SeenByCaptains || seen == store.SeenByCoach && c.lifter.Coach == 0 {
		out[5] = classLine(c)
	}
	return out, err
}

// absence says since when a lifter has not logged, or until when they said they
// are away.
func (t *turn) absence(c course) (silent, away string, err error) {
	aways, err := t.tx.Aways(c.lifter.ID)
	if err != nil {
		return "", "", err
	}
	for _, a := range aways {
		if a.From <= c.today && (a.To.IsZero() || a.To >= c.today) {
			return "", awayLine(a), nil
		}
	}
	last, err := t.tx.LastLogged(c.lifter.ID)
	if err != nil || last.IsZero() || last.DaysUntil(c.today) < silentDays {
		return "", "", err
	}
	return "last on " + last.Short(), "", nil
}

func awayLine(a store.Away) string {
	if a.To.IsZero() {
		return "since " + a.From.Short()
	}
	return "to " + a.To.Short()
}

// classLine says how a bodyweight stands to the class of the next meet.
func classLine(c course) string {
	class := c.lifter.Class
	m, ok := c.nextMeet()
	if ok && !m.Class.IsZero() {
		class = m.Class
	}
	w := c.lifter.Bodyweight
	if !ok || class.IsZero() || class.Plus || w == 0 || w < class.Limit-class.Limit/nearClass {
		return ""
	}
	if w > class.Limit {
		return fmt.Sprintf("%s above %s for %s", (w - class.Limit).Text(planner.KG), class, m.Name)
	}
	return fmt.Sprintf("%s below %s for %s", (class.Limit - w).Text(planner.KG), class, m.Name)
}

// entryLine names the meet whose entry closes next without having been made.
func entryLine(c course) string {
	for _, m := range c.meets {
		if days := c.today.DaysUntil(m.EntryCloses); m.Date >= c.today && !m.Entered && !m.EntryCloses.IsZero() && days <= entryAhead {
			if days < 0 {
				return m.Name + ", the entry closed on " + m.EntryCloses.Short()
			}
			return m.Name + " closes " + render.InDays(days)
		}
	}
	return ""
}
