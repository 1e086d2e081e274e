package nudge

import (
	"encoding/json"
	"time"

	"blockbell/bot/chat"
	"blockbell/store"
)

// announcementKeeps is how long an announcement that could not be posted is still
// worth posting: a day later its captain has told people in another way.
const announcementKeeps = 24 * time.Hour

// Announcement is a captain's own words as a post for the outbox. The key makes
// it one post, however often it is queued.
func Announcement(key, channel string, m chat.Message, now time.Time) (store.OutPost, error) {
	body, err := json.Marshal(frozen{Message: m, At: now, Until: now.Add(announcementKeeps)})
	if err != nil {
		return store.OutPost{}, err
	}
	return store.OutPost{Key: key, Channel: channel, Body: body, Due: now}, nil
}
