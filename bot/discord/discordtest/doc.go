// Package discordtest is a local emulator of the chat platform for tests: its
// REST interface, version 10, and its gateway, both on one loopback port. It
// shares no code with any client library, so that it can bear witness against
// one.
//
//	srv := discordtest.New(t, discordtest.Options{})
//	// point the bot at srv.URL() (it appends /api/v10) with srv.Token() and
//	// srv.Now as its clock; the gateway's address comes from GET /gateway
//	ana := srv.User("ana")
//	act := ana.Command("#training-log", "season build", discordtest.Opt{Name: "level", Value: "novice"})
//	m, err := act.AwaitMessage(ctx)
//	act = ana.Press(m.ID, "Accept plan")
//
// # World
//
// A fresh server has one guild, Server.Guild, owned by "cap", with the channels
// training-log and announcements, and the bot in it. Guild adds channels,
// threads, roles, overwrites, members; Server.User makes people. Everyone may
// read and write by default; the bot has the rights of Options.BotPermissions.
//
// # People
//
// User.Say, Reply, Edit, Delete, React act on messages; Command, Autocomplete,
// Press, Choose and Submit begin interactions and return an Action, whose Await
// methods block until the bot answered. User.Sees and Inbox are what the person
// sees, ephemeral messages included. Message.Pings tells whom a message
// notified.
//
// # Time
//
// The server judges deadlines (3 s to answer, 15 min for a token), windows of
// rate limits, of nonces and of identifies by a simulated clock, Server.Now,
// which only Advance moves unless Options.Now says otherwise. Nothing sleeps.
// Only the heartbeat interval is wall time. To let the bot's clock be wrong, give
// it one that differs from Server.Now. Rate limits are off, with wide
// headers, until LimitRoute or LimitGlobally sets one: a clock that stands still
// would never open a spent bucket again.
//
// # Rules
//
// Every request body is held against the platform's OpenAPI document, where it
// is at hand (see Options.OpenAPI), and against rules that the document cannot
// express. A breach is answered with 400 and code 50035 (or 50006) and reported
// through t.Errorf with method, path and reason. Refusals that belong to normal
// life (10062, 40060, 50013, 429 and so on) are answered and not reported. The
// emulator's own answers are held against the document too. Server.Unknown lists
// fields that the platform would ignore.
//
// # Faults
//
// Server.Fail switches on a fault of the REST side: refusals before or after
// the work, connections cut before or after, half answers, answers held behind
// a gate, 429 of each kind. Gateway has the faults of the other side: Greet plans
// what the next connections meet; Drop, Refuse, Freeze, MuteACKs, Reconnect,
// Invalidate, CloseWith, Duplicate, Lose, Swap, Send, SendRaw and HalfFrame act on
// the present ones; Gateway.Stats counts what the bot did.
//
// # What is not emulated
//
// Voice, polls, stickers, forums, scheduled events, webhooks other than those of
// interactions, pins, threads made by the bot, and whatever a bot does to manage
// a guild. A call of such an operation is reported as a violation.
package discordtest
