package discord

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"
)

// longestGap is how far back missed messages are read. What is older, people have
// written again or asked about.
const longestGap = 24 * time.Hour

// catchUp reads what was written in a channel while nobody listened: after a sign-in
// the platform repeats nothing. Messages heard before are passed over here where
// this process heard them, and by the bot's own memory of events otherwise.
func (a *Adapter) catchUp(ctx context.Context) {
	where, since, err := a.Missed(ctx)
	if err != nil || where == "" || since.IsZero() {
		if err != nil {
			a.Log.Error("where messages may have been missed could not be read", "error", err)
		}
		return
	}
	if oldest := a.Now().Add(-longestGap); since.Before(oldest) {
		since = oldest
	}
	n, err := a.readMissed(ctx, where, idAt(since))
	if err != nil {
		a.Log.Error("messages may have been missed", "channel", where, "error", err)
		return
	}
	a.Log.Info("messages written meanwhile were read", "channel", where, "messages", n)
}

// readMissed hands on the messages after an id, oldest first.
func (a *Adapter) readMissed(ctx context.Context, where, after string) (n int, err error) {
	channel, err := a.channelID(ctx, where)
	if err != nil {
		return 0, err
	}
	home, err := a.homeID(ctx)
	if err != nil {
		return 0, err
	}
	members := map[string]*member{}
	for {
		var found []message
		if _, err := a.rest.do(ctx, request{
			method: "GET", path: "/channels/" + channel + "/messages?limit=100&after=" + after, again: true,
		}, &found); err != nil {
			return n, err
		}
		slices.SortFunc(found, func(x, y message) int {
			return cmp.Or(cmp.Compare(len(x.ID), len(y.ID)), strings.Compare(x.ID, y.ID))
		})
		for _, m := range found {
			after = m.ID
			if _, heard := a.authors.find(m.ID); heard || !a.forUs(m) {
				continue
			}
			m.GuildID, m.Member = home, a.memberOf(ctx, home, m.Author.ID, members)
			a.messageWritten(m)
			n++
		}
		if len(found) < page {
			return n, nil
		}
	}
}

// memberOf asks for what a message read back does not tell: the author's name and
// roles here. Somebody who has left has none.
func (a *Adapter) memberOf(ctx context.Context, home, person string, asked map[string]*member) *member {
	if m, known := asked[person]; known {
		return m
	}
	m := &member{}
	if _, err := a.rest.do(ctx, request{method: "GET", path: "/guilds/" + home + "/members/" + person, again: true}, m); err != nil {
		m = nil
	}
	asked[person] = m
	return m
}
