package discord

import (
	"strconv"
	"time"
)

// platformEpoch is the platform's zero, 2015-01-01 UTC, in milliseconds of Unix
// time. Source: the platform's API reference, section Snowflakes.
const platformEpoch = 1420070400000

// isID tells whether a text is one of the platform's numbers.
func isID(text string) bool {
	if len(text) < 15 || len(text) > 20 {
		return false
	}
	_, err := strconv.ParseUint(text, 10, 64)
	return err == nil
}

// madeAt is the moment an id was made, from its upper 42 bits.
func madeAt(id string) (time.Time, bool) {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil {
		return time.Time{}, false
	}
	return time.UnixMilli(int64(n>>22) + platformEpoch).UTC(), true
}

// idAt is the smallest id of a moment; the platform's zero for earlier ones.
func idAt(t time.Time) string {
	return strconv.FormatInt(max(0, t.UnixMilli()-platformEpoch)<<22, 10)
}
