package bot

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// clubWeekParams are what /club week takes.
func clubWeekParams() []Param {
	return []Param{
		{Name: "kind", About: "the kind of block it is for", Required: true, Choices: blockWords, Positional: true},
		{Name: "file", About: "a text file with the week", File: true},
		{Name: "table", About: "the week as one line, with ; between its lines"},
		{Name: "drop", About: "forget the club's own week", Choices: yesNo},
	}
}

// clubWeek answers /club week: shows, takes or forgets the club's own week for a kind
// of block.
func clubWeek(t *turn) (chat.Reply, error) {
	kind := planner.BlockKind(t.options["kind"])
	if t.options["drop"] == "yes" {
		return t.dropClubWeek(kind)
	}
	text, given, err := t.tableGiven()
	if err != nil {
		return chat.Reply{}, err
	}
	if !given {
		return t.showClubWeek(kind)
	}
	table, err := load.ParseTable(text)
	if err != nil {
		return chat.Reply{}, err
	}
	if table.Block != kind {
		return chat.Reply{}, planner.Errorf(planner.Invalid, "Give kind:"+string(table.Block)+", or change the block line.", "The table is for %s, not for %s", render.BlockShort(table.Block), render.BlockShort(kind))
	}
	if err := t.tx.SaveClubWeek(kind, table.String(), t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.Audit(t.speaker.ID, 0, "set the club's own week for "+render.BlockShort(kind), t.now); err != nil {
		return chat.Reply{}, err
	}
	m := tableMessage("Saved: the club's "+render.BlockShort(kind)+" week", table.String())
	if t.club.Weeks != store.ClubWeeks {
		m.Text += "\nIt is used by who trains by the club's weeks: /club settings weeks:club for all, /week weeks:club for one."
	}
	return private(m), nil
}

// mostTable is the longest text of a week, in bytes.
const mostTable = 20000

// tableGiven is the text of a table that was attached or written out.
func (t *turn) tableGiven() (string, bool, error) {
	if len(t.event.Files) > 0 {
		text := strings.ReplaceAll(string(t.event.Files[0].Bytes), "\r\n", "\n")
		if len(text) > mostTable || !utf8.ValidString(text) {
			return "", false, planner.Errorf(planner.Invalid, "Attach a short plain text file.", "file: that is no table of a week")
		}
		return text, true, nil
	}
	v, given := t.options["table"]
	return strings.ReplaceAll(v, ";", "\n"), given, nil
}

func (t *turn) dropClubWeek(kind planner.BlockKind) (chat.Reply, error) {
	was, err := t.tx.DropClubWeek(kind)
	if err != nil {
		return chat.Reply{}, err
	}
	if !was {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "", "The club has no own week for %s", render.BlockShort(kind))
	}
	text := "Forgotten. From now on I write the " + render.BlockShort(kind) + " weeks."
	return private(chat.Message{Text: text, Data: map[string]any{"kind": kind, "table": nil}}),
		t.tx.Audit(t.speaker.ID, 0, "dropped the club's own week for "+render.BlockShort(kind), t.now)
}

// showClubWeek shows the club's own week or, where it has none, how one is written.
func (t *turn) showClubWeek(kind planner.BlockKind) (chat.Reply, error) {
	lines, has, err := t.tx.ClubWeek(kind)
	if err != nil {
		return chat.Reply{}, err
	}
	if has {
		return private(tableMessage("The club's "+render.BlockShort(kind)+" week", lines)), nil
	}
	m := chat.Message{Title: "No own week for " + render.BlockShort(kind), Data: map[string]any{"kind": kind, "table": nil}}
	m.Text = fmt.Sprintf("I write these weeks. To use the club's own, attach a text file, or give table: with ; between lines:\n"+
		"block %s\nday 1\nsquat: 1 x 5, 3 left, top\nsquat: 3 x 5 at 75 %%\nrow: 4 x 10\nday 2\nbench: 4 x 6, 2.5 left\n"+
		"A line 'weeks 1-3' or 'weeks 4 on' before days says for which weeks of the block they are.", kind)
	return private(m), nil
}

func tableMessage(title, lines string) chat.Message {
	return chat.Message{Title: title, Text: lines, Data: map[string]any{"table": lines}}
}
