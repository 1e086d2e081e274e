package discordtest

import (
	"encoding/json"
	"slices"
	"strings"
	"time"
)

// identifyBody is the data of op 2.
type identifyBody struct {
	Token      string          `json:"token"`
	Intents    *Intents        `json:"intents"`
	Properties json.RawMessage `json:"properties"`
	Compress   bool            `json:"compress"`
	Shard      []int           `json:"shard"`
}

// identify begins a session, or says by a close code why not.
func (g *Gateway) identify(l *link, raw json.RawMessage) {
	s := g.srv
	g.stats.Identifies++
	var b identifyBody
	if code := g.refusal(l, raw, &b); code != 0 {
		l.close(code)
		return
	}
	left, _ := g.budget(s.Now())
	last := len(g.budgeted) - 1
	if s.opts.StrictIdentify && last >= 0 && s.Now().Sub(g.budgeted[last]) < 5*time.Second {
		l.push(encode(packet{Op: 9, D: false}))
		return
	}
	if left == 0 {
		l.close(4004)
		g.exhaust()
		return
	}
	g.budgeted = append(g.budgeted, s.Now())
	if g.greetSession(l) {
		return
	}
	ses := &session{id: "session-" + s.newID(), intents: *b.Intents, link: l, compress: b.Compress && l.squeeze == nil}
	g.sessions = append(g.sessions, ses)
	l.session = ses
	g.ready(ses, b.Shard)
}

// refusal is the close code that an IDENTIFY gets, 0 when it is in order.
func (g *Gateway) refusal(l *link, raw json.RawMessage, b *identifyBody) int {
	switch {
	case !decodeD(raw, b) || len(b.Properties) == 0:
		return 4002
	case l.session != nil:
		return 4005
	case strings.TrimPrefix(b.Token, "Bot ") != g.srv.token:
		return 4004
	case len(b.Shard) != 0 && (len(b.Shard) != 2 || b.Shard[0] < 0 || b.Shard[0] >= b.Shard[1]):
		return 4010
	case b.Intents == nil || *b.Intents&^known != 0:
		return 4013
	case *b.Intents&privileged&g.srv.opts.Disallowed != 0:
		return 4014
	}
	return 0
}

// ready tells a new session of the world.
func (g *Gateway) ready(ses *session, shard []int) {
	s := g.srv
	if len(shard) == 0 {
		shard = []int{0, 1}
	}
	guilds := []object{}
	for _, gu := range s.guilds {
		if !gu.gone {
			guilds = append(guilds, object{"id": gu.ID, "unavailable": true})
		}
	}
	ses.dispatch("READY", object{
		"v": 10, "user": userJSON(s.bot), "guilds": guilds, "session_id": ses.id, "resume_gateway_url": s.resumeURL(),
		"session_type": "normal", "application": object{"id": s.app, "flags": s.appFlags()}, "shard": shard,
		"private_channels": []any{}, "relationships": []any{}, "presences": []any{}, "user_settings": object{}, "_trace": []string{},
	})
	if ses.intents&GuildsIntent == 0 {
		return
	}
	for _, gu := range s.guilds {
		if !gu.gone {
			ses.dispatch("GUILD_CREATE", s.guildEvent(gu, ses.intents))
		}
	}
}

// resume continues a session: everything since seq is sent again.
func (g *Gateway) resume(l *link, raw json.RawMessage) {
	g.stats.Resumes++
	var b struct {
		Token     string `json:"token"`
		SessionID string `json:"session_id"`
		Seq       int    `json:"seq"`
	}
	if !decodeD(raw, &b) {
		l.close(4002)
		return
	}
	if strings.TrimPrefix(b.Token, "Bot ") != g.srv.token {
		l.close(4004)
		return
	}
	if g.greetSession(l) {
		return
	}
	i := slices.IndexFunc(g.sessions, func(s *session) bool { return s.id == b.SessionID })
	if i < 0 {
		l.push(encode(packet{Op: 9, D: false}))
		return
	}
	ses := g.sessions[i]
	if b.Seq > ses.seq || b.Seq < 0 {
		g.end(ses)
		l.close(4007)
		return
	}
	if ses.link != nil && ses.link != l {
		old := ses.link
		old.detach()
		old.cut()
	}
	ses.link, l.session = l, ses
	for _, data := range ses.log[b.Seq:] {
		l.push(data)
	}
	g.stats.Resumed++
	ses.dispatch("RESUMED", object{"_trace": []string{}})
}
