package discord

import (
	"net/url"
	"strconv"
)

// InviteURL is the page on which somebody who manages a server lets the bot in,
// with the least rights it needs.
func InviteURL(appID string) string {
	q := url.Values{
		"client_id":   {appID},
		"permissions": {strconv.Itoa(Permissions)},
		"scope":       {"bot applications.commands"},
	}
	return DefaultAPI + "/oauth2/authorize?" + q.Encode()
}
