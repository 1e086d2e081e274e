package discord

import (
	"context"
	"strings"

	"blockbell/bot/chat"
)

// typingMost bounds the suggestions that are made at once. One more is left out:
// the person types on and asks again with the next letter.
const typingMost = 32

func (a *Adapter) suggestBeside(in interaction) {
	select {
	case a.typing <- struct{}{}:
	default:
		return
	}
	a.beside(in.ID, func(ctx context.Context) {
		defer func() { <-a.typing }()
		a.suggest(ctx, in)
	})
}

// suggest answers somebody who is typing an option. Late suggestions are worth
// nothing, so there is one time limit and no second try.
func (a *Adapter) suggest(ctx context.Context, in interaction) {
	ctx, cancel := context.WithTimeout(ctx, a.Timing.Answer)
	defer cancel()
	option, typed, ok := focused(in.Data.Options)
	if !ok {
		return
	}
	words := a.fixedChoices(in, option, typed)
	if words == nil && a.Suggester != nil && (in.GuildID == "" || a.isHome(in.GuildID)) {
		e := a.eventOf(ctx, in)
		e.Kind = chat.Asked
		e.Command, e.Options = a.command(in)
		var err error
		if words, err = a.Suggester.Suggest(ctx, e, option, typed); err != nil {
			a.Log.Error("no suggestions could be made", "event", in.ID, "error", err)
		}
	}
	_, err := a.rest.do(ctx, request{
		method: "POST", path: "/interactions/" + in.ID + "/" + in.Token + "/callback",
		body: callback{Type: callbackSuggest, Data: map[string]any{"choices": choicesOf(words)}},
	}, nil)
	if err != nil && ctx.Err() == nil && !coded(err, codeUnknownInteraction, codeAcknowledged) {
		a.Log.Warn("suggestions were not delivered", "event", in.ID, "error", err)
	}
}

// focused finds the option that is being typed.
func focused(given []givenOption) (name, typed string, ok bool) {
	for _, o := range given {
		if o.Focused {
			return o.Name, o.text(), true
		}
		if name, typed, ok := focused(o.Options); ok {
			return name, typed, true
		}
	}
	return "", "", false
}

// fixedChoices are the words of an option that has more of them than the platform
// shows in a list; nil for other options.
func (a *Adapter) fixedChoices(in interaction, option, typed string) []string {
	words, _ := a.command(in)
	for _, c := range a.Commands {
		if c.Name != words[0] || c.Sub != strings.Join(words[1:], " ") {
			continue
		}
		for _, p := range c.Params {
			if p.Name == option && len(p.Choices) > 0 {
				return containing(p.Choices, typed)
			}
		}
	}
	return nil
}

// containing keeps the words with the typed text in them.
func containing(words []string, typed string) []string {
	found := []string{}
	for _, w := range words {
		if strings.Contains(strings.ToLower(w), strings.ToLower(strings.TrimSpace(typed))) {
			found = append(found, w)
		}
	}
	return found
}

// choicesOf keeps what the platform takes: 25 different words of at most 100
// characters. A longer one would come back cut and mean nothing.
func choicesOf(words []string) []choice {
	all := []choice{}
	seen := map[string]bool{}
	for _, w := range words {
		if len(all) == maxOptions {
			break
		}
		if w == "" || length(w) > maxChoice || seen[w] {
			continue
		}
		seen[w] = true
		all = append(all, choice{Name: w, Value: w})
	}
	return all
}
