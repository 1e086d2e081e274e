package discord

import (
	"net/http"
	"sync/atomic"
	"time"
)

// tooOld is the age at which the platform takes no answer to an interaction.
const tooOld = 3 * time.Second

// skew is how far this machine's clock is ahead of the platform's, as far as the
// dates of its answers tell, which are whole seconds.
type skew struct {
	now   func() time.Time
	ahead atomic.Int64 // nanoseconds; 0 while nothing was heard
}

// heard compares a Date header with the clock.
func (s *skew) heard(date string) {
	if at, err := http.ParseTime(date); err == nil {
		s.ahead.Store(int64(s.now().Sub(at)))
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
