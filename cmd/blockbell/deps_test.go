package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// root is the folder of the module, seen from this package.
const root = "../.."

// mayImport says for each package which others of the project it may import, and
// why no more. A name that ends in /... stands for everything below it.
var mayImport = []struct {
	pkg    string
	others []string
	reason string
}{
	{"planner", nil, "the vocabulary of training is shared by everyone, so it can depend on nobody"},
	{"planner/...", []string{"planner"}, "each calculation stands alone on the vocabulary; what joins them lives above"},
	{"planner/load", []string{"planner", "planner/strength"}, "a week needs the one relation between repetitions and percent, and nothing else"},
	{"store", []string{"planner", "planner/...", "store/internal/..."}, "the database knows training, not conversation"},
	{"store/internal/...", []string{"planner", "store/internal/..."}, "generated queries know only the nouns they scan into"},
	{"store/storetest", []string{"planner", "store"}, "a fresh database for a test needs nothing above the store"},
	{"bot/chat", nil, "the vocabulary of a conversation is shared by everyone, so it can depend on nobody"},
	{"bot/parse/sheet", []string{"planner", "bot/parse"}, "a table of sets is text too: its lifts and days are read as in a line"},
	{"bot/parse", []string{"planner", "planner/strength"}, "reading a line needs nouns and the reading of effort, no database and no conversation"},
	{"bot/render/chart", []string{"planner"}, "a picture needs days and kinds of blocks, and values that somebody else reckoned"},
	{"bot/render", []string{"planner", "planner/...", "bot/chat", "bot/render/chart"}, "showing an answer is pure: values in, a message out"},
	{"bot/nudge", []string{"planner", "planner/...", "store", "bot/chat", "bot/render"}, "nudges are asked by nobody, so they cannot know the commands"},
	{"bot/schedule", nil, "the ticker knows when, not what"},
	{"bot/terminal", []string{"bot/chat"}, "an adapter knows the conversation and nothing behind it"},
	{"bot/discord", []string{"bot/chat"}, "an adapter knows the conversation and nothing behind it"},
	{"bot/discord/discordtest", nil, "the emulator is an independent witness"},
	{"bot", []string{"planner", "planner/...", "store", "bot/chat", "bot/parse", "bot/parse/sheet", "bot/render", "bot/render/chart", "bot/nudge"}, "the bot answers events and knows no adapter"},
	{"cmd/blockbell", []string{"planner", "planner/...", "store", "bot", "bot/..."}, "all parts meet here, but nothing made for tests"},
}

// onlyIn lists outside packages that one part of the project keeps to itself.
var onlyIn = []struct {
	outside string
	homes   []string
	reason  string
}{
	{"database/sql", []string{"store", "store/..."}, "SQL has one home, so that every statement is found and tested there"},
	{"modernc.org/sqlite", []string{"store", "store/..."}, "which database it is, only the store knows"},
	{"gonum.org/v1/plot", []string{"bot/render/chart"}, "how pictures are drawn is one package's affair"},
	{"github.com/go-co-op/gocron/v2", []string{"bot/schedule"}, "the ticker can be exchanged in one place"},
	{"github.com/bwmarrin/discordgo", []string{"bot/discord"}, "the platform's library can be exchanged in one place"},
}

// outsidePlanner are parts of the standard library that a pure calculation
// cannot need; whatever is not in the standard library is out anyway.
var outsidePlanner = []string{"context", "database/sql", "net", "os", "log", "io/fs", "syscall"}

// listed is what the go command knows of a package.
type listed struct {
	ImportPath, Dir string
	GoFiles         []string
	Imports         []string
}

func listPackages(t *testing.T, args ...string) []listed {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", append([]string{"list", "-json=ImportPath,Dir,GoFiles,Imports"}, args...)...)
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		var failed *exec.ExitError
		if errors.As(err, &failed) {
			t.Fatalf("go list: %v\n%s", err, failed.Stderr)
		}
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

// within tells whether a package matches one of the patterns.
func within(pkg string, patterns []string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool {
		below, deep := strings.CutSuffix(p, "/...")
		return pkg == p || deep && strings.HasPrefix(pkg, below+"/")
	})
}

