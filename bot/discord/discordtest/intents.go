package discordtest

// Intents are the kinds of event that a session asks for. Source:
// events/gateway, "List of Intents".
type Intents int

// The intents that matter here.
const (
	GuildsIntent          Intents = 1 << 0
	MembersIntent         Intents = 1 << 1 // privileged
	PresencesIntent       Intents = 1 << 8 // privileged
	GuildMessagesIntent   Intents = 1 << 9
	GuildReactionsIntent  Intents = 1 << 10
	DirectMessagesIntent  Intents = 1 << 12
	DirectReactionsIntent Intents = 1 << 13
	MessageContentIntent  Intents = 1 << 15 // privileged

	privileged = MembersIntent | PresencesIntent | MessageContentIntent
	// known leaves out the bits 17 to 19, 22 and 23, which mean nothing.
	known Intents = 1<<17 - 1 | 1<<20 | 1<<21 | 1<<24 | 1<<25
)

// about says whom an event concerns, and so which sessions get it.
type about struct {
	guild   *Guild
	channel *Channel
	need    Intents
	always  bool // no intent is needed
}

func messagesIntent(ch *Channel) Intents {
	if ch.guild == nil {
		return DirectMessagesIntent
	}
	return GuildMessagesIntent
}
