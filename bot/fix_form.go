package bot

import (
	"strconv"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/planner/load"
	"blockbell/store"
)

// fixFields are the lines of the form that corrects a set, each one of /log fix's
// options, with what stands there now.
func fixFields(s planner.Set, unit planner.Unit) []chat.FormField {
	effort := ""
	if s.Reserve != nil {
		effort = strconv.FormatFloat(10-*s.Reserve, 'f', -1, 64)
	}
	lift := load.Movement{Lift: s.Lift, Variant: s.Variant}.Name()
	return []chat.FormField{
		{Name: "lift", Label: "Lift", Hint: "with its form: paused squat", Value: lift, Required: true},
		{Name: "weight", Label: "Weight", Hint: "in " + string(unit), Value: s.Weight.Number(unit), Required: true},
		{Name: "reps", Label: "Repetitions made", Value: strconv.Itoa(s.Reps), Required: true},
		{Name: "sets", Label: "Equal sets", Value: strconv.Itoa(s.Sets), Required: true},
		{Name: "effort", Label: "Effort, 10 is all you had; may stay empty", Value: effort},
	}
}

// fixPressed shows the form for a set; where there are no forms, what to write.
func fixPressed(t *turn, b store.Button) (chat.Reply, error) {
	a, s, gone, err := t.recentButton(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if gone {
		return t.pageAgain(a.Skip, "That set is gone already.")
	}
	send, err := t.button("Send", "set.fixed", a, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r := private(chat.Message{Text: render.HowToFix(b.Label, s, t.about.Unit, t.forWhom()), Data: t.logData([]planner.Set{s}, 0, nil, nil)})
	r.Form = &chat.Form{Token: send.Token, Title: "Correct the set of " + s.Day.Short(), Fields: fixFields(s, t.about.Unit)}
	return r, nil
}

// fixSent answers the filled form. Lines that say what stood there change nothing:
// a weight shown in rounded pounds stays what it was.
func fixSent(t *turn, b store.Button) (chat.Reply, error) {
	a, s, gone, err := t.recentButton(b)
	if err != nil {
		return chat.Reply{}, err
	}
	if gone {
		return t.pageAgain(a.Skip, "That set is gone already.")
	}
	if t.command, _, err = t.bot.table.find([]string{"log", "fix"}); err != nil {
		return chat.Reply{}, err
	}
	stood := map[string]string{}
	for _, f := range fixFields(s, t.about.Unit) {
		stood[f.Name] = f.Value
	}
	var changed []chat.Option
	for _, o := range filled(t.event.Options) {
		if o.Value != stood[o.Name] {
			changed = append(changed, o)
		}
	}
	if len(changed) == 0 {
		return t.pageAgain(a.Skip, "Nothing was changed.")
	}
	for _, o := range changed {
		t.options[o.Name] = o.Value
	}
	was := s
	if err := t.applySetOptions(&s); err != nil {
		return chat.Reply{}, err
	}
	if err := t.audit("corrected a set"); err != nil {
		return chat.Reply{}, err
	}
	return t.fix(was, s)
}
