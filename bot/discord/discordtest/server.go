package discordtest

import (
	"fmt"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// Server is one emulated platform. All its methods may be called from any
// goroutine.
type Server struct {
	opts   Options
	offset atomic.Int64 // nanoseconds that Advance added
	serial atomic.Uint64

	listener net.Listener
	http     *http.Server
	served   chan struct{} // closed when Serve returned
	closing  chan struct{} // closed when Close begins
	closed   sync.Once
	schema   *schema

	mu         sync.Mutex
	running    int           // calls and connections that are being served
	wake       chan struct{} // closed and replaced whenever anything changes
	token      string
	bot        *User
	app        string
	guild      *Guild
	guilds     []*Guild
	users      []*User
	channels   map[string]*Channel
	files      map[string]Upload
	acts       map[string]*Action // by interaction token
	commands   []*Command
	creates    map[string][]time.Time // command creations by scope
	nonces     []nonce
	faults     []*Armed
	limits     limiter
	requests   []Request
	violations []string
	gateway    *Gateway
}

// New starts a Server that ends with the test and reports every violation of
// the platform's rules through t.Errorf.
func New(t testing.TB, o Options) *Server {
	t.Helper()
	if o.Report == nil {
		o.Report = func(v string) { t.Errorf("%s", v) }
	}
	s, err := Start(o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	if s.schema == nil && !o.Lax {
		t.Log("the platform's OpenAPI document was not found: bodies are checked by the hand-written rules only")
	}
	return s
}

// Start starts a Server outside of a test. The caller closes it.
func Start(o Options) (*Server, error) {
	s := &Server{opts: withDefaults(o), served: make(chan struct{}), closing: make(chan struct{}), wake: make(chan struct{})}
	var err error
	if !o.Lax {
		if s.schema, err = findSchema(o.OpenAPI); err != nil {
			return nil, err
		}
	}
	if s.listener, err = net.Listen("tcp", "127.0.0.1:0"); err != nil {
		return nil, fmt.Errorf("discordtest: %w", err)
	}
	s.token = s.opts.Token
	s.gateway = newGateway(s)
	s.limits.init()
	s.populate()
	s.http = &http.Server{Handler: s}
	go func() {
		defer close(s.served)
		_ = s.http.Serve(s.listener) // always ends with ErrServerClosed
	}()
	return s, nil
}

// Close cuts every connection and waits until nothing of the server runs.
func (s *Server) Close() {
	s.closed.Do(func() {
		s.mu.Lock()
		close(s.closing)
		s.mu.Unlock()
		s.gateway.shut()
		_ = s.http.Close()
		<-s.served
		s.drain()
	})
}

// URL is the base to which a client appends /api/v10, such as
// http://127.0.0.1:40321.
func (s *Server) URL() string { return "http://" + s.listener.Addr().String() }

// GatewayURL is what GET /gateway hands out.
func (s *Server) GatewayURL() string { return "ws://" + s.listener.Addr().String() }

// resumeURL is what READY hands out for resuming.
func (s *Server) resumeURL() string { return s.GatewayURL() + resumePath }

const resumePath = "/resume"

// Token is the bot's token that the server accepts now.
func (s *Server) Token() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.token
}

// AppID is the application's id.
func (s *Server) AppID() string { return s.app }

// BotID is the id of the bot user.
func (s *Server) BotID() string { return s.bot.ID }

// Gateway controls the connections of the bot.
func (s *Server) Gateway() *Gateway { return s.gateway }

// Now is the simulated clock.
func (s *Server) Now() time.Time { return s.opts.Now().Add(time.Duration(s.offset.Load())) }

// Advance moves the simulated clock; a negative d moves it back.
func (s *Server) Advance(d time.Duration) {
	s.offset.Add(int64(d))
	s.mu.Lock()
	defer s.mu.Unlock()
	s.changed()
}

// Violations are the breaches of the platform's rules seen so far.
func (s *Server) Violations() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]string(nil), s.violations...)
}

// violate notes a breach of the rules. The lock is held.
func (s *Server) violate(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	s.violations = append(s.violations, text)
	if s.opts.Report != nil {
		s.opts.Report(text)
	}
}
