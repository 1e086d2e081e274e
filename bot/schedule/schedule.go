package schedule

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"sync"
	"time"

	"github.com/go-co-op/gocron/v2"
	"github.com/google/uuid"
)

// upkeepHour is the hour, in UTC, of the nightly upkeep. It need not be night for
// everybody: upkeep hinders nobody, it only should not fall on the club's hour.
const upkeepHour = 3

// Task is work to be done at a tick. ctx ends when the clock is stopped; now is
// the moment of the tick.
type Task func(ctx context.Context, now time.Time) error

// Config is what a Clock needs.
type Config struct {
	Minute  Task             // each full minute; never beside itself
	Nightly Task             // once a day at 03:00 UTC; nil: no upkeep
	Now     func() time.Time // the clock; must be set
	Log     *slog.Logger     // nil: nothing is logged
	// Stop is how long Close waits for work under way; 0 means ten seconds.
	Stop time.Duration
}

// Clock ticks from Start to Close. Close it once.
type Clock struct {
	Config
	scheduler gocron.Scheduler
	ctx       context.Context // of the tasks; ended by Close
	end       context.CancelFunc

	mu      sync.Mutex
	stopped bool           // no task begins any more
	work    sync.WaitGroup // tasks under way
}

// Start begins to tick: at the next full minute, then each minute. A tick that
// comes while the last one's work still runs is left out. A task that fails or
// panics is logged and called again at the next tick.
func Start(c Config) (*Clock, error) {
	if c.Minute == nil || c.Now == nil {
		return nil, errors.New("schedule: a clock and a task for each minute are needed")
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Stop == 0 {
		c.Stop = 10 * time.Second
	}
	s, err := gocron.NewScheduler(gocron.WithLocation(time.UTC), gocron.WithStopTimeout(c.Stop))
	if err != nil {
		return nil, fmt.Errorf("schedule: %w", err)
	}
	clock := &Clock{Config: c, scheduler: s}
	clock.ctx, clock.end = context.WithCancel(context.Background())
	err = errors.Join(
		clock.add("minute", gocron.CronJob("* * * * *", false), c.Minute),
		clock.add("nightly", gocron.DailyJob(1, gocron.NewAtTimes(gocron.NewAtTime(upkeepHour, 0, 0))), c.Nightly))
	if err != nil {
		clock.end()
		return nil, errors.Join(fmt.Errorf("schedule: %w", err), s.Shutdown())
	}
	s.Start()
	return clock, nil
}

// Close ends the ticking: it ends the context of work under way and waits for it.
// The error tells that work did not end in time.
func (c *Clock) Close() error {
	c.mu.Lock()
	c.stopped = true
	c.mu.Unlock()
	c.end()
	// The scheduler waits for its tasks in a busy loop, so they are waited for
	// here, and only then is it told to stop.
	ended := make(chan struct{})
	go func() {
		c.work.Wait()
		close(ended)
	}()
	timeout := time.NewTimer(c.Stop)
	defer timeout.Stop()
	select {
	case <-ended:
		if err := c.scheduler.Shutdown(); err != nil {
			return fmt.Errorf("schedule: %w", err)
		}
		return nil
	case <-timeout.C:
		hurry, cancel := context.WithCancel(context.Background())
		cancel()
		_ = c.scheduler.ShutdownWithContext(hurry) // the answer is known: work still runs
		return fmt.Errorf("schedule: work did not end within %s", c.Stop)
	}
}

// oncePerMinute leaves out a tick of the minute that has just been served: the
// scheduler now and then fires twice at one full minute. Ticks of one task never
// run beside each other, so what it remembers needs no lock.
func (c *Clock) oncePerMinute(task Task) func() error {
	var served time.Time
	return func() error {
		minute := c.Now().Truncate(time.Minute)
		if minute.Equal(served) {
			return nil
		}
		served = minute
		return c.run(task)
	}
}

// run calls the task unless the clock was stopped.
func (c *Clock) run(task Task) error {
	c.mu.Lock()
	if c.stopped {
		c.mu.Unlock()
		return nil
	}
	c.work.Add(1)
	c.mu.Unlock()
	defer c.work.Done()
	return task(c.ctx, c.Now())
}

// add sets a job up. The listeners are what keeps the process alive: the
// scheduler recovers a panic only where one is set.
func (c *Clock) add(name string, when gocron.JobDefinition, task Task) error {
	if task == nil {
		return nil
	}
	failed := func(_ uuid.UUID, job string, err error) {
		if errors.Is(err, gocron.ErrPanicRecovered) {
			return // told by panicked
		}
		c.Log.Error("a scheduled task failed", "task", job, "err", err)
	}
	panicked := func(_ uuid.UUID, job string, p any) {
		c.Log.Error("a scheduled task panicked", "task", job, "panic", p, "stack", string(debug.Stack()))
	}
	_, err := c.scheduler.NewJob(when,
		gocron.NewTask(c.oncePerMinute(task)),
		gocron.WithName(name),
		gocron.WithSingletonMode(gocron.LimitModeReschedule),
		gocron.WithEventListeners(gocron.AfterJobRunsWithError(failed), gocron.AfterJobRunsWithPanic(panicked)))
	return err
}
