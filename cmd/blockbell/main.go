// Command blockbell is the club bot for powerlifters: it plans blocks between
// meets, reads training logs and says in time what is due.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"
	"time"
	_ "time/tzdata" // time zones also where the machine has no table of its own

	"github.com/alecthomas/kong"

	"blockbell/bot/discord"
	"blockbell/bot/schedule"
	"blockbell/planner"
)

// Exit statuses.
const (
	statusOK     = 0
	statusFailed = 1 // the work could not be done, or a script had bad lines
	statusUsage  = 2 // the command line was not understood
)

func main() { os.Exit(program{}.process()) }

// program is the whole command as a value, so that a test starts what main
// starts.
type program struct {
	now   func() time.Time                         // nil: the wall clock
	ticks func(schedule.Config) (io.Closer, error) // nil: the real minutes
	waits discord.Timing                           // what is zero takes its default
}

// process runs the program as this process: with its arguments and its streams,
// until a signal ends it.
func (p program) process() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the process at once
	return p.Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
}

// place is what a subcommand works in.
type place struct {
	ctx            context.Context
	now            func() time.Time
	ticks          func(schedule.Config) (io.Closer, error)
	waits          discord.Timing
	stdin          io.Reader
	stdout, stderr io.Writer
}

// errBadLines ends with a status but without another word: each bad line has
// been reported where it stood.
var errBadLines = errors.New("the script had bad lines")

// commandLine is the grammar of the command line.
type commandLine struct {
	Rehearse rehearseCommand `cmd:"" help:"Play the bot at a terminal or from a script."`
	Serve    serveCommand    `cmd:"" help:"Answer in a real workspace."`
	Check    checkCommand    `cmd:"" help:"Prove configuration, database, token, intents and rights without starting."`
	Backup   backupCommand   `cmd:"" help:"Copy a database that may be in use."`
	Export   exportCommand   `cmd:"" help:"Print all data of a database."`
	Weeks    weeksCommand    `cmd:"" help:"Print every week of a season: of a lifter given by flags, or of six invented ones."`
	Version  versionCommand  `cmd:"" help:"Print the version."`
}

// Run parses args, runs the subcommand and returns the exit status. When ctx
// ends, the subcommand ends cleanly.
func (p program) Run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if p.now == nil {
		p.now = time.Now
	}
	if p.ticks == nil {
		p.ticks = func(c schedule.Config) (io.Closer, error) { return schedule.Start(c) }
	}
	ended := -1 // set when the help was printed
	parser, err := kong.New(&commandLine{},
		kong.Name("blockbell"),
		kong.Description("A club bot for powerlifters: blocks between meets, training logs, nudges in time."),
		kong.Writers(stdout, stderr),
		kong.Configuration(readSettings),
		kong.Exit(func(status int) { ended = status }),
	)
	if err != nil {
		return report(stderr, err, statusFailed)
	}
	parsed, err := parser.Parse(args)
	if ended >= 0 {
		return ended
	}
	if err != nil {
		status := report(stderr, err, statusUsage)
		fmt.Fprintln(stderr, "hint: blockbell --help lists the commands, blockbell COMMAND --help the flags")
		return status
	}
	err = parsed.Run(&place{ctx: ctx, now: p.now, ticks: p.ticks, waits: p.waits, stdin: stdin, stdout: stdout, stderr: stderr})
	if err != nil {
		return report(stderr, err, statusFailed)
	}
	return statusOK
}

// report prints an error with its hint and returns status.
func report(stderr io.Writer, err error, status int) int {
	if errors.Is(err, errBadLines) || errors.Is(err, errChecks) {
		return status
	}
	fmt.Fprintf(stderr, "blockbell: %v\n", err)
	var known *planner.Error
	if errors.As(err, &known) && known.Hint != "" {
		fmt.Fprintf(stderr, "hint: %s\n", known.Hint)
	}
	return status
}

type versionCommand struct{}

// Run prints the version the program was built as and the Go it was built with.
func (versionCommand) Run(p *place) error {
	version := "(devel)"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	_, err := fmt.Fprintf(p.stdout, "blockbell %s %s\n", version, runtime.Version())
	return err
}
