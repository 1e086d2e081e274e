package discordtest

import (
	"maps"
	"slices"
	"strings"
)

// messageJSON is a message as answers show it to the bot; full says that its
// content may be seen. The lock is held.
func (s *Server) messageJSON(m *Message, full bool) object {
	o := object{
		"id": m.ID, "channel_id": m.Channel, "type": m.kind, "author": userJSON(m.user), "timestamp": stamp(m.Made),
		"edited_timestamp": nil, "tts": false, "mention_everyone": m.Pings.Everyone, "pinned": false, "flags": m.Flags,
		"mentions": s.mentionsJSON(m), "mention_roles": m.mentionedRoles(),
		"content": "", "embeds": []Embed{}, "attachments": []Attachment{}, "components": []any{},
	}
	if full {
		o["content"] = m.Content
		o["embeds"] = append([]Embed{}, m.Embeds...)
		o["attachments"] = append([]Attachment{}, m.Attachments...)
		o["components"] = append([]any{}, m.components...)
	}
	if !m.Edited.IsZero() {
		o["edited_timestamp"] = stamp(m.Edited)
	}
	if m.Nonce != "" {
		o["nonce"] = m.Nonce
	}
	if len(m.Reactions) > 0 {
		o["reactions"] = s.reactionsJSON(m)
	}
	if m.ReplyTo != "" {
		o["message_reference"] = object{"type": 0, "message_id": m.ReplyTo, "channel_id": m.Channel}
		o["referenced_message"] = s.referenced(m)
	}
	if m.act != nil {
		m.interactionJSON(o, s.app)
	}
	return o
}

// referenced is the message that another one answers, null when it is gone. What
// that one answers in turn is not told.
func (s *Server) referenced(m *Message) any {
	i := slices.IndexFunc(m.channel.messages, func(o *Message) bool { return o.ID == m.ReplyTo })
	if i < 0 {
		return nil
	}
	other := m.channel.messages[i].copy()
	other.ReplyTo = ""
	return s.shown(&other)
}

func (m *Message) interactionJSON(o object, app string) {
	o["application_id"], o["webhook_id"] = app, app
	meta := object{"id": m.act.ID, "type": m.act.kind, "user": userJSON(m.act.user),
		"authorizing_integration_owners": m.act.owners()}
	if m.act.kind == actComponent && m.act.source != nil {
		meta["interacted_message_id"] = m.act.source.ID
	}
	if m.act.kind == actCommand {
		meta["name"], meta["command_type"] = m.act.commandName(), m.act.data["type"]
	}
	if m.act.kind == actSubmit {
		meta["triggering_interaction_metadata"] = object{"id": m.act.ID, "type": actCommand, "user": userJSON(m.act.user),
			"authorizing_integration_owners": m.act.owners()}
	}
	o["interaction_metadata"] = meta
}

// mentionsJSON lists the people whom the text mentions, whether it notified them
// or not.
func (s *Server) mentionsJSON(m *Message) []object {
	found := []object{}
	for _, u := range s.users {
		if strings.Contains(m.Content, "<@"+u.ID+">") || strings.Contains(m.Content, "<@!"+u.ID+">") || slices.Contains(m.Pings.Users, u.ID) {
			found = append(found, userJSON(u))
		}
	}
	return found
}

func (m *Message) mentionedRoles() []string {
	ids := []string{}
	if m.channel.guild == nil {
		return ids
	}
	for _, r := range m.channel.guild.roles {
		if strings.Contains(m.Content, "<@&"+r.ID+">") {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

func (s *Server) reactionsJSON(m *Message) []object {
	var list []object
	for _, r := range m.Reactions {
		list = append(list, object{
			"emoji": object{"id": nil, "name": r.Emoji}, "count": len(r.By), "me": slices.Contains(r.By, s.bot.ID),
			"me_burst": false, "burst_colors": []string{}, "count_details": object{"burst": 0, "normal": len(r.By)},
		})
	}
	return list
}

// eventJSON is a message as an event carries it to one session, whose intents
// decide whether the content is there. The lock is held.
func (s *Server) eventJSON(m *Message, i Intents) object {
	o := s.messageJSON(m, i&MessageContentIntent != 0 || s.contentFree(m))
	delete(o, "reactions")
	if g := m.channel.guild; g != nil {
		o["guild_id"] = g.ID
		if mem := g.members[m.user.ID]; mem != nil {
			part := maps.Clone(memberJSON(mem))
			delete(part, "user")
			o["member"] = part
		}
	}
	return o
}

// contentFree tells whether the content of a message is shown to a bot without
// the intent: its own messages, direct messages, and messages that mention it or
// answer it. Source: events/gateway, "Message Content Intent".
func (s *Server) contentFree(m *Message) bool {
	return m.user == s.bot || m.channel.guild == nil || slices.Contains(m.Pings.Users, s.bot.ID) ||
		strings.Contains(m.Content, "<@"+s.bot.ID+">") || strings.Contains(m.Content, "<@!"+s.bot.ID+">")
}

// shown is what REST shows of a message: the setting of the application decides.
func (s *Server) shown(m *Message) object {
	return s.messageJSON(m, s.opts.Disallowed&MessageContentIntent == 0 || s.contentFree(m))
}
