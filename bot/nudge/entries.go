package nudge

import (
	"fmt"
	"slices"
	"strings"

	"blockbell/bot/render"
)

// mostEntries is how many entries in one post have a button each; beyond that one
// button speaks for all of them.
const mostEntries = 10

// mostNamed is how many lifters one sentence names.
const mostNamed = 12

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

// together gathers the parts of a message, of which one can be about several lifters.
type together struct {
	parts []string
	place map[string]int // what is said to its place among the parts
	who   map[string][]string
}

// add tells what is said about somebody, in a part of its own or with the others it
// holds for; words puts the names in alphabetical order into words.
func (g *together) add(said, name string, words func([]string) string) {
	if g.place == nil {
		g.place, g.who = map[string]int{}, map[string][]string{}
	}
	at, known := g.place[said]
	if !known {
		at, g.parts = len(g.parts), append(g.parts, "")
		g.place[said] = at
	}
	g.who[said] = append(g.who[said], name)
	slices.Sort(g.who[said])
	g.parts[at] = words(g.who[said])
}

// forWards says for whom a text is.
func forWards(names []string) string {
	have := "has"
	if len(names) > 1 {
		have = "have"
	}
	return "For " + render.Some(names, mostNamed) + ", who " + have + " not joined yet: "
}
