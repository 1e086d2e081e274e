// Package discord lets people talk to the bot on Discord. It translates events
// into chat.Event and answers into the platform's requests, registers commands,
// and posts unasked messages exactly once where the channel can be read.
//
// What stands between the platform and the bot, from the outside in:
//
//   - link is one gateway connection. It reads each frame before the library
//     does, notices silence, and ends the connection itself when the platform
//     asks for that, so that the library never gets into the states it cannot
//     leave, and so that a session stays resumable.
//   - gateway opens links again and again with growing waits, respects the close
//     codes, and counts sign-ins on disk, since the platform takes the token away
//     from a bot that signs in too often.
//   - rest sends requests within their context, waits at rate limits, and repeats
//     only what is safe to repeat.
//   - crew works events off: one person's in order, different people's at once.
//   - exchange answers one interaction within the platform's three seconds,
//     deferring by itself where the work takes longer.
//
// Decisions a reader may look for:
//
// One adapter serves one server (guild), the one in Config.Guild or the only one
// the bot is in. Channels are called "#name" throughout: messages in a thread
// count as said in its parent channel, a direct conversation is "". In the
// options of a command a channel mention or a channel's number becomes "#name", a
// person's mention "@number", a role's mention "@Name"; so settings hold what
// events carry. A channel that is renamed must be set again.
//
// Answers to commands and buttons are deferred as private ones. A public answer
// that comes after the deferral is posted beside it, and the private line says so.
//
// A private answer to a plain message goes to the person directly. Where that
// fails, a short public line without any numbers offers the button "Show me", which
// shows the answer to that person only. Such an answer is kept in memory for an
// hour at most and is lost with a restart; the button then says so.
//
// What was written while nobody listened, as over a restart, is read back after each
// sign-in from the channel that Config.Missed names; commands and changes of that
// time are lost, since the platform keeps none. Twice heard is the bot's to notice:
// events carry the platform's numbers.
//
// A file that a person sends with a command is fetched before the bot hears of it,
// from the platform's own file hosts and no other, without the token, and up to
// chat.MaxFileBytes. How far long work has come is shown where its answer will
// stand, at most once a second, beside the work and never in its way.
//
// A command is visible to everybody even when only captains may use it: the
// right is checked on use, and the platform cannot tell who has the captain role.
package discord
