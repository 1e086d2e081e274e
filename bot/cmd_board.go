package bot

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// boardOrders are the ways in which the board can be sorted.
var boardOrders = []string{"look", "meet", "days", "name"}

// boardAsk is which part of the board is shown; its buttons carry it.
type boardAsk struct {
	Sort  string `json:"sort"`
	Group string `json:"group,omitempty"`
	Page  int    `json:"page"`
}

// boardParams are what /club board takes.
func boardParams() []Param {
	return []Param{
		{Name: "sort", About: "look: who needs a look first; meet: nearest meet; days: fewest days left; name", Choices: boardOrders},
		{Name: "group", About: "one group only"},
		{Name: "page", About: "which page, from 1"},
	}
}

// showBoard answers /club board: everybody at a glance, for the captain's eyes.
func showBoard(t *turn) (chat.Reply, error) {
	ask := boardAsk{Sort: cmp.Or(t.options["sort"], boardOrders[0]), Group: parse.Clean(t.options["group"])}
	if text, given := t.options["page"]; given {
		page, err := wholeNumber("page", text, 1, 1000)
		if err != nil {
			return chat.Reply{}, err
		}
		ask.Page = page - 1
	}
	return t.board(ask)
}

// boardTurned answers the buttons under the board: another page or order takes the
// place of the one shown.
func boardTurned(t *turn, b store.Button) (chat.Reply, error) {
	ask, err := args[boardAsk](b)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.board(ask)
	r.Kind = chat.Update
	return r, err
}

func (t *turn) board(ask boardAsk) (chat.Reply, error) {
	rows, waiting, err := t.boardRows(ask.Group)
	if err != nil {
		return chat.Reply{}, err
	}
	if len(rows) == 0 && ask.Group != "" {
		return chat.Reply{}, planner.Errorf(planner.NotFound, "Groups are set with /club assign.", "Nobody is in the group %q", ask.Group)
	}
	slices.SortStableFunc(rows, boardOrder(ask.Sort))
	v := render.BoardView{Rows: rows, Today: t.dayOf(planner.Lifter{}, t.now)}
	v.Page = min(ask.Page, v.Pages()-1)
	ask.Page = v.Page
	m := render.Board(v)
	m.Buttons, err = t.boardButtons(ask, v.Pages(), waiting)
	return private(m), err
}

// boardRows reads everybody, or one group, and tells whether a block waits.
func (t *turn) boardRows(group string) (rows []render.BoardRow, waiting bool, err error) {
	all, err := t.tx.Lifters()
	if err != nil {
		return nil, false, err
	}
	for _, l := range all {
		if group != "" && !strings.EqualFold(l.Group, group) {
			continue
		}
		c, err := t.course(l)
		if err != nil {
			return nil, false, err
		}
		row, err := t.boardRow(c)
		if err != nil {
			return nil, false, err
		}
		row.Blocks, row.Meets = c.agreed.Season.Blocks, c.meets
		waiting = waiting || c.at.Waiting >= 0 && !row.Left
		rows = append(rows, row)
	}
	return rows, waiting, nil
}

// boardOrder compares rows: what is missing comes last, then names decide. Who has left
// comes behind everybody.
func boardOrder(by string) func(a, b render.BoardRow) int {
	key := func(r render.BoardRow) int {
		if r.Left {
			return math.MaxInt
		}
		switch by {
		case "meet":
			return orLast(r.MeetDays)
		case "days":
			return orLast(r.DaysLeft)
		case "look":
			if len(r.Flags) == 0 {
				return 1
			}
		}
		return 0
	}
	return func(a, b render.BoardRow) int {
		return cmp.Or(cmp.Compare(key(a), key(b)), strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), strings.Compare(a.Handle, b.Handle))
	}
}

func orLast(n *int) int {
	if n == nil {
		return 1 << 30
	}
	return *n
}

// boardButtons turn the page, change the order, and begin what waits.
func (t *turn) boardButtons(ask boardAsk, pages int, waiting bool) ([]chat.Button, error) {
	type offer struct {
		label, does string
		args        any
	}
	var offers []offer
	if waiting {
		offers = append(offers, offer{"Begin all that wait", "block.beginall", struct{}{}})
	}
	if ask.Page > 0 {
		offers = append(offers, offer{"Page before", "board.show", boardAsk{ask.Sort, ask.Group, ask.Page - 1}})
	}
	if ask.Page+1 < pages {
		offers = append(offers, offer{"Next page", "board.show", boardAsk{ask.Sort, ask.Group, ask.Page + 1}})
	}
	for _, by := range boardOrders {
		if by != ask.Sort {
			offers = append(offers, offer{"Sort by " + by, "board.show", boardAsk{by, ask.Group, 0}})
		}
	}
	var buttons []chat.Button
	for _, o := range offers {
		b, err := t.button(o.label, o.does, o.args, t.speaker)
		if err != nil {
			return nil, err
		}
		buttons = append(buttons, b)
	}
	return buttons, nil
}
