package main

import (
	"errors"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"
)

// laterProgram is the name under which this test binary is blockbell with a clock
// that is ahead by what laterVariable says.
const (
	laterProgram  = "blockbell-later"
	laterVariable = "BLOCKBELL_TEST_LATER"
)

// mainLater is main with a clock that is ahead.
func mainLater() {
	ahead, err := time.ParseDuration(os.Getenv(laterVariable))
	if err != nil {
		panic(err)
	}
	os.Exit(program{now: func() time.Time { return time.Now().Add(ahead) }}.process())
}

// process is blockbell serve in a process of its own.
type process struct {
	t        *testing.T
	cmd      *exec.Cmd
	out, err *written
	done     chan struct{} // closed when it ended
}

// launch starts serve on the emulated platform, at the platform's moment. All it is
// told stands in its environment.
func (s *serving) launch() *process {
	s.t.Helper()
	return s.started("", []string{"serve"}, "BLOCKBELL_TOKEN="+s.srv.Token(), "BLOCKBELL_API="+s.srv.URL(),
		"BLOCKBELL_DB="+s.db, "BLOCKBELL_LOG_LEVEL=DEBUG")
}

// started starts the real program in a folder, with these arguments and variables
// and no other that it reads.
func (s *serving) started(folder string, args []string, environment ...string) *process {
	s.t.Helper()
	self, err := os.Executable()
	if err != nil {
		s.t.Fatal(err)
	}
	p := &process{t: s.t, out: newWritten(), err: newWritten(), done: make(chan struct{})}
	p.cmd = &exec.Cmd{Path: self, Args: append([]string{laterProgram}, args...), Dir: folder, Stdout: p.out, Stderr: p.err}
	p.cmd.Env = append(append(cleanEnvironment(), laterVariable+"="+time.Until(s.srv.Now()).String()), environment...)
	if err := p.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	go func() {
		_ = p.cmd.Wait() // the state says how it ended
		close(p.done)
	}()
	s.t.Cleanup(func() {
		p.kill()
		s.noSecrets(p.out.String() + p.err.String())
		if s.t.Failed() {
			s.t.Logf("stderr of process %d:\n%s", p.cmd.Process.Pid, p.err)
		}
	})
	return p
}

// cleanEnvironment is this process's without what blockbell reads.
func cleanEnvironment() (all []string) {
	for _, v := range os.Environ() {
		if !strings.HasPrefix(v, "BLOCKBELL_") {
			all = append(all, v)
		}
	}
	return all
}

// kill ends the process with SIGKILL and waits until it is gone.
func (p *process) kill() {
	p.t.Helper()
	if err := p.cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		p.t.Fatal(err)
	}
	<-p.done
}

// terminate sends SIGTERM and returns the exit status and how long it took.
func (p *process) terminate() (status int, took time.Duration) {
	p.t.Helper()
	begun := time.Now()
	if err := p.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		p.t.Fatal(err)
	}
	status = p.wait()
	return status, time.Since(begun)
}

// wait waits for the process to end by itself.
func (p *process) wait() (status int) {
	p.t.Helper()
	select {
	case <-p.done:
		return p.cmd.ProcessState.ExitCode()
	case <-soon(p.t).Done():
		p.t.Fatalf("the process does not end:\n%s", p.err)
		return -1
	}
}
