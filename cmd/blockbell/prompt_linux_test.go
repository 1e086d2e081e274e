package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// patience bounds the waiting for a program that hangs.
const patience = 20 * time.Second

// openTerminal makes a pseudo-terminal: ours is the end of the person, theirs
// the end of the program.
func openTerminal(t *testing.T) (ours, theirs *os.File) {
	t.Helper()
	ours, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no pseudo-terminals here: %v", err)
	}
	t.Cleanup(func() { ours.Close() })
	if err := unix.IoctlSetPointerInt(int(ours.Fd()), unix.TIOCSPTLCK, 0); err != nil {
		t.Fatal(err)
	}
	n, err := unix.IoctlGetInt(int(ours.Fd()), unix.TIOCGPTN)
	if err != nil {
		t.Fatal(err)
	}
	theirs, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { theirs.Close() })
	return ours, theirs
}

// atTerminal starts the program at a pseudo-terminal and returns a function
// that reads until a text has appeared.
func atTerminal(t *testing.T) (cmd *exec.Cmd, ours *os.File, await func(string)) {
	t.Helper()
	ours, theirs := openTerminal(t)
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd = &exec.Cmd{
		Path: self, Args: []string{"blockbell", "rehearse", "--db", filepath.Join(t.TempDir(), "club.db")},
		Env:   append(os.Environ(), "TERM=xterm"),
		Stdin: theirs, Stdout: theirs, Stderr: theirs, SysProcAttr: &syscall.SysProcAttr{Setsid: true, Setctty: true},
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	timer := time.AfterFunc(patience, func() { cmd.Process.Kill(); theirs.Close(); ours.Close() })
	t.Cleanup(func() { timer.Stop() })
	seen := ""
	return cmd, ours, func(text string) {
		t.Helper()
		part := make([]byte, 4096)
		for !strings.Contains(seen, text) {
			n, err := ours.Read(part)
			if err != nil {
				t.Fatalf("waiting for %q: %v, after %q", text, err, seen)
			}
			seen += string(part[:n])
		}
		_, seen, _ = strings.Cut(seen, text)
	}
}

func TestPromptAtARealTerminal(t *testing.T) {
	for name, end := range map[string]string{"ctrl-d": "\x04", "ctrl-c": "\x03"} {
		t.Run(name, func(t *testing.T) {
			cmd, ours, await := atTerminal(t)
			await("Ctrl-D ends")
			await("> ")
			ours.WriteString("sho\r")
			await("not understood")
			await("> ")
			ours.WriteString("@ana squat\\\r")
			await(". ")
			ours.WriteString("/help\r")
			await("> ")
			ours.WriteString(end)
			if err := cmd.Wait(); err != nil {
				t.Errorf("it ended with %v", err)
			}
		})
	}
}

func TestTerminateAtThePromptEndsCleanly(t *testing.T) {
	cmd, _, await := atTerminal(t)
	await("> ")
	if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("it ended with %v", err)
	}
}
