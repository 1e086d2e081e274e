package discord

import (
	"context"
	"errors"
	"log/slog"
	"net/url"
	"regexp"
	"strings"
)

// secretPath finds the tokens that stand in addresses: whoever has one can speak
// for the bot for fifteen minutes.
var secretPath = regexp.MustCompile(`((?:/webhooks/|/interactions/)\d+/)[^/?\s"']+`)

// redactor takes secrets out of texts.
type redactor struct{ token string }

func (r redactor) text(s string) string {
	if r.token != "" {
		s = strings.ReplaceAll(s, r.token, "[token]")
	}
	return secretPath.ReplaceAllString(s, "${1}[token]")
}

// bare is err without the address that net/http puts around it.
func bare(err error) error {
	var u *url.Error
	if errors.As(err, &u) {
		return u.Err
	}
	return err
}

// quietHandler passes log records on without secrets.
type quietHandler struct {
	slog.Handler
	redact redactor
}

// Handle passes a record on without secrets.
func (h quietHandler) Handle(ctx context.Context, r slog.Record) error {
	clean := slog.NewRecord(r.Time, r.Level, h.redact.text(r.Message), r.PC)
	r.Attrs(func(a slog.Attr) bool {
		clean.AddAttrs(h.clean(a))
		return true
	})
	return h.Handler.Handle(ctx, clean)
}

// WithAttrs strikes secrets out of what every later record carries.
func (h quietHandler) WithAttrs(attrs []slog.Attr) slog.Handler {
	cleaned := make([]slog.Attr, len(attrs))
	for i, a := range attrs {
		cleaned[i] = h.clean(a)
	}
	return quietHandler{h.Handler.WithAttrs(cleaned), h.redact}
}

// WithGroup opens a group.
func (h quietHandler) WithGroup(name string) slog.Handler {
	return quietHandler{h.Handler.WithGroup(name), h.redact}
}

func (h quietHandler) clean(a slog.Attr) slog.Attr {
	switch v := a.Value.Resolve(); v.Kind() {
	case slog.KindString:
		return slog.String(a.Key, h.redact.text(v.String()))
	case slog.KindAny:
		if err, ok := v.Any().(error); ok {
			return slog.String(a.Key, h.redact.text(err.Error()))
		}
	}
	return a
}
