package terminal

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"blockbell/bot/chat"
)

func TestPostIsMadeOnce(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	p := s.due.poster
	post := chat.Post{
		Key: "ana/taper/b3/2027-06-01/0d", Facts: []string{"ana/taper/b3/2027-06-01/0d"},
		To: chat.Target{Person: "ana"}, At: moment(t, "2027-06-01T08:00:00Z"),
		Message: chat.Message{Text: "The taper starts.", Files: []chat.File{{Name: "plan.png", Bytes: []byte("x")}}},
	}
	if _, found, err := p.Find(t.Context(), post); found || err != nil {
		t.Fatalf("found before it was posted: %v", err)
	}
	first, err := p.Post(t.Context(), post)
	if err != nil {
		t.Fatal(err)
	}
	again, err := p.Post(t.Context(), post)
	if err != nil || again != first {
		t.Errorf("posting again gave %q, %v; want %q", again, err, first)
	}
	if found, ok, err := p.Find(t.Context(), post); !ok || err != nil || found != first {
		t.Errorf("Find = %q, %v, %v; want %q", found, ok, err, first)
	}
	o := only(t, s.out.String())
	if o.Kind != "direct" || o.To != "@ana" || !o.Private || o.At != "2027-06-01T08:00:00Z" || o.Nudge[0] != post.Key {
		t.Errorf("printed %+v", o)
	}
	if content, err := os.ReadFile(filepath.Join(s.Screen.Dir, o.Files[0])); err != nil || string(content) != "x" {
		t.Errorf("the file holds %q, %v", content, err)
	}
}

func TestPostToNobodyIsUnreachable(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	_, err := s.due.poster.Post(t.Context(), chat.Post{Key: "k", At: wallTime})
	var unreachable *chat.UnreachableError
	if !errors.As(err, &unreachable) {
		t.Errorf("got %v, want an UnreachableError", err)
	}
}

func TestPostIsNotPrintedUnlessStored(t *testing.T) {
	s := newStage(t, newNotebook(), &scripted{})
	s.memory.fault = errors.New("disk full")
	_, err := s.due.poster.Post(t.Context(), chat.Post{Key: "k", To: chat.Target{Channel: "#announcements"}, At: wallTime})
	if err == nil || s.out.Len() > 0 {
		t.Errorf("err %v, printed %q", err, s.out)
	}
}

func TestFileNamesDoNotCollide(t *testing.T) {
	s := &Screen{Dir: filepath.Join(t.TempDir(), "pictures")}
	cases := []struct{ name, bytes, want string }{
		{"season.png", "a", "season.png"},
		{"season.png", "a", "season.png"}, // the same picture again
		{"season.png", "b", "season-2.png"},
		{"season.png", "c", "season-3.png"},
		{"season.png", "b", "season-2.png"},
		{"../../season.png", "d", "season-4.png"},
		{`..\season.png`, "e", "season-5.png"},
		{"..", "f", "file"},
		{"", "g", "file-2"},
		{"notes", "h", "notes"},
	}
	for _, c := range cases {
		got, err := s.save([]chat.File{{Name: c.name, Bytes: []byte(c.bytes)}})
		if err != nil || len(got) != 1 || got[0] != c.want {
			t.Errorf("save(%q, %q) = %v, %v; want %s", c.name, c.bytes, got, err, c.want)
			continue
		}
		if content, err := os.ReadFile(filepath.Join(s.Dir, c.want)); err != nil || string(content) != c.bytes {
			t.Errorf("%s holds %q, %v; want %q", c.want, content, err, c.bytes)
		}
	}
}

func TestFileThatCannotBeWrittenIsAnError(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "blocked")
	if err := os.WriteFile(blocked, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s := &Screen{Dir: filepath.Join(blocked, "pictures")}
	if names, err := s.save([]chat.File{{Name: "a.png"}}); err == nil {
		t.Errorf("saved %v below a file", names)
	}
}
