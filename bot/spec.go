package bot

import (
	"context"
	"slices"
	"strings"

	"blockbell/bot/chat"
	"blockbell/bot/render"
	"blockbell/planner"
	"blockbell/store"
)

// suggestions is how many values are offered at once; platforms show no more.
const suggestions = 25

var _ chat.Suggester = (*Bot)(nil)

// Specs describes every command the way a platform registers it.
func Specs() []chat.Command {
	var out []chat.Command
	for _, c := range commands() {
		spec := chat.Command{Name: c.Name, Sub: c.Sub, About: c.About, Captain: c.Who == CaptainOnly}
		for _, p := range c.params() {
			spec.Params = append(spec.Params, chat.Param{Name: p.Name, About: p.About, Required: p.Required, Choices: p.Choices, Suggests: c.suggests(p.Name), File: p.File})
		}
		out = append(out, spec)
	}
	return out
}

// suggests tells whether values of an option can be offered from the database.
func (c Command) suggests(option string) bool {
	return option == "lifter" || c.Name == "meet" && option == "name" && c.Sub != "add"
}

// Suggest offers the speaker's own meets, and to a captain or coach the lifters
// they may speak for. It answers nothing to people who have not joined.
func (b *Bot) Suggest(ctx context.Context, e chat.Event, option, typed string) ([]string, error) {
	var all []string
	err := b.store.Glance(ctx, func(tx *store.Tx) error {
		all = nil
		speaker, ok, err := tx.LifterByHandle(e.Author.ID)
		if err != nil || !ok {
			return err
		}
		if option == "lifter" {
			all, err = namesFor(tx, speaker)
			return err
		}
		meets, err := tx.Meets(speaker.ID)
		for _, m := range meets {
			all = append(all, m.Name)
		}
		return err
	})
	return matching(all, typed), err
}

// namesFor lists the lifters that somebody may speak for, those who have left last.
func namesFor(tx *store.Tx, speaker planner.Lifter) ([]string, error) {
	lifters, err := tx.Lifters()
	if err != nil {
		return nil, err
	}
	here, err := tx.Members()
	var out, left []string
	for _, l := range lifters {
		switch mine := speaker.Captain || l.Coach == speaker.ID || l.ID == speaker.ID; {
		case mine && slices.Contains(here, l):
			out = append(out, render.Called(l))
		case mine:
			left = append(left, render.Called(l))
		}
	}
	return append(out, left...), err
}

// matching keeps what contains the typed text, without regard to case.
func matching(all []string, typed string) []string {
	var out []string
	typed = strings.ToLower(strings.TrimSpace(typed))
	for _, s := range all {
		if strings.Contains(strings.ToLower(s), typed) && len(out) < suggestions {
			out = append(out, s)
		}
	}
	return out
}
