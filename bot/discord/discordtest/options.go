package discordtest

import "time"

// Options say how a Server begins. The zero value is ready for use.
type Options struct {
	// Now is the simulated clock, to which Server.Advance adds. The default
	// stands still at 2027-01-04 08:00 UTC. Give Server.Now to the bot, so that
	// both judge by one clock.
	Now func() time.Time
	// Token is the bot's token; there is a default.
	Token string
	// Heartbeat is the interval told in HELLO, in wall time; 41.25 s by default.
	Heartbeat time.Duration
	// Disallowed are the privileged intents that are off in the application's
	// settings: to ask for one closes the connection with 4014.
	Disallowed Intents
	// BotPermissions are those of the bot's own role; the default is what the
	// platform's reference adds up for a bot that reads and posts: 274878024768.
	BotPermissions Permissions
	// OpenAPI is the path of the platform's OpenAPI document. When empty, it is
	// looked for in ../shared/data beside the module's root.
	OpenAPI string
	// Lax leaves the OpenAPI document out, which is for measuring speed.
	Lax bool
	// NonceWindow is how long an enforced nonce is remembered; 5 minutes by
	// default (the reference says "the past few minutes").
	NonceWindow time.Duration
	// StrictIdentify allows one IDENTIFY per 5 seconds of the simulated clock.
	StrictIdentify bool
	// Report is told each violation of the platform's rules; New takes t.Errorf
	// when it is nil. It is called from any goroutine and must not call the server.
	Report func(violation string)
}

func withDefaults(o Options) Options {
	if o.Now == nil {
		start := time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)
		o.Now = func() time.Time { return start }
	}
	if o.Token == "" {
		o.Token = "emulated.bot.token"
	}
	if o.Heartbeat == 0 {
		o.Heartbeat = 41250 * time.Millisecond
	}
	if o.BotPermissions == 0 {
		o.BotPermissions = 274878024768
	}
	if o.NonceWindow == 0 {
		o.NonceWindow = 5 * time.Minute
	}
	return o
}
