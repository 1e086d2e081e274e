package store

import (
	"encoding/json"
	"time"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

// Button is what a button under a message does when it is pressed. It is kept
// here and not on the platform, so that it works after a restart and cannot be
// forged.
type Button struct {
	Token   string // unguessable, chosen by the caller
	Label   string
	Owner   planner.LifterID // who may press; 0: anyone
	Action  string
	Args    json.RawMessage
	Made    time.Time
	Expires time.Time // zero: never
}

// AddButton keeps a button; Conflict where the token is taken.
func (t *Tx) AddButton(b Button) error {
	err := t.q.AddButton(t.ctx, sqlgen.AddButtonParams{
		Token: b.Token, Label: b.Label, OwnerID: column.Lifter(b.Owner), Action: b.Action, ArgsJson: column.JSON(b.Args),
		MadeMs: column.At(b.Made), ExpiresMs: column.At(b.Expires),
	})
	switch {
	case taken(err):
		return planner.Errorf(planner.Conflict, "", "a button with this token exists already")
	case dangling(err):
		return noLifter(b.Owner)
	}
	return err
}

// Button returns the button with that token, expired or not, if there is one.
func (t *Tx) Button(token string) (Button, bool, error) {
	r, err := t.q.Button(t.ctx, token)
	if absent(err) {
		return Button{}, false, nil
	}
	if err != nil {
		return Button{}, false, err
	}
	return Button{
		Token: r.Token, Label: r.Label, Owner: r.OwnerID.ID(), Action: r.Action, Args: r.ArgsJson.Raw(),
		Made: r.MadeMs.Time, Expires: r.ExpiresMs.Time,
	}, true, nil
}

// UseButton marks the button as pressed by one lifter and tells whether that was
// the first time. NotFound where the button or the lifter does not exist.
func (t *Tx) UseButton(token string, by planner.LifterID, now time.Time) (bool, error) {
	n, err := t.q.UseButton(t.ctx, sqlgen.UseButtonParams{Token: token, LifterID: by, UsedMs: column.At(now)})
	if dangling(err) {
		return false, planner.Errorf(planner.NotFound, "Ask for a fresh one.", "this button is no longer known")
	}
	return n == 1, err
}

// ForgetButtons deletes the buttons that expired before a moment and returns how
// many they were.
func (t *Tx) ForgetButtons(before time.Time) (int, error) {
	n, err := t.q.ForgetButtons(t.ctx, column.At(before))
	return int(n), err
}
