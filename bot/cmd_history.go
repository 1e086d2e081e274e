package bot

import (
	"fmt"
	"slices"
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
	all, more, err := t.changes(about, page)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.historyReply(all, page, more)
}

// changesMost is how many changes are read to fill a page: older ones are in the
// export.
const changesMost = 4000

// changes reads one page of the trail, newest first. The same done on the same day for
// several lifters in a row is one change; more tells whether older ones follow.
func (t *turn) changes(about planner.LifterID, page int) (groups [][]store.AuditEntry, more bool, err error) {
	entries, err := t.tx.AuditTrailOf(about, changesMost, 0)
	if err != nil {
		return nil, false, err
	}
	for _, e := range entries {
		if n := len(groups); n > 0 && t.sameChange(groups[n-1][0], e) {
			groups[n-1] = append(groups[n-1], e)
			continue
		}
		groups = append(groups, []store.AuditEntry{e})
	}
	from := min(len(groups), (page-1)*historyPage)
	to := min(len(groups), from+historyPage)
	return groups[from:to], to < len(groups), nil
}

// sameChange tells whether somebody did the same for two lifters on one day.
func (t *turn) sameChange(a, b store.AuditEntry) bool {
	return a.By == b.By && a.Gone == b.Gone && a.What == b.What && forAnother(a) && forAnother(b) && t.dayOf(t.speaker, a.At) == t.dayOf(t.speaker, b.At)
}

// forAnother tells whether a change was made for another lifter, and not for the club or
// by somebody for themselves.
func forAnother(e store.AuditEntry) bool { return e.About != 0 && e.About != e.By }

func (t *turn) historyReply(groups [][]store.AuditEntry, page int, more bool) (chat.Reply, error) {
	m := chat.Message{Title: "Who changed what"}
	called := map[planner.LifterID]string{0: "I"}
	data := []map[string]any{}
	var lines []string
	for _, g := range groups {
		by, err := t.doerOf(called, g[0])
		if err != nil {
			return chat.Reply{}, err
		}
		var about []string
		for _, e := range g {
			row := map[string]any{"at": e.At, "by": by, "what": e.What, "about": nil}
			if forAnother(e) {
				whom, err := t.nameOf(called, e.About)
				if err != nil {
					return chat.Reply{}, err
				}
				row["about"] = whom
				if !slices.Contains(about, whom) {
					about = append(about, whom)
				}
			}
			data = append(data, row)
		}
		lines = append(lines, fmt.Sprintf("%s: %s %s%s", t.dayOf(t.speaker, g[0].At).Short(), by, g[0].What, forNames(about)))
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

// namedInHistory is how many lifters one change names.
const namedInHistory = 4

// forNames says for whom a change was made, the oldest of them first.
func forNames(about []string) string {
	if len(about) == 0 {
		return ""
	}
	slices.Reverse(about)
	return " for " + render.Some(about, namedInHistory)
}

// doerOf names who made a change; somebody erased has no name any more.
func (t *turn) doerOf(names map[planner.LifterID]string, e store.AuditEntry) (string, error) {
	if e.Gone {
		return "somebody who has left", nil
	}
	return t.nameOf(names, e.By)
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
