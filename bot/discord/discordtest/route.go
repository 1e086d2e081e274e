package discordtest

import (
	"net/http"
	"net/url"
	"strings"
)

// route is one operation of the platform; its path is written as in the
// platform's OpenAPI document, which makes it the key of its schemas.
type route struct {
	method, path string
	open         bool // needs no bot token: the path carries the right
	handle       func(*Server, *call) answer
}

// call is one request as a handler sees it.
type call struct {
	route  *route
	params map[string]string
	query  url.Values
	body   []byte // the JSON, also when it came in a multipart form
	files  []Upload
	source *http.Request
}

// answer is what goes back: a JSON body or, when it is a string, an HTML page.
type answer struct {
	status int
	body   any
	header map[string]string
}

func done(body any) answer         { return answer{status: 200, body: body} }
func created(body any) answer      { return answer{status: 201, body: body} }
func nothing() answer              { return answer{status: 204} }
func refused(err *apiError) answer { return answer{status: err.status, body: err.body()} }

var routes = []route{
	{"GET", "/gateway", true, (*Server).getGateway},
	{"GET", "/gateway/bot", false, (*Server).getGatewayBot},
	{"GET", "/users/@me", false, (*Server).getMe},
	{"GET", "/users/@me/guilds", false, (*Server).getMyGuilds},
	{"POST", "/users/@me/channels", false, (*Server).openDirect},
	{"GET", "/users/{user_id}", false, (*Server).getUser},
	{"GET", "/applications/@me", false, (*Server).getApplication},
	{"GET", "/oauth2/applications/@me", false, (*Server).getApplication},
	{"GET", "/guilds/{guild_id}", false, (*Server).getGuild},
	{"GET", "/guilds/{guild_id}/channels", false, (*Server).getGuildChannels},
	{"GET", "/guilds/{guild_id}/roles", false, (*Server).getGuildRoles},
	{"GET", "/guilds/{guild_id}/members/{user_id}", false, (*Server).getGuildMember},
	{"GET", "/channels/{channel_id}", false, (*Server).getChannel},
	{"POST", "/channels/{channel_id}/typing", false, (*Server).startTyping},
	{"GET", "/channels/{channel_id}/messages", false, (*Server).listMessages},
	{"POST", "/channels/{channel_id}/messages", false, (*Server).createMessage},
	{"GET", "/channels/{channel_id}/messages/{message_id}", false, (*Server).getMessage},
	{"PATCH", "/channels/{channel_id}/messages/{message_id}", false, (*Server).editMessage},
	{"DELETE", "/channels/{channel_id}/messages/{message_id}", false, (*Server).deleteMessage},
	{"GET", "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}", false, (*Server).listReactions},
	{"PUT", "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}/@me", false, (*Server).putReaction},
	{"DELETE", "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}/@me", false, (*Server).deleteOwnReaction},
	{"DELETE", "/channels/{channel_id}/messages/{message_id}/reactions/{emoji_name}/{user_id}", false, (*Server).deleteReaction},
	{"GET", "/applications/{application_id}/commands", false, (*Server).listCommands},
	{"POST", "/applications/{application_id}/commands", false, (*Server).createCommand},
	{"PUT", "/applications/{application_id}/commands", false, (*Server).overwriteCommands},
	{"GET", "/applications/{application_id}/commands/{command_id}", false, (*Server).getCommand},
	{"PATCH", "/applications/{application_id}/commands/{command_id}", false, (*Server).editCommand},
	{"DELETE", "/applications/{application_id}/commands/{command_id}", false, (*Server).deleteCommand},
	{"GET", "/applications/{application_id}/guilds/{guild_id}/commands", false, (*Server).listCommands},
	{"POST", "/applications/{application_id}/guilds/{guild_id}/commands", false, (*Server).createCommand},
	{"PUT", "/applications/{application_id}/guilds/{guild_id}/commands", false, (*Server).overwriteCommands},
	{"GET", "/applications/{application_id}/guilds/{guild_id}/commands/{command_id}", false, (*Server).getCommand},
	{"PATCH", "/applications/{application_id}/guilds/{guild_id}/commands/{command_id}", false, (*Server).editCommand},
	{"DELETE", "/applications/{application_id}/guilds/{guild_id}/commands/{command_id}", false, (*Server).deleteCommand},
	{"PUT", "/applications/{application_id}/guilds/{guild_id}/commands/{command_id}/permissions", false, (*Server).overwriteRights},
	{"POST", "/interactions/{interaction_id}/{interaction_token}/callback", true, (*Server).callback},
	{"POST", "/webhooks/{webhook_id}/{webhook_token}", true, (*Server).followUp},
	{"GET", "/webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", true, (*Server).getFollowUp},
	{"PATCH", "/webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", true, (*Server).editFollowUp},
	{"DELETE", "/webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", true, (*Server).deleteFollowUp},
}

// findRoute matches a method and an escaped path. It tells an unknown path from
// a known path with another method.
func findRoute(method, path string) (*route, map[string]string, *apiError) {
	parts := strings.Split(path, "/")
	err := errNotFound
	for i := range routes {
		params, ok := match(strings.Split(routes[i].path, "/"), parts)
		switch {
		case !ok:
		case routes[i].method == method:
			return &routes[i], params, nil
		default:
			err = errMethod
		}
	}
	return nil, nil, err
}

func match(pattern, parts []string) (map[string]string, bool) {
	if len(pattern) != len(parts) {
		return nil, false
	}
	params := map[string]string{}
	for i, p := range pattern {
		part, err := url.PathUnescape(parts[i])
		switch {
		case err != nil || part == "" && i > 0:
			return nil, false
		case strings.HasPrefix(p, "{"):
			params[strings.Trim(p, "{}")] = part
		case p != part:
			return nil, false
		}
	}
	return params, true
}
