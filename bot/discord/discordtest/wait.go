package discordtest

import (
	"context"
	"errors"
	"fmt"
)

// changed wakes everyone who waits. The lock is held.
func (s *Server) changed() {
	close(s.wake)
	s.wake = make(chan struct{})
}

// errClosed is what waiting ends with when the server closes.
var errClosed = errors.New("discordtest: the server was closed")

// Until blocks until ok is true, looking again whenever anything happens on the
// platform. It fails when ctx ends first. ok may call any method of the server.
func (s *Server) Until(ctx context.Context, ok func() bool) error {
	for {
		s.mu.Lock()
		wake := s.wake
		s.mu.Unlock()
		if ok() {
			return nil
		}
		select {
		case <-wake:
		case <-s.closing:
			return errClosed
		case <-ctx.Done():
			return fmt.Errorf("discordtest: waited in vain: %w", context.Cause(ctx))
		}
	}
}

// enter counts a call in, unless the server is closing; leave counts it out.
func (s *Server) enter() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	select {
	case <-s.closing:
		return false
	default:
	}
	s.running++
	return true
}

func (s *Server) leave() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.running--
	s.changed()
}

// drain waits until everything was counted out.
func (s *Server) drain() {
	for {
		s.mu.Lock()
		running, wake := s.running, s.wake
		s.mu.Unlock()
		if running == 0 {
			return
		}
		<-wake
	}
}
