package bot

import (
	"strconv"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// recentShown is how many sets one page of /log recent shows: each has two buttons,
// and five stand in a row.
const recentShown = 10

// recentReach is the highest number of a set that /log fix and /log drop take.
const recentReach = 500

// recentArgs is what a button under a page carries.
type recentArgs struct {
	Lifter planner.LifterID `json:"lifter"`
	Skip   int              `json:"skip"` // sets on the pages before
	Set    setRef           `json:"set"`  // Fix and Drop
}

// recentSets answers /log recent.
func recentSets(t *turn) (chat.Reply, error) {
	m, err := t.recentPage(0)
	return private(m), err
}

// recentPage is the page of sets after those passed over, with a button to correct
// and one to remove each.
func (t *turn) recentPage(skip int) (chat.Message, error) {
	sets, err := t.tx.RecentPage(t.about.ID, skip, recentShown+1)
	if err != nil {
		return chat.Message{}, err
	}
	more := len(sets) > recentShown
	sets = sets[:min(len(sets), recentShown)]
	m := render.RecentSets(sets, skip, t.today(), t.about.Unit, t.forWhom(), t.logData(sets, 0, nil, nil))
	add := func(label, does string, a recentArgs) {
		if err != nil {
			return
		}
		var b chat.Button
		b, err = t.button(label, does, a, t.speaker)
		m.Buttons = append(m.Buttons, b)
	}
	for _, half := range [][2]int{{0, 5}, {5, recentShown}} {
		for _, does := range [][2]string{{"Fix", "set.fix"}, {"Drop", "set.drop"}} {
			for i := half[0]; i < min(half[1], len(sets)); i++ {
				add(does[0]+" "+strconv.Itoa(skip+i+1), does[1], recentArgs{t.about.ID, skip, setRef{sets[i].Day, sets[i].Seq}})
			}
		}
	}
	if skip > 0 {
		add("Newer", "log.page", recentArgs{Lifter: t.about.ID, Skip: max(skip-recentShown, 0)})
	}
	if more && skip+2*recentShown <= recentReach {
		add("Older", "log.page", recentArgs{Lifter: t.about.ID, Skip: skip + recentShown})
	}
	return m, err
}

// recentButton reads a button of a page and finds its set; gone where somebody has
// removed or moved it meanwhile.
func (t *turn) recentButton(b store.Button) (a recentArgs, s planner.Set, gone bool, err error) {
	if a, err = args[recentArgs](b); err != nil {
		return a, s, false, err
	}
	if err = t.turnTo(a.Lifter); err != nil || a.Set.Seq == 0 {
		return a, s, false, err
	}
	all, err := t.tx.Sets(a.Lifter, a.Set.Day, a.Set.Day)
	for _, s := range all {
		if s.Seq == a.Set.Seq {
			return a, s, false, err
		}
	}
	return a, s, true, err
}

// pageTurned answers 'Older' and 'Newer'.
func pageTurned(t *turn, b store.Button) (chat.Reply, error) {
	a, _, _, err := t.recentButton(b)
	if err != nil {
		return chat.Reply{}, err
	}
	return t.pageAgain(a.Skip, "")
}

// pageAgain shows a page in the place of the one whose button was pressed.
func (t *turn) pageAgain(skip int, news string) (chat.Reply, error) {
	m, err := t.recentPage(skip)
	if news != "" {
		m.Text = news + "\n" + m.Text
	}
	m.Private = true
	return chat.Reply{Kind: chat.Update, Message: m}, err
}

// dropPressed removes the set and shows the page anew, with a way back.
func dropPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, s, gone, err := t.recentButton(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if gone {
		return t.pageAgain(a.Skip, "That set is gone already.")
	}
	message, err := t.tx.MessageOf(a.Lifter, s)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.tx.DropSet(a.Lifter, s.Day, s.Seq, t.speaker.ID, t.now); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("removed a set"); err != nil {
		return chat.Reply{}, err
	}
	r, err := t.pageAgain(a.Skip, "Removed "+render.Set(s, t.about.Unit)+" of "+s.Day.Short()+".")
	if err != nil {
		return r, err
	}
	back, err := t.button("Put it back", "set.answer", setAnswer{Lifter: a.Lifter, Group: t.event.ID + "/back", Message: message, Sets: []planner.Set{s}}, t.speaker)
	if len(r.Message.Buttons) < chat.MaxButtons {
		r.Message.Buttons = append(r.Message.Buttons, back)
	}
	if d, ok := r.Message.Data.(map[string]any); ok {
		d["dropped"] = t.setData([]planner.Set{s})
	}
	return r, err
}
