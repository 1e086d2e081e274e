package bot

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// historyPage is how many changes one page of the history shows.
const historyPage = 20

// showHistory answers /club history: who changed what for others or for the club.
func showHistory(t *turn) (chat.Reply, error) {
	page := 1
	if text, given := t.options["page"]; given {
		var err error
		if page, err = wholeNumber("page", text, 1, 1000); err != nil {
			return chat.Reply{}, err
		}
	}
	var about planner.LifterID
	if name, given := t.options["about"]; given {
		l, err := t.lifterNamed(name)
		if err != nil {
			return chat.Reply{}, err
		}
		about = l.ID
	}
	entries, err := t.tx.AuditTrailOf(about, historyPage+1, (page-1)*historyPage)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.historyReply(entries, page)
}

func (t *turn) historyReply(entries []store.AuditEntry, page int) (chat.Reply, error) {
	m := chat.Message{Title: "Who changed what"}
	more := len(entries) > historyPage
	if more {
		entries = entries[:historyPage]
	}
	names := map[planner.LifterID]string{0: "I"}
	data := []map[string]any{}
	var lines []string
	for _, e := range entries {
		by, err := t.nameOf(names, e.By)
		if err != nil {
			return chat.Reply{}, err
		}
		line := fmt.Sprintf("%s: %s %s", t.dayOf(t.speaker, e.At).Short(), by, e.What)
		row := map[string]any{"at": e.At, "by": by, "what": e.What, "about": nil}
		if e.About != 0 && e.About != e.By {
			whom, err := t.nameOf(names, e.About)
			if err != nil {
				return chat.Reply{}, err
			}
			line += " for " + whom
			row["about"] = whom
		}
		lines, data = append(lines, line), append(data, row)
	}
	m.Text = strings.Join(lines, "\n")
	switch {
	case len(lines) == 0 && page == 1:
		m.Text = "Nothing yet: no captain or coach has changed anything for others."
	case len(lines) == 0:
		m.Text = "There is no such page."
	case more:
		m.Text += fmt.Sprintf("\nMore with /club history page:%d.", page+1)
	}
	m.Data = map[string]any{"history": data, "page": page}
	return private(m), nil
}

// nameOf is what a lifter is called, looked up once.
func (t *turn) nameOf(names map[planner.LifterID]string, id planner.LifterID) (string, error) {
	if name, known := names[id]; known {
		return name, nil
	}
	l, err := t.tx.Lifter(id)
	if err != nil {
		return "", err
	}
	names[id] = render.Called(l)
	return names[id], nil
}
