package bot

import (
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/parse"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// formFields are the lines of the profile's form, each one of /me set's options.
// Every line may stay empty.
func formFields(l planner.Lifter) []chat.FormField {
	mass := func(g planner.Grams) string {
		if g == 0 {
			return ""
		}
		return g.Number(l.Unit)
	}
	born := ""
	if !l.Born.IsZero() {
		born = l.Born.String()
	}
	return []chat.FormField{
		{Name: "squat", Label: "Best squat", Hint: "in " + string(l.Unit) + "; about is fine, empty too", Value: mass(l.Squat)},
		{Name: "bench", Label: "Best bench press", Hint: "in " + string(l.Unit) + "; about is fine, empty too", Value: mass(l.Bench)},
		{Name: "deadlift", Label: "Best deadlift", Hint: "in " + string(l.Unit) + "; about is fine, empty too", Value: mass(l.Deadlift)},
		{Name: "bodyweight", Label: "Bodyweight, if you like", Hint: "only you and your coach see it", Value: mass(l.Bodyweight)},
		{Name: "born", Label: "Date of birth, or: 18 or over", Hint: "for example 1996-05-14", Value: born},
	}
}

// showForm answers the button 'Fill in' under a profile.
func showForm(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[lifterArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	hidden, err := t.bodyHidden()
	if err != nil {
		return chat.Reply{}, err
	}
	send, err := t.button("Send", "me.save", a, t.speaker)
	if err != nil {
		return chat.Reply{}, err
	}
	r := private(chat.Message{Text: "Tell me what you like, for example: /me set squat:120 bench:70 deadlift:145 bodyweight:62.5"})
	r.Form = &chat.Form{Token: send.Token, Title: "About " + render.Called(t.about), Fields: formFields(masked(t.about, hidden))}
	return r, nil
}

// saveForm answers the filled form as if its lines had been typed after /me set.
func saveForm(t *turn, b store.Button) (chat.Reply, error) {
	a, err := args[lifterArgs](b)
	if err != nil {
		return chat.Reply{}, err
	}
	if err := t.turnTo(a.Lifter); err != nil {
		return chat.Reply{}, err
	}
	if t.command, _, err = t.bot.table.find([]string{"me", "set"}); err != nil {
		return chat.Reply{}, err
	}
	if err := t.takeOptions(filled(t.event.Options), nil); err != nil {
		return chat.Reply{}, err
	}
	r, err := setProfile(t)
	if err != nil {
		return chat.Reply{}, err
	}
	return r, t.askStyles(&r.Message, t.about)
}

// filled leaves out the lines of a form that say nothing, and the answer that
// only says somebody is grown up: no date is kept for it.
func filled(lines []chat.Option) []chat.Option {
	var out []chat.Option
	for _, o := range lines {
		v := strings.TrimSpace(o.Value)
		grown := o.Name == "born" && strings.HasPrefix(parse.Clean(v), "18")
		if v != "" && !grown {
			out = append(out, chat.Option{Name: o.Name, Value: v})
		}
	}
	return out
}
