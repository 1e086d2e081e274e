package render

import (
	"time"

	"blockbell/bot/chat"
)

// Moment tells an instant: the day and the wall time in a zone, nil for UTC, or
// whatever the platform makes of it for each reader.
func Moment(at time.Time, zone *time.Location) string {
	if zone == nil {
		zone = time.UTC
	}
	return chat.Moment(at, at.In(zone).Format("Mon 2 January, 15:04"))
}
