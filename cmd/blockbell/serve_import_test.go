package main

import (
	"strings"
	"testing"

	"blockbell/bot/discord/discordtest"
	"blockbell/store"
)

// A file of sets goes the whole way on the platform: command with attachment,
// preview, press, and the log that comes back as a file.
func TestImportOnThePlatform(t *testing.T) {
	t.Parallel()
	s := newServing(t, discordtest.Options{})
	s.ready()
	const file = "date,lift,variant,weight_kg,reps,sets,rir,missed,gear\n2026-12-01,squat,,140,5,3,2,,\n2026-12-02,bench,close grip,92.5,3,1,,,\n"
	ana := s.srv.User("ana")
	m, err := ana.Command("#training-log", "log import", discordtest.Opt{Name: "file", Value: discordtest.Upload{Name: "log.csv", ContentType: "text/csv", Bytes: []byte(file)}}).AwaitMessage(soon(t))
	if err != nil || !m.Private() || len(m.Embeds) == 0 || !strings.Contains(m.Embeds[0].Description, "New: 2 sets") {
		t.Fatalf("%v %+v", err, m)
	}
	if n := s.sets(ana.ID); n != 0 {
		t.Fatalf("%d sets were written before the yes", n)
	}
	if act := ana.Press(m.ID, "Import 2 sets"); act.Err() != nil {
		t.Fatal(act.Err())
	}
	m, err = ana.AwaitMessage(soon(t), "#training-log", func(one discordtest.Message) bool {
		return one.ID == m.ID && strings.Contains(one.Content, "Imported 2 sets")
	})
	if err != nil {
		t.Fatal(err)
	}
	out, err := ana.Command("#training-log", "log export").AwaitMessage(soon(t))
	if err != nil || len(out.Attachments) != 1 || string(out.Attachments[0].Bytes) != file {
		t.Errorf("the log comes back as %v %+v", err, out.Attachments)
	}
	if act := ana.Press(m.ID, "Undo this import"); act.Err() != nil {
		t.Fatal(act.Err())
	}
	s.until(func() bool { return s.sets(ana.ID) == 0 })
}

// sets counts the logged sets of a person.
func (s *serving) sets(handle string) (n int) {
	s.t.Helper()
	reader, err := store.OpenForReading(s.t.Context(), s.db)
	if err != nil {
		s.t.Fatal(err)
	}
	defer reader.Close()
	err = reader.View(s.t.Context(), func(tx *store.Tx) error {
		l, _, err := tx.LifterByHandle(handle)
		if err != nil {
			return err
		}
		all, err := tx.RecentSets(l.ID, 100)
		n = len(all)
		return err
	})
	if err != nil {
		s.t.Fatal(err)
	}
	return n
}
