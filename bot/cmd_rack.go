package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// rackPage is how many lifters a page of the day's sheet shows.
const rackPage = 8

// rackAsk is which sheet is meant.
type rackAsk struct {
	Group string `json:"group"`
	Page  int    `json:"page"`
}

// showRack answers /club today: who trains today, and what is on the bar.
func showRack(t *turn) (chat.Reply, error) {
	return t.rack(rackAsk{Group: parse.Clean(t.options["group"])})
}

// rackTurned answers the buttons under the sheet.
func rackTurned(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[rackAsk](b)
	if err != nil {
		return chat.Reply{}, err
	}
	r, err := t.rack(a)
	r.Kind = chat.Update
	return r, err
}

func (t *turn) rack(a rackAsk) (chat.Reply, error) {
	all, err := t.atTheRacks(a.Group)
	if err != nil {
		return chat.Reply{}, err
	}
	day := t.dayOf(planner.Lifter{}, t.now)
	if len(all) == 0 {
		return private(chat.Message{Title: "Today", Text: "Nobody has a session today, as far as I plan the weeks.",
			Data: map[string]any{"today": day, "lifters": []any{}, "count": 0}}), nil
	}
	v := render.RackView{Day: day, All: len(all), Of: (len(all) + rackPage - 1) / rackPage}
	v.Page = max(0, min(a.Page, v.Of-1))
	v.Lifters = all[v.Page*rackPage : min(len(all), (v.Page+1)*rackPage)]
	m := render.Rack(v)
	for _, turned := range []struct {
		label string
		page  int
	}{{"Page before", v.Page - 1}, {"Next page", v.Page + 1}} {
		if turned.page < 0 || turned.page >= v.Of {
			continue
		}
		b, err := t.button(turned.label, "rack.show", rackAsk{a.Group, turned.page}, t.speaker)
		if err != nil {
			return chat.Reply{}, err
		}
		m.Buttons = append(m.Buttons, b)
	}
	return private(m), nil
}

// atTheRacks lists who has a session on their own day today, and keeps their weeks as
// shown: what hangs on the wall does not change during the session.
func (t *turn) atTheRacks(group string) (out []render.RackLifter, err error) {
	all, err := t.tx.Members()
	if err != nil {
		return nil, err
	}
	found := group == ""
	err = t.each(all, func(l planner.Lifter) error {
		if group != "" && !strings.EqualFold(l.Group, group) {
			return nil
		}
		found = true
		r, trains, err := t.atTheRack(l)
		if trains {
			out = append(out, r)
		}
		return err
	})
	if err == nil && !found {
		err = planner.Errorf(planner.NotFound, "/club groups lists them.", "Nobody is in the group %q", group)
	}
	return out, err
}

func (t *turn) atTheRack(l planner.Lifter) (render.RackLifter, bool, error) {
	c, err := t.course(l)
	if err != nil || !c.has {
		return render.RackLifter{}, false, err
	}
	w, none, err := t.weekFor(c, c.today)
	if err != nil || none != nil {
		return render.RackLifter{}, false, err
	}
	d, trains := w.plan.On(c.today)
	if !trains {
		return render.RackLifter{}, false, nil
	}
	if err := t.keepWeek(&w); err != nil {
		return render.RackLifter{}, false, err
	}
	return render.RackLifter{Name: render.Called(l), Week: t.weekView(w), Day: d}, true, nil
}
