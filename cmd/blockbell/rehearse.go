package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"blockbell/bot"
	"blockbell/bot/chat"
	"blockbell/bot/nudge"
	"blockbell/bot/terminal"
	"blockbell/store"
)

// rehearseCommand plays the bot without any platform.
type rehearseCommand struct {
	Script  string   `arg:"" optional:"" help:"File of lines to play; - or none reads standard input."`
	DB      string   `name:"db" placeholder:"FILE" help:"Database. Default: a temporary one with a script, otherwise rehearse.db in the state folder ($$XDG_STATE_HOME/blockbell)."`
	JSON    bool     `name:"json" help:"Print one JSON object a line for everything the bot does."`
	Captain []string `default:"cap" placeholder:"NAME" help:"Who is captain, instead of @cap. Can be repeated."`
	Out     string   `placeholder:"DIR" help:"Folder for pictures and other files. Default: beside the database."`
}

// Help is printed below the flags.
func (rehearseCommand) Help() string {
	return `Lines of a script:

  # a comment
  clock 2027-01-04T08:00:00Z   set the clock; later lines walk it on
  clock +14d                   w, d, h, m
  @ana squat 140x5 @8          @ana says something in #training-log
  @ana /season build           a command
  #announcements @cap hello    the same in another channel
  press @ana "Accept plan"     press a button
  edit @ana squat 142.5x5      change her newest message
  delete @ana                  remove it
  @ana /log import file:a.csv  a command with a file from the disk

A line that ends in a backslash goes on in the next. A script file with a line
that is not understood is played to its end and then gives exit status 1.`
}

// Validate refuses captains that nobody can be: it is called when the flags are
// read, so that they count as wrong use.
func (r *rehearseCommand) Validate() error {
	for _, name := range r.Captain {
		plain := strings.TrimPrefix(name, "@")
		if plain == "" || strings.ContainsFunc(plain, unicode.IsSpace) {
			return fmt.Errorf("--captain=%q names nobody: write one name without blanks, such as cap", name)
		}
	}
	if len(r.Captain) == 0 {
		return errors.New("--captain names nobody: write one name without blanks, such as cap")
	}
	return nil
}

// Run plays the script, standard input, or what is typed at a prompt.
func (r *rehearseCommand) Run(p *place) (err error) {
	lines, closeLines, err := r.lines(p)
	if err != nil {
		return err
	}
	defer closeLines()
	home, err := r.findHome()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, home.leave(p.stderr)) }()
	s, err := store.Open(context.WithoutCancel(p.ctx), home.db, store.Options{World: store.Terminal, Now: p.now()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()

	screen := &terminal.Screen{Writer: p.stdout, JSON: r.JSON, Echo: !atPrompt(p), Dir: home.files}
	t := r.terminal(p, s, screen)
	if err := t.Play(p.ctx, lines); err != nil {
		return r.stopped(p, err)
	}
	if r.fromFile() && t.Complaints() > 0 {
		return errBadLines
	}
	return nil
}

// terminal joins the parts: the bot answers, the runner posts, both over one
// store, and the terminal stands where a platform would.
func (r *rehearseCommand) terminal(p *place, s *store.Store, screen *terminal.Screen) *terminal.Terminal {
	log := slog.New(slog.NewTextHandler(p.stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	captains := make([]string, len(r.Captain))
	for i, name := range r.Captain {
		captains[i] = strings.ToLower(strings.TrimPrefix(name, "@"))
	}
	kept := memory{s}
	talk := bot.New(bot.Config{Store: s, Captains: captains, Log: log})
	return &terminal.Terminal{
		Handler: talk,
		Runner:  &keeping{Runner: &nudge.Runner{Store: s, Poster: &terminal.Poster{Memory: kept, Screen: screen}, Log: log, Weekly: talk.Weekly, Read: talk.ReadLog}},
		Memory:  kept, Screen: screen, Captains: captains, Wall: p.now, Log: log,
		Commands: bot.Specs(), ReadFile: readFile,
	}
}

// readFile reads a file that somebody attaches to a command; one that is too large
// is read just so far that this shows.
func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, chat.MaxFileBytes+1))
}

func (r *rehearseCommand) fromFile() bool { return r.Script != "" && r.Script != "-" }

// lines opens what is to be played.
func (r *rehearseCommand) lines(p *place) (lines terminal.Lines, closeLines func() error, err error) {
	nothing := func() error { return nil }
	switch {
	case r.fromFile():
		f, err := os.Open(r.Script)
		if err != nil {
			return nil, nothing, fmt.Errorf("the script cannot be read: %w", err)
		}
		return terminal.ReadLines(f), f.Close, nil
	case atPrompt(p):
		lines, closeLines := prompt(p.stdout)
		return lines, closeLines, nil
	}
	return terminal.ReadLines(p.stdin), nothing, nil
}

// stopped judges why a play ended early. A signal is the usual way to end one
// that reads standard input; a script that was not played out has failed.
func (r *rehearseCommand) stopped(p *place, err error) error {
	if p.ctx.Err() != nil && !r.fromFile() {
		return nil
	}
	return fmt.Errorf("the play ended early: %w", err)
}

// home is where a rehearsal keeps its things.
type home struct {
	db, files string
	temporary string // a folder to remove in the end, empty for none
}

func (r *rehearseCommand) findHome() (home, error) {
	h := home{db: r.DB, files: r.Out}
	switch {
	case h.db != "":
	case r.fromFile():
		folder, err := os.MkdirTemp("", "blockbell-")
		if err != nil {
			return h, err
		}
		h.temporary = folder
		h.db = filepath.Join(folder, "rehearse.db")
		if h.files == "" {
			h.files = filepath.Join(folder, "files")
		}
	default:
		db, err := defaultDB()
		if err != nil {
			return h, err
		}
		h.db = db
	}
	if h.files == "" {
		h.files = filepath.Dir(h.db)
	}
	return h, nil
}

// leave removes a temporary home and says so if files went with it.
func (h home) leave(stderr io.Writer) error {
	if h.temporary == "" {
		return nil
	}
	if lost, err := os.ReadDir(filepath.Join(h.temporary, "files")); err == nil && len(lost) > 0 {
		fmt.Fprintln(stderr, "blockbell: pictures and other files went with the temporary database; --out DIR keeps them")
	}
	return os.RemoveAll(h.temporary)
}

// defaultDB is the database of rehearsals in the user's state folder.
func defaultDB() (string, error) {
	state := os.Getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(state) { // the convention has relative ones ignored
		user, err := os.UserHomeDir()
		if err != nil {
			return "", fmt.Errorf("no place for the database: %w; name one with --db", err)
		}
		state = filepath.Join(user, ".local", "state")
	}
	return filepath.Join(state, "blockbell", "rehearse.db"), nil
}
