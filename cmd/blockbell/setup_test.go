package main

import (
	"bufio"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
)

// setupSteps returns the lines of the code blocks in the README's part on a real
// workspace, in order.
func setupSteps(t *testing.T) (lines []string) {
	t.Helper()
	raw, err := os.ReadFile(readmePath)
	if err != nil {
		t.Fatal(err)
	}
	_, part, found := strings.Cut(string(raw), "## On a real workspace\n")
	if !found {
		t.Fatal("the README has no part on a real workspace")
	}
	part, _, _ = strings.Cut(part, "\nContributors:")
	inside := false
	for s := bufio.NewScanner(strings.NewReader(part)); s.Scan(); {
		line := strings.TrimSpace(s.Text())
		if strings.HasPrefix(line, "```") {
			inside = !inside
		} else if inside {
			lines = append(lines, line)
		}
	}
	return lines
}

// TestSetupOfTheReadme follows the README from the token to the first answer: what
// it says to type is typed, what it says to click is done on the emulator.
func TestSetupOfTheReadme(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{Disallowed: discordtest.MessageContentIntent, Now: mondayOn()})
	s.srv.Guild().RemoveBot() // nobody has let it in yet
	folder := t.TempDir()
	s.srv.Disallow(0) // Message Content Intent is switched on in the portal
	captain := s.srv.User("cap")
	var served *process
	block := ""
	for _, line := range setupSteps(t) {
		switch {
		case strings.HasPrefix(line, "go build "):
			if _, err := os.Stat(filepath.Join(root, strings.Fields(line)[4])); err != nil {
				t.Errorf("%s: %v", line, err)
			}
		case strings.HasPrefix(line, "install "):
			cmd := exec.CommandContext(t.Context(), "sh", "-c", line)
			cmd.Dir, cmd.Stdin = folder, strings.NewReader(s.srv.Token()+"\n")
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("%s: %v\n%s", line, err, out)
			}
			if info, err := os.Stat(filepath.Join(folder, "token")); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("the token file: %v %v", info, err)
			}
		case strings.HasPrefix(line, "./blockbell serve "):
			served = s.typed(folder, line)
			served.err.await(t, 1, "commands are registered")
			s.letIn(served)
		case strings.HasPrefix(line, "./blockbell check "):
			p := s.typed(folder, line)
			if status := p.wait(); status != statusOK {
				t.Errorf("%s: status %d\n%s", line, status, p.out)
			}
		case strings.HasPrefix(line, "/"):
			path, opts := structured(t, line)
			m, err := captain.Command("#training-log", path, opts...).AwaitMessage(soon(t))
			if err != nil || !m.Private() {
				t.Fatalf("%s: %v %v", line, m, err)
			}
			block = m.Content
			for _, e := range m.Embeds {
				block += e.Title + "\n" + e.Description
			}
		default:
			t.Errorf("a step that nobody follows: %s", line)
		}
	}
	if served == nil {
		t.Fatal("nothing was served")
	}
	wants(t, block, "Day 1 of your", "days left")
	if status, _ := served.terminate(); status != statusOK {
		t.Errorf("status %d", status)
	}
	t.Logf("the first answer: %s", block)
}

// letIn opens the printed address and lets the bot into the server.
func (s *serving) letIn(p *process) {
	s.t.Helper()
	_, address, found := strings.Cut(p.out.String(), "Let it into a server: ")
	u, err := url.Parse(strings.TrimSpace(address))
	if !found || err != nil {
		s.t.Fatalf("no address is printed: %s", p.out)
	}
	q := u.Query()
	if u.Host != "discord.com" || q.Get("client_id") != s.srv.AppID() || q.Get("permissions") != fmt.Sprint(uint64(defaultRights)) {
		s.t.Errorf("the address is %s", u)
	}
	s.srv.Guild().LetIn()
	p.err.await(s.t, 1, isBack)
}

// defaultRights are the seven that the README names.
const defaultRights = discordtest.ViewChannel | discordtest.SendMessages | discordtest.SendInThreads | discordtest.EmbedLinks |
	discordtest.AttachFiles | discordtest.ReadHistory | discordtest.AddReactions

// typed runs a line of the README in a folder, with nothing added but where the
// platform is and what its clock says.
func (s *serving) typed(folder, line string) *process {
	s.t.Helper()
	words := strings.Fields(line)
	return s.started(folder, words[1:], "BLOCKBELL_API="+s.srv.URL())
}
