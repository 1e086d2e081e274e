package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"github.com/alecthomas/kong"

	"blockbell/bot"
	"blockbell/bot/discord"
	"blockbell/planner"
	"blockbell/store"
)

// checkCommand proves, without starting and without writing anything, that
// configuration, database, token, intents and rights are as they should be.
type checkCommand struct {
	platformFlags
}

// errChecks ends with a status but without another word: each finding was told.
var errChecks = errors.New("the check found something")

// Run prints the settings, what it looked at, and what to click where something is amiss.
func (c *checkCommand) Run(p *place, parsed *kong.Context) error {
	settings, err := effectiveSettings(parsed, string(c.Config))
	if err != nil {
		return err
	}
	writeSettings(p.stdout, append(settings, c.tokenSetting()))
	ok := true
	tell := func(good bool, what, fix string) {
		ok = ok && good
		writeFinding(p.stdout, good, what, fix)
	}
	club, err := c.database(p.ctx)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		tell(true, "database "+c.DB+": not there yet; serve makes it", "")
	case err != nil:
		hint := ""
		var known *planner.Error
		if errors.As(err, &known) {
			hint = known.Hint
		}
		tell(false, "database: "+err.Error(), hint)
	default:
		tell(true, "database "+c.DB+": whole, made for the platform", "")
	}
	token, err := c.token()
	if err != nil {
		tell(false, err.Error(), "Copy the token from the developer portal, page Bot, into "+tokenVariable+" or a token file.")
		return errChecks
	}
	found, err := discord.Check(p.ctx, discord.Config{Token: token, API: c.API, Guild: c.Guild, Content: true, Commands: bot.Specs(), Now: p.now},
		club.LogChannel, club.NudgeChannel)
	for _, f := range found {
		tell(f.OK, f.What, f.Fix)
	}
	if err != nil {
		return err
	}
	if !ok {
		return errChecks
	}
	return nil
}

// database checks the database and returns the club's settings.
func (c *checkCommand) database(ctx context.Context) (store.Club, error) {
	club := store.DefaultClub()
	s, err := store.OpenForReading(ctx, c.DB)
	if err != nil {
		return club, err
	}
	defer s.Close()
	if err := errors.Join(s.BelongsTo(ctx, store.Platform), s.Check(ctx)); err != nil {
		return club, err
	}
	err = s.View(ctx, func(tx *store.Tx) (err error) {
		club, err = tx.Club()
		return err
	})
	return club, err
}

func writeFinding(out io.Writer, good bool, what, fix string) {
	mark := "ok     "
	if !good {
		mark = "to do  "
	}
	fmt.Fprintln(out, mark+what)
	if fix != "" {
		fmt.Fprintln(out, "       "+fix)
	}
}
