package nudge

import (
	"fmt"
	"strings"

	"blockbell/bot/render"
)

// mostEntries is how many entries in one post have a button each; beyond that one
// button speaks for all of them.
const mostEntries = 10

// mostWards is how many lifters one sentence names.
const mostWards = 12

// someEntered says how to tell of single entries where they have no button each.
const someEntered = "Not all of them? /meet papers with lifter: and entered:yes tells of one."

// answer is a button and what it settles.
type answer struct {
	offer   Offer
	settles []Settles
}

// entries are the buttons under the entries that one post tells of. An entry that was
// never made cannot be made up for, so that no button but the one that says so speaks
// of more than one: each says whose it is where it is not the reader's own, and for
// which meet where there are several.
func (d *draft) entries() (out []answer) {
	var told []*Nudge
	meets := map[string]bool{}
	for i := range d.nudges {
		if n := &d.nudges[i]; n.Kind == EntryCloses {
			told = append(told, n)
			meets[strings.ToLower(n.Meet.Name)] = true
		}
	}
	var all []Settles
	for _, n := range told {
		s := n.settles(entered)
		all = appendNew(all, s)
		if len(told) <= mostEntries {
			out = append(out, answer{Offer{n.entryLabel(len(meets) > 1), entered.Action}, []Settles{s}})
		}
	}
	if len(all) > 1 {
		out = append(out, answer{Offer{fmt.Sprintf("All %d are entered", len(all)), entered.Action}, all})
	}
	return out
}

// entryLabel says who is entered, and where that is to be said for which meet.
func (n *Nudge) entryLabel(meet bool) string {
	label := entered.Label
	if n.Ward.ID != 0 {
		label = called(render.Called(n.Ward)) + " is entered"
	}
	if meet {
		label += ": " + called(n.Meet.Name)
	}
	return label
}

// wardTexts gathers what is told of lifters who have not joined: one text names
// everybody it holds for.
type wardTexts struct {
	place map[string]int // a text to its place among the parts
	who   map[string][]string
}

// add tells a text about the nudge's ward, in a part of its own or with the others it
// holds for.
func (w *wardTexts) add(parts []string, n *Nudge, text string) []string {
	if w.place == nil {
		w.place, w.who = map[string]int{}, map[string][]string{}
	}
	at, known := w.place[text]
	if !known {
		at, parts = len(parts), append(parts, "")
		w.place[text] = at
	}
	w.who[text] = append(w.who[text], called(render.Called(n.Ward)))
	parts[at] = forWards(w.who[text]) + text
	return parts
}

// forWards says for whom a text is.
func forWards(names []string) string {
	have := "has"
	if len(names) > 1 {
		have = "have"
	}
	return "For " + render.Some(names, mostWards) + ", who " + have + " not joined yet: "
}
