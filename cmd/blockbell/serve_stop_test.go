package main

import (
	"errors"
	"os"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"blockbell/bot/discord/discordtest"
)

const callbackRoute = "/interactions/{interaction_id}/{interaction_token}/callback"

// stopWithin is how long serve may take to end after SIGTERM.
const stopWithin = 10 * time.Second

// launched starts the real program and waits until it can be talked to.
func (s *serving) launched() *process {
	s.t.Helper()
	p := s.launch()
	p.err.await(s.t, 1, "gateway connected")
	p.err.await(s.t, 1, "commands are registered")
	return p
}

func TestTerminatedServeEndsCleanly(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: time.Now})
	p := s.launched()
	status, took := p.terminate()
	if status != statusOK || took > stopWithin {
		t.Errorf("status %d after %v", status, took)
	}
	if closed := s.srv.Gateway().Stats().Closed; len(closed) != 1 || closed[0] != 1000 {
		t.Errorf("the gateway was left with %v, want a farewell", closed)
	}
	t.Logf("ended %v after the signal", took.Round(time.Millisecond))
}

// An answer that is under way when the signal comes still reaches the person.
func TestTerminatedServeFinishesAnAnswer(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: time.Now})
	p := s.launched()
	held := s.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: discordtest.HoldBefore})
	act := s.srv.User("ana").Command("#training-log", "help")
	if err := held.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	ended := make(chan int, 1)
	go func() { status, _ := p.terminate(); ended <- status }()
	s.until(func() bool { return s.srv.Gateway().Stats().Ready == 0 })
	held.Release()
	if _, err := act.AwaitMessage(soon(t)); err != nil {
		t.Error(err)
	}
	if status := <-ended; status != statusOK {
		t.Errorf("status %d", status)
	}
}

// Work that never ends is given up in time, and so is a post.
func TestTerminatedServeGivesUpWhatHangs(t *testing.T) {
	t.Parallel()
	s := clubServing(t, mondayOn())
	s.toNextDue()
	posting := s.srv.Fail(discordtest.Fault{Method: "POST", Route: postRoute, Kind: discordtest.HoldBefore, Times: -1})
	p := s.launched()
	if err := posting.Await(soon(t), 1); err != nil {
		t.Fatal(err)
	}
	answering := s.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: discordtest.HoldBefore, Times: -1})
	for _, name := range []string{"ana", "ben", "cap"} {
		s.srv.User(name).Command("#training-log", "block")
	}
	if _, err := s.srv.User("ana").Say("#training-log", "squat 100x50 and nonsense 12x"); err != nil {
		t.Fatal(err)
	}
	if err := answering.Await(soon(t), 3); err != nil {
		t.Fatal(err)
	}
	status, took := p.terminate()
	if status != statusOK || took > stopWithin {
		t.Errorf("status %d after %v", status, took)
	}
	t.Logf("ended %v after the signal", took.Round(time.Millisecond))
	posting.Off()
	answering.Off()
	s.srv.Advance(afterLease)
	s.calm()
	if s.settled() == 0 {
		t.Error("the post that was given up was never made")
	}
}

func TestSecondSignalEndsAtOnce(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: time.Now})
	p := s.launched()
	s.srv.Fail(discordtest.Fault{Method: "POST", Route: callbackRoute, Kind: discordtest.HoldBefore, Times: -1})
	s.srv.User("ana").Command("#training-log", "help")
	s.until(func() bool { return len(s.srv.RequestsTo("POST", callbackRoute)) > 0 })
	// The first signal must have been taken before the next one counts, and when it
	// was cannot be seen from here; so it is sent until the process is gone.
	for over := false; !over; {
		if err := p.cmd.Process.Signal(syscall.SIGTERM); err != nil && !errors.Is(err, os.ErrProcessDone) {
			t.Fatal(err)
		}
		select {
		case <-p.done:
			over = true
		default:
			runtime.Gosched()
		}
	}
	if status := p.cmd.ProcessState.ExitCode(); status == statusOK {
		t.Error("the second signal was not heard")
	}
}

func TestServeWaitsForAPlatformThatIsDown(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	down := s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1})
	s.begin()
	s.err.await(t, 1, "the platform does not answer")
	down.Off()
	s.err.await(t, 1, "gateway connected")
	if status := s.end(); status != statusOK {
		t.Errorf("status %d", status)
	}
}

func TestServeIsStoppedWhileThePlatformIsDown(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.srv.Fail(discordtest.Fault{Kind: discordtest.RefuseBefore, Status: 503, Times: -1})
	s.begin()
	s.err.await(t, 1, "the platform does not answer")
	if status := s.end(); status != statusOK || strings.Contains(s.err.String(), "blockbell:") {
		t.Errorf("status %d", status)
	}
}

// While the gateway is away, the health page says so, and a signal ends the
// program all the same.
func TestServeIsStoppedWhileTheGatewayIsAway(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Now: time.Now})
	p := s.launched()
	s.srv.Gateway().Refuse(true)
	s.srv.Gateway().Drop()
	p.err.await(t, 1, "gateway connection ended")
	if status, took := p.terminate(); status != statusOK || took > stopWithin {
		t.Errorf("status %d after %v", status, took)
	}
}
