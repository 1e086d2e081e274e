package discord

import (
	"context"
	"net/http"
	"sync/atomic"
	"time"
)

// tooOld is the age at which the platform takes no answer to an interaction.
const tooOld = 3 * time.Second

// skew is how far this machine's clock is ahead of the platform's, as far as the
// dates of its answers tell, which are whole seconds.
type skew struct {
	now    func() time.Time
	ahead  atomic.Int64 // nanoseconds; 0 while nothing was heard
	asking atomic.Bool
}

// heard compares a Date header with the clock as it stood when the request was
// sent: the answer was written later, so slow answers never make the clock look
// more ahead than it is.
func (s *skew) heard(date string, sent time.Time) {
	if at, err := http.ParseTime(date); err == nil {
		s.ahead.Store(int64(sent.Sub(at)))
	}
}

// age is how old an interaction is, judged by its id. A clock that is wrong must
// not make the bot deaf: where the plain difference looks too old and the
// corrected one looks new, the corrected one counts.
func (s *skew) age(id string) time.Duration {
	made, ok := madeAt(id)
	if !ok {
		return 0
	}
	age := s.now().Sub(made)
	if corrected := age - time.Duration(s.ahead.Load()); age > tooOld && corrected > -tooOld && corrected <= tooOld {
		age = corrected
	}
	return max(0, age)
}

// compareClocks asks for an answer with a date. A clock that jumped would otherwise
// make every interaction look too old, and no other request may be due for long.
func (a *Adapter) compareClocks(ctx context.Context) {
	if !a.skew.asking.CompareAndSwap(false, true) {
		return
	}
	defer a.skew.asking.Store(false)
	if _, err := a.rest.do(ctx, request{method: "GET", path: "/gateway", again: true}, nil); err != nil {
		a.Log.Warn("the platform's clock could not be read", "error", err)
		return
	}
	if ahead := time.Duration(a.skew.ahead.Load()); ahead > tooOld {
		a.Log.Warn("the clock of this machine is wrong; set it by the network", "ahead", ahead)
	}
}
