package discordtest

import (
	"context"
	"errors"
	"fmt"
	"slices"
)

// ErrNoResponse is what waiting ends with when the bot let a deadline pass: the
// person reads that the application did not respond.
var ErrNoResponse = errors.New("discordtest: the application did not respond")

// wait blocks until ok, which is called with the lock held.
func (a *Action) wait(ctx context.Context, what string, ok func() bool) error {
	if a.err != nil {
		return a.err
	}
	late := false
	err := a.srv.Until(ctx, func() bool {
		a.srv.mu.Lock()
		defer a.srv.mu.Unlock()
		if ok() {
			return true
		}
		late = a.late()
		return late
	})
	if late {
		err = ErrNoResponse
	}
	if err != nil {
		return fmt.Errorf("interaction %s of %s got no %s: %w", a.ID, a.user.Name, what, err)
	}
	return nil
}

// late tells whether the bot can bring nothing more: it has let the first
// answer's deadline pass, or the end of the token without ending a deferral.
func (a *Action) late() bool {
	age := a.srv.Now().Sub(a.made)
	return a.callback == 0 && age > firstAnswer || age > tokenLife
}

// Await blocks until the bot gave its first answer, of whatever type, and
// returns the type.
func (a *Action) Await(ctx context.Context) (int, error) {
	err := a.wait(ctx, "answer", func() bool { return a.callback != 0 })
	if err != nil {
		return 0, err
	}
	return a.Callback(), nil
}

// AwaitMessage blocks until the bot's message is there: the answer itself, the
// edit that ends a deferral, or the message whose button was pressed.
func (a *Action) AwaitMessage(ctx context.Context) (Message, error) {
	var m Message
	err := a.wait(ctx, "message", func() bool {
		if a.original == nil || a.original.Flags&Loading != 0 || a.callback == 6 && a.original.Edits == a.edits {
			return false
		}
		m = a.original.copy()
		return true
	})
	return m, err
}

// AwaitFollowUps blocks until there are n messages besides the original one.
func (a *Action) AwaitFollowUps(ctx context.Context, n int) ([]Message, error) {
	var list []Message
	err := a.wait(ctx, "follow-up", func() bool {
		list = list[:0]
		for _, m := range a.messages {
			if m != a.original {
				list = append(list, m.copy())
			}
		}
		return len(list) >= n
	})
	return list, err
}

// AwaitForm blocks until the bot shows a form.
func (a *Action) AwaitForm(ctx context.Context) (Form, error) {
	err := a.wait(ctx, "form", func() bool { return a.form != nil })
	if err != nil {
		return Form{}, err
	}
	return *a.form, nil
}

// AwaitChoices blocks until the bot suggested values.
func (a *Action) AwaitChoices(ctx context.Context) ([]Choice, error) {
	err := a.wait(ctx, "suggestions", func() bool { return a.callback == 8 })
	return slices.Clone(a.choices), err
}
