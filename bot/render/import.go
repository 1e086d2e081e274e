package render

import (
	"fmt"
	"strings"

	"blockbell/bot/chat"
	"blockbell/planner"
)

// ProblemsShown is how many rows that could not be read are listed.
const ProblemsShown = 10

// Of a file, so many sets and names are shown.
const (
	setsShown  = 3
	namesShown = 12
)

// ImportView is what a preview of a file is made from.
type ImportView struct {
	Who      string // whose log; empty: the reader's own
	Columns  []string
	Ignored  []string
	Rows     int
	Unit     planner.Unit
	Asks     bool // which number of a date is the day has to be chosen first
	New      []planner.Set
	Heaviest []planner.Set // of each competition lift
	Far      []planner.Set // far above the lifter's best
	Known    int           // sets that the log has already
	Assumed  bool          // the unit was taken for granted
	Problems []string
	Unknown  []string
}

// Import shows what a file would add to the log.
func Import(v ImportView) chat.Message {
	title := "Import into your log?"
	if v.Who != "" {
		title = "Import into the log of " + v.Who + "?"
	}
	lines := []string{Count(v.Rows, "row") + ". I read " + strings.Join(v.Columns, ", ") + "."}
	if len(v.Ignored) > 0 {
		lines = append(lines, "Not read, not kept: "+some(v.Ignored)+".")
	}
	if v.Asks {
		lines = append(lines, "Its dates can be read in two ways. Which number is the day? 3/4/2026 would be:")
	} else {
		lines = append(lines, v.found()...)
	}
	lines = append(lines, "Nothing is written before you say so; what I read is forgotten after a day.")
	return chat.Message{Title: title, Text: clip(strings.Join(lines, "\n"), chat.MaxText)}
}

// found says what the rows mean.
func (v ImportView) found() []string {
	lines := []string{"New: " + Count(len(v.New), "set") + "."}
	for i, s := range v.New[:min(len(v.New), setsShown)] {
		lines = append(lines, fmt.Sprintf("%d. %s: %s", i+1, s.Day.Long(), Set(s, v.Unit)))
	}
	if len(v.New) > setsShown {
		lines = append(lines, "…")
	}
	if len(v.Heaviest) > 0 {
		var top []string
		for _, s := range v.Heaviest {
			top = append(top, Set(s, v.Unit))
		}
		lines = append(lines, "Heaviest: "+strings.Join(top, "; ")+".")
	}
	if n := len(v.Far); n > 0 {
		lines = append(lines, "Far above your best so far: "+Count(n, "set")+", such as "+Set(v.Far[0], v.Unit)+". Is the unit right?")
	}
	if v.Known > 0 {
		lines = append(lines, "Left out, since your log has them or had them from a file: "+Count(v.Known, "set")+".")
	}
	if v.Assumed {
		lines = append(lines, "The file names no unit. I took "+string(v.Unit)+".")
	}
	if len(v.Unknown) > 0 {
		lines = append(lines, "Lifts I do not know, left out unless you take them as accessories: "+some(v.Unknown)+".")
	}
	if n := len(v.Problems); n > 0 {
		lines = append(lines, "Left out, since I cannot read them: "+Count(n, "row")+".")
		lines = append(lines, v.Problems[:min(n, ProblemsShown)]...)
		if n > ProblemsShown {
			lines = append(lines, fmt.Sprintf("… and %d more; the whole list is in the file.", n-ProblemsShown))
		}
	}
	return lines
}

// some lists the first of many.
func some(names []string) string {
	if len(names) > namesShown {
		return strings.Join(names[:namesShown], ", ") + fmt.Sprintf(" and %d more", len(names)-namesShown)
	}
	return strings.Join(names, ", ")
}

// RowProblem says what is wrong in a row of a file.
func RowProblem(row int, column, text string) string {
	return fmt.Sprintf("Row %d, %s: %s", row, column, Sentence(text))
}

// OrderLabel names a way of reading dates in digits by what 3/4/2026 would be.
func OrderLabel(order string) string {
	if order == "month first" {
		return "4 March (month first)"
	}
	return "3 April (day first)"
}

// Imported says what became of a file.
func Imported(written, known, refused int, bests []string) chat.Message {
	text := "Imported " + Count(written, "set") + "."
	if known > 0 {
		text += " " + Count(known, "set") + " left out: already in the log."
	}
	if refused > 0 {
		text += " " + Count(refused, "row") + " left out: not readable."
	}
	if len(bests) > 0 {
		text += "\nBetter than anything in your log before: " + strings.Join(bests, "; ") + "."
	}
	return chat.Message{Text: text + "\nNothing else of the file is kept."}
}
