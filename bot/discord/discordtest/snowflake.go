package discordtest

import (
	"cmp"
	"strconv"
	"time"
)

// epoch is the platform's zero, 2015-01-01 UTC, in milliseconds of Unix time.
// Source: the platform's API reference, section "Snowflakes".
const epoch = 1420070400000

// newID makes an id that carries the simulated time in its upper 42 bits. Ids of
// one server never repeat and grow while the clock does not move back.
func (s *Server) newID() string {
	ms := uint64(s.Now().UnixMilli() - epoch)
	return strconv.FormatUint(ms<<22|s.serial.Add(1)&(1<<22-1), 10)
}

// IDAt is the smallest id of a moment, for before and after in lists, and for
// events that pretend to be old.
func IDAt(t time.Time) string {
	return strconv.FormatUint(uint64(t.UnixMilli()-epoch)<<22, 10)
}

// TimeOf is the moment an id was made; the zero time when it is not an id.
func TimeOf(id string) time.Time {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil {
		return time.Time{}
	}
	return time.UnixMilli(int64(n>>22) + epoch).UTC()
}

// compareIDs orders ids by number.
func compareIDs(a, b string) int {
	return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

// isID tells whether a text is an id.
func isID(text string) bool {
	_, err := strconv.ParseUint(text, 10, 64)
	return err == nil
}