func TestImportsPointOneWay(t *testing.T) {
	for _, p := range listPackages(t, "./...") {
		pkg := strings.TrimPrefix(p.ImportPath, "blockbell/")
		// The longest matching name decides, so store/storetest is not store/...
		rule := -1
		for i, r := range mayImport {
			if within(pkg, []string{r.pkg}) && (rule < 0 || len(r.pkg) > len(mayImport[rule].pkg)) {
				rule = i
			}
		}
		if rule < 0 {
			t.Errorf("%s is new: say in this test what it may import, and why", pkg)
			continue
		}
		for _, path := range p.Imports {
			other, ours := strings.CutPrefix(path, "blockbell/")
			testOnly := other == "store/storetest" || other == "bot/discord/discordtest"
			if ours && (testOnly || !within(other, mayImport[rule].others)) {
				t.Errorf("%s imports %s: %s", pkg, other, mayImport[rule].reason)
			}
		}
	}
}

func TestLibrariesKeepToTheirHome(t *testing.T) {
	for _, p := range listPackages(t, "./...") {
		pkg := strings.TrimPrefix(p.ImportPath, "blockbell/")
		for _, rule := range onlyIn {
			if slices.Contains(p.Imports, rule.outside) && !within(pkg, rule.homes) {
				t.Errorf("%s imports %s: %s", pkg, rule.outside, rule.reason)
			}
		}
	}
}

func TestPlannerIsPure(t *testing.T) {
	for _, p := range listPackages(t, "./planner/...") {
		pkg := strings.TrimPrefix(p.ImportPath, "blockbell/")
		for _, path := range p.Imports {
			first, _, _ := strings.Cut(path, "/")
			standard := !strings.Contains(first, ".") && first != "blockbell"
			library := !standard && first != "blockbell"
			if library && pkg == "planner" {
				t.Errorf("%s imports %s: the vocabulary needs the standard library only", pkg, path)
			}
			if within(path, outsidePlanner) || within(path, []string{"net/...", "log/...", "os/..."}) {
				t.Errorf("%s imports %s: a calculation does no input or output and waits for nothing", pkg, path)
			}
		}
	}
}

func TestProgramDoesNotLinkWhatIsForTests(t *testing.T) {
	for _, p := range listPackages(t, "-deps", "./cmd/blockbell") {
		switch p.ImportPath {
		case "testing", "blockbell/store/storetest", "blockbell/bot/discord/discordtest":
			t.Errorf("the program links %s: it is for tests only", p.ImportPath)
		}
	}
}

// TestTimeIsAnArgument: only the command asks the clock. Everything else is told
// the time, which is what makes a season playable in a second.
func TestTimeIsAnArgument(t *testing.T) {
	for _, p := range listPackages(t, "./planner/...", "./store/...", "./bot/...") {
		for _, name := range p.GoFiles {
			file := filepath.Join(p.Dir, name)
			for _, at := range clockCalls(t, file) {
				t.Errorf("%s asks the clock: time is an argument there", at)
			}
		}
	}
}

// clockCalls finds uses of the functions that ask the wall clock.
func clockCalls(t *testing.T, file string) []string {
	t.Helper()
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	name := "" // what the file calls package time
	for _, i := range parsed.Imports {
		if path, _ := strconv.Unquote(i.Path.Value); path == "time" {
			name = "time"
			if i.Name != nil {
				name = i.Name.Name
			}
		}
	}
	var found []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		x, ok := s.X.(*ast.Ident)
		if ok && name != "" && x.Name == name && slices.Contains([]string{"Now", "Since", "Until"}, s.Sel.Name) {
			found = append(found, set.Position(s.Pos()).String())
		}
		return true
	})
	return found
}
