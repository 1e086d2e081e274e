package schedule_test

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"go.uber.org/goleak"

	"blockbell/bot/schedule"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// record notes the moments at which a task was called.
type record struct {
	mu sync.Mutex
	at []time.Time
}

func (r *record) task(_ context.Context, now time.Time) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.at = append(r.at, now)
	return nil
}

func (r *record) count() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.at)
}

// start starts a clock inside a synctest bubble, whose time begins on
// 2000-01-01 00:00:00 UTC and moves only when everything waits.
func start(t *testing.T, c schedule.Config) *schedule.Clock {
	t.Helper()
	c.Now = time.Now
	clock, err := schedule.Start(c)
	if err != nil {
		t.Fatal(err)
	}
	return clock
}

func stop(t *testing.T, c *schedule.Clock) {
	t.Helper()
	if err := c.Close(); err != nil {
		t.Error(err)
	}
}

func pass(d time.Duration) {
	time.Sleep(d) // the bubble's time: nothing sleeps
	synctest.Wait()
}

func TestTicksOnEachFullMinute(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var r record
		c := start(t, schedule.Config{Minute: r.task})
		pass(10*time.Minute + 30*time.Second)
		stop(t, c)
		if len(r.at) != 10 {
			t.Fatalf("%d ticks in ten and a half minutes, want 10", len(r.at))
		}
		for i, at := range r.at {
			if want := time.Date(2000, 1, 1, 0, i+1, 0, 0, time.UTC); !at.Equal(want) {
				t.Errorf("tick %d at %s, want %s", i, at.UTC(), want)
			}
		}
	})
}

func TestUpkeepRunsOnceANight(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var minutes, nights record
		c := start(t, schedule.Config{Minute: minutes.task, Nightly: nights.task})
		pass(48*time.Hour + 30*time.Second)
		stop(t, c)
		if len(nights.at) != 2 {
			t.Fatalf("upkeep ran %d times in two days, want 2", len(nights.at))
		}
		for i, at := range nights.at {
			if want := time.Date(2000, 1, 1+i, 3, 0, 0, 0, time.UTC); !at.Equal(want) {
				t.Errorf("upkeep at %s, want %s", at.UTC(), want)
			}
		}
		if len(minutes.at) != 2*24*60 {
			t.Errorf("%d ticks in two days, want %d", len(minutes.at), 2*24*60)
		}
		for i, at := range minutes.at {
			if want := time.Date(2000, 1, 1, 0, i+1, 0, 0, time.UTC); !at.Equal(want) {
				t.Fatalf("tick %d at %s, want %s", i, at.UTC(), want)
			}
		}
	})
}

func TestTickIsLeftOutWhileWorkRuns(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var mu sync.Mutex
		running, most, runs := 0, 0, 0
		slow := func(ctx context.Context, _ time.Time) error {
			mu.Lock()
			running, runs = running+1, runs+1
			most = max(most, running)
			mu.Unlock()
			select {
			case <-time.After(150 * time.Second):
			case <-ctx.Done():
			}
			mu.Lock()
			running--
			mu.Unlock()
			return nil
		}
		c := start(t, schedule.Config{Minute: slow})
		pass(9*time.Minute + 30*time.Second)
		stop(t, c)
		if most != 1 {
			t.Errorf("%d runs beside each other, want 1", most)
		}
		if runs != 3 { // minutes 1, 4 and 7; each lasts two and a half
			t.Errorf("%d runs, want 3", runs)
		}
	})
}

func TestFailureAndPanicAreLoggedAndTicksGoOn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var r record
		var mu sync.Mutex
		var text bytes.Buffer
		log := slog.New(slog.NewTextHandler(lockedWriter{&mu, &text}, nil))
		c := start(t, schedule.Config{Log: log, Minute: func(ctx context.Context, now time.Time) error {
			r.task(ctx, now)
			switch r.count() {
			case 1:
				return errors.New("the disk is full")
			case 2:
				panic("no such lifter")
			}
			return nil
		}})
		pass(4*time.Minute + 30*time.Second)
		stop(t, c)
		if r.count() != 4 {
			t.Errorf("%d ticks, want 4: one failed, one panicked, two after", r.count())
		}
		for _, want := range []string{"the disk is full", "no such lifter"} {
			if got := strings.Count(text.String(), want); got != 1 {
				t.Errorf("the log tells %q %d times, want once:\n%s", want, got, text.String())
			}
		}
	})
}

type lockedWriter struct {
	mu *sync.Mutex
	w  *bytes.Buffer
}

func (l lockedWriter) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.w.Write(p)
}

func TestStopEndsTheContextAndWaits(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ended := make(chan time.Time, 1)
		c := start(t, schedule.Config{Minute: func(ctx context.Context, _ time.Time) error {
			<-ctx.Done()
			time.Sleep(3 * time.Second) // tidying up, in the bubble's time
			ended <- time.Now()
			return ctx.Err()
		}})
		pass(70 * time.Second)
		before := time.Now()
		stop(t, c)
		select {
		case at := <-ended:
			if waited := at.Sub(before); waited != 3*time.Second {
				t.Errorf("work ended %s after Close, want 3s", waited)
			}
		default:
			t.Error("Close came back before the work had ended")
		}
	})
}

func TestStopDoesNotWaitForEver(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		release := make(chan struct{})
		c := start(t, schedule.Config{Stop: 5 * time.Second, Minute: func(context.Context, time.Time) error {
			<-release
			return nil
		}})
		pass(70 * time.Second)
		before := time.Now()
		if err := c.Close(); err == nil {
			t.Error("Close does not tell that work is still running")
		}
		if waited := time.Since(before); waited > 6*time.Second {
			t.Errorf("Close waited %s, want about 5s", waited)
		}
		close(release)
		synctest.Wait()
	})
}

func TestStartRefusesNothingToDo(t *testing.T) {
	if _, err := schedule.Start(schedule.Config{Now: time.Now}); err == nil {
		t.Error("a clock without a task was started")
	}
	if _, err := schedule.Start(schedule.Config{Minute: new(record).task}); err == nil {
		t.Error("a clock without a time was started")
	}
}
