package store_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// refused opens path, expects an error for a person and returns it.
func refused(t testing.TB, path string, o store.Options, kind planner.ErrorKind) *planner.Error {
	t.Helper()
	s, err := store.Open(t.Context(), path, o)
	if err == nil {
		s.Close()
		t.Fatalf("%s was opened", path)
	}
	wantKind(t, err, kind)
	var e *planner.Error
	errors.As(err, &e)
	return e
}

// listing is the content of a folder with the mode of each file.
func listing(t testing.TB, dir string) (files []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		files = append(files, fmt.Sprintf("%s %o", name, info.Mode().Perm()))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestFilesAreTheOwnersOnly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "er")
	s, err := store.Open(t.Context(), filepath.Join(dir, "club.db"), terminal)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	join(t, s, "ana")
	same(t, "the folder", listing(t, filepath.Dir(dir)),
		[]string{". 700", "er 700", "er/club.db 600", "er/club.db-shm 600", "er/club.db-wal 600", "er/club.db.lock 600"})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	same(t, "the folder after closing", listing(t, dir), []string{". 700", "club.db 600", "club.db.lock 600"})
}

func TestOpenHidesAFileOthersCouldRead(t *testing.T) {
	s := storetest.New(t)
	s.Close()
	if err := os.Chmod(s.Path(), 0o644); err != nil {
		t.Fatal(err)
	}
	storetest.Reopen(t, s)
	info, err := os.Stat(s.Path())
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file's mode is %o, %v", info.Mode().Perm(), err)
	}
}

func TestAnyFileNameWorks(t *testing.T) {
	for _, name := range []string{"a b.db", "what?mode=ro.db", "100%41.db", "#1&2;3'\".db", "clüb.db", "no-ending"} {
		dir := t.TempDir()
		s, err := store.Open(t.Context(), filepath.Join(dir, name), terminal)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		join(t, s, "ana")
		s.Close()
		same(t, "files of "+name, listing(t, dir)[1:], []string{name + " 600", name + ".lock 600"})
	}
}

func TestTheOtherWorldIsRefused(t *testing.T) {
	for _, c := range []struct{ is, wanted store.World }{
		{store.Terminal, store.Platform}, {store.Platform, store.Terminal},
	} {
		path := filepath.Join(t.TempDir(), "club.db")
		s, err := store.Open(t.Context(), path, store.Options{World: c.is, Now: now})
		if err != nil {
			t.Fatal(err)
		}
		s.Close()
		e := refused(t, path, store.Options{World: c.wanted, Now: now}, planner.Conflict)
		if !strings.Contains(e.Sentence, "belongs to") || e.Hint == "" {
			t.Errorf("%s as %s: %q, hint %q", c.is, c.wanted, e.Sentence, e.Hint)
		}
		s, err = store.Open(t.Context(), path, store.Options{World: c.is, Now: now})
		if err != nil {
			t.Fatalf("after the refusal the database does not open in its own world: %v", err)
		}
		if err := s.BelongsTo(t.Context(), c.is); err != nil {
			t.Errorf("%s: %v", c.is, err)
		}
		wantKind(t, s.BelongsTo(t.Context(), c.wanted), planner.Conflict)
		s.Close()
	}
	refused(t, filepath.Join(t.TempDir(), "x.db"), store.Options{World: "moon"}, planner.Invalid)
}

func TestSecondOpenNamesTheFirst(t *testing.T) {
	s := storetest.New(t)
	e := refused(t, s.Path(), terminal, planner.Conflict)
	if want := fmt.Sprintf("in use by process %d", os.Getpid()); !strings.Contains(e.Sentence, want) {
		t.Errorf("%q does not say %q", e.Sentence, want)
	}
	s.Close()
	again, err := store.Open(t.Context(), s.Path(), terminal)
	if err != nil {
		t.Fatalf("a closed store still holds the lock: %v", err)
	}
	again.Close()
}

func TestReadingNeedsNoLockAndCannotWrite(t *testing.T) {
	s := storetest.New(t)
	join(t, s, "ana")
	r, err := store.OpenForReading(t.Context(), s.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	count := func() (n int) {
		view(t, r, func(tx *store.Tx) error { all, err := tx.Lifters(); n = len(all); return err })
		return n
	}
	if count() != 1 {
		t.Error("the member is not seen")
	}
	join(t, s, "bo")
	if count() != 2 {
		t.Error("what was written later is not seen")
	}
	wantKind(t, r.Update(t.Context(), func(*store.Tx) error { return nil }), planner.Forbidden)
	_, err = store.OpenForReading(t.Context(), s.Path()+".none")
	wantKind(t, err, planner.NotFound)
	if _, err := os.Stat(s.Path() + ".none"); err == nil {
		t.Error("reading made a file")
	}
}

func TestOtherFilesAreRefusedAndUntouched(t *testing.T) {
	text := strings.Repeat("squat 140x5\n", 500)
	foreign := filepath.Join(t.TempDir(), "foreign.db")
	makeForeign(t, foreign)
	foreignBytes, err := os.ReadFile(foreign)
	if err != nil {
		t.Fatal(err)
	}
	for name, content := range map[string]string{
		"text": text, "short text": "x", "another program's": string(foreignBytes), "cut off": string(foreignBytes[:700]),
	} {
		path := filepath.Join(t.TempDir(), "club.db")
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) {
			if e := refused(t, path, terminal, planner.Invalid); e.Hint == "" {
				t.Errorf("%q has no hint", e.Sentence)
			}
			_, err := store.OpenForReading(t.Context(), path)
			wantKind(t, err, planner.Invalid)
			after, err := os.ReadFile(path)
			if err != nil || string(after) != content {
				t.Errorf("the file was changed: %v", err)
			}
		})
	}
}

func TestBadPathsAreTold(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	refused(t, dir, terminal, planner.NotFound)
	refused(t, filepath.Join(file, "club.db"), terminal, planner.NotFound)
	refused(t, "", terminal, planner.Invalid)
}

func TestOpenEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	path := filepath.Join(t.TempDir(), "club.db")
	if _, err := store.Open(ctx, path, terminal); !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v, want the context's end", err)
	}
	s, err := store.Open(t.Context(), path, terminal)
	if err != nil {
		t.Fatalf("after an Open that was called off: %v", err)
	}
	s.Close()
}
