package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"blockbell/bot/chat"
)

const (
	// largestAnswer bounds what is read of an answer; a page of messages with
	// embeds stays well below it.
	largestAnswer = 16 << 20
	// attempts bounds how often a request is sent.
	attempts = 4
	// longestWait is the longest wait for a rate limit that a request sits out;
	// whoever asked is told about longer ones.
	longestWait = 10 * time.Second
	// firstPause is the wait after a first fault; it doubles.
	firstPause = 250 * time.Millisecond
	// oneTry bounds a single attempt, so that a connection that hangs leaves time
	// for another.
	oneTry = 8 * time.Second
)

// rest sends requests to the platform's HTTP interface. The library's own way of
// sending sleeps at rate limits without regard to the context, repeats what must
// not be repeated, and shows tokens in its errors; so requests take this way and
// share only the library's form of a multipart body.
type rest struct {
	token  string
	http   *http.Client
	gates  *gates
	skew   *skew
	redact redactor
	// rejected is told when the platform no longer accepts the token.
	rejected func(error)
}

// request is one thing asked of the platform.
type request struct {
	method string
	path   string // after /api/v10
	body   any    // nil: none
	files  []chat.File
	// again allows the request to be repeated when it is not known whether it was
	// done: reading, setting, deleting, and posting with an enforced nonce.
	again bool
	try   time.Duration // the longest one attempt may take; 0: oneTry
}

// do sends a request, repeating it where that is safe, and decodes the answer into
// the given place where there is one. repeated tells whether the answer may be to
// a second sending, so that "already done" means done.
func (r *rest) do(ctx context.Context, q request, into any) (repeated bool, err error) {
	kind, body, err := q.encode()
	if err != nil {
		return false, err
	}
	pause := firstPause
	for n := 1; ; n++ {
		err = r.once(ctx, q, kind, body, into)
		if len(q.files) > 0 && coded(err, codeTooLarge) {
			q = q.withoutFiles() // the words alone are better than nothing
			if kind, body, err = q.encode(); err != nil {
				return false, err
			}
			continue
		}
		wait, worth := q.wait(err, pause)
		if err == nil || !worth || n == attempts || ctx.Err() != nil {
			return n > 1, err
		}
		sleep(ctx, wait)
		if ctx.Err() != nil {
			return true, err
		}
		pause *= 2
	}
}

// withoutFiles is the same request with a line in place of its files.
func (q request) withoutFiles() request {
	q.files = nil
	switch b := q.body.(type) {
	case body:
		q.body = b.withoutFiles()
	case callback:
		if d, ok := b.Data.(body); ok {
			b.Data = d.withoutFiles()
			q.body = b
		}
	}
	return q
}

// wait says after how long a failed request may be sent again, if at all.
func (q request) wait(err error, pause time.Duration) (time.Duration, bool) {
	var refused *apiError
	if errors.As(err, &refused) {
		switch {
		case refused.Status == http.StatusTooManyRequests:
			return refused.Wait, refused.Wait <= longestWait
		case refused.Status >= 500:
			return max(refused.Wait, pause/2+jitter(pause)), q.again && refused.Wait <= longestWait
		}
		return 0, false
	}
	return pause/2 + jitter(pause), q.again && isUnknown(err)
}

// once sends a request one time.
func (r *rest) once(ctx context.Context, q request, kind string, body []byte, into any) error {
	route := routeOf(q.method, q.path)
	if wait, err := r.gates.enter(ctx, route, !q.interaction()); err != nil {
		if wait > 0 {
			return &errHeld{wait}
		}
		return err
	}
	limit := q.try
	if limit == 0 {
		limit = oneTry
	}
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, q.method, "https://discord.com/api/v"+apiVersion+q.path, bytes.NewReader(body))
	if err != nil {
		return errors.New(r.redact.text(err.Error()))
	}
	req.Header.Set("Authorization", "Bot "+r.token)
	if kind != "" {
		req.Header.Set("Content-Type", kind)
	}
	sent := r.skew.now()
	resp, err := r.http.Do(req)
	if err != nil {
		return &lostError{bare(err)}
	}
	defer resp.Body.Close()
	r.skew.heard(resp.Header.Get("Date"), sent)
	answer, err := io.ReadAll(io.LimitReader(resp.Body, largestAnswer))
	if err != nil {
		return &lostError{bare(err)}
	}
	return r.judge(q, route, resp, answer, into)
}

// judge makes an answer into a value or an error.
func (r *rest) judge(q request, route string, resp *http.Response, answer []byte, into any) error {
	if resp.StatusCode/100 == 2 {
		r.gates.learn(route, resp.StatusCode, resp.Header, 0, false)
		if into == nil || len(answer) == 0 {
			return nil
		}
		return json.Unmarshal(answer, into)
	}
	e := readRefusal(resp.StatusCode, resp.Header, answer)
	r.gates.learn(route, resp.StatusCode, resp.Header, e.Wait, e.Global)
	if badToken(e) && !q.interaction() {
		r.rejected(e)
	}
	return e
}

// interaction tells whether the request is made in the name of an interaction;
// the platform's global limit does not count those.
func (q request) interaction() bool {
	return strings.HasPrefix(q.path, "/interactions/") || strings.HasPrefix(q.path, "/webhooks/")
}

// encode makes the body: JSON, or several parts where there are files.
func (q request) encode() (kind string, body []byte, err error) {
	if q.body == nil {
		return "", nil, nil
	}
	if len(q.files) == 0 {
		body, err = json.Marshal(q.body)
		return "application/json", body, err
	}
	files := make([]*discordgo.File, len(q.files))
	for i, f := range q.files {
		files[i] = &discordgo.File{Name: f.Name, ContentType: http.DetectContentType(f.Bytes), Reader: bytes.NewReader(f.Bytes)}
	}
	return discordgo.MultipartBodyWithJSON(q.body, files)
}
