package terminal

import (
	"context"
	"fmt"
	"time"
)

// now returns the terminal's moment and sets it where none was ever set: by a
// first clock line to what that line says, otherwise to wall time.
func (t *Terminal) now(ctx context.Context, l line) (time.Time, error) {
	at, found, err := t.Memory.Clock(ctx)
	if err != nil || found {
		return at, err
	}
	at = t.wall()
	if l.verb == clockTo {
		at = l.at
	}
	return at, t.Memory.SetClock(ctx, at)
}

// wall is the real time in whole seconds, the precision of all output.
func (t *Terminal) wall() time.Time { return t.Wall().UTC().Truncate(time.Second) }

// moveClock walks from now to where the line says.
func (t *Terminal) moveClock(ctx context.Context, number int, now time.Time, l line) error {
	target := l.at
	if l.verb == clockOn {
		target = now.Add(l.by)
	}
	if target.Before(now) {
		t.complain(ctx, number, "", fmt.Sprintf("the clock cannot go back: it stands at %s, and %s is earlier", stamp(now), stamp(target)))
		return nil
	}
	if target.Year() > lastYear {
		t.complain(ctx, number, "", fmt.Sprintf("the clock runs from %d to %d, and %s is too far off", firstYear, lastYear, stamp(target)))
		return nil
	}
	if err := t.walk(ctx, now, target); err != nil {
		return err
	}
	if ctx.Err() == nil {
		t.Screen.moment(target)
	}
	return nil
}

// walk goes from due to due. The moment is stored before the runner works at
// it, so a run that is killed there finds the same moment again and catches up.
// An ended context stops between two moments, and the clock stays there.
func (t *Terminal) walk(ctx context.Context, from, target time.Time) error {
	work := context.WithoutCancel(ctx)
	for at := from; at.Before(target) && ctx.Err() == nil; {
		next, found, err := t.Runner.Next(work, at, target)
		if err != nil {
			return err
		}
		if !found {
			next = target
		}
		if !next.After(at) || next.After(target) {
			return fmt.Errorf("the runner names %s as due between %s and %s", stamp(next), stamp(at), stamp(target))
		}
		if err := t.Memory.SetClock(work, next.UTC()); err != nil {
			return err
		}
		if err := t.Runner.Run(work, next); err != nil {
			return err
		}
		at = next
	}
	return nil
}
