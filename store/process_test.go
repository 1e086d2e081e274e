package store_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"modernc.org/sqlite"

	"blockbell/planner"
	"blockbell/store"
	"blockbell/store/storetest"
)

// Some tests need a second process on one database: the test binary starts
// itself with a role.
const (
	roleVariable = "BLOCKBELL_STORE_TEST_ROLE"
	pathVariable = "BLOCKBELL_STORE_TEST_PATH"
)

func TestMain(m *testing.M) {
	// Some tests open files with the driver alone, and the first to open one
	// settles the kind of lock for the whole process.
	if _, err := sqlite.OFDLocking(true); err != nil && !errors.Is(err, sqlite.ErrOFDLockingUnavailable) {
		panic(err)
	}
	role := map[string]func(string) error{"hold": hold, "write": writeForEver}[os.Getenv(roleVariable)]
	if role == nil {
		os.Exit(m.Run())
	}
	if err := role(os.Getenv(pathVariable)); err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
}

// hold keeps the database open until its input ends.
func hold(path string) error {
	s, err := store.Open(context.Background(), path, terminal)
	if err != nil {
		return err
	}
	defer s.Close()
	fmt.Println("open")
	_, err = io.Copy(io.Discard, os.Stdin)
	return err
}

// setsInBatch is the number of sets that writeForEver logs in one transaction.
const setsInBatch = 3

// writeForEver logs batches and acknowledges each one when it is safe.
func writeForEver(path string) error {
	ctx := context.Background()
	s, err := store.Open(ctx, path, terminal)
	if err != nil {
		return err
	}
	for {
		var batch int64
		err := s.Update(ctx, func(tx *store.Tx) (err error) {
			if batch, err = tx.NextTerminalEvent(); err != nil {
				return err
			}
			sets := make([]planner.Set, setsInBatch)
			for i := range sets {
				sets[i] = aSet(march1.AddDays(int(batch) % 50))
			}
			_, err = tx.AddSets(1, strconv.FormatInt(batch, 10), sets, now)
			return err
		})
		if err != nil {
			return err
		}
		fmt.Println(batch)
	}
}

// start runs the test binary in a role on a database.
func start(t testing.TB, role, path string) (*exec.Cmd, io.WriteCloser, *bufio.Reader) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), roleVariable+"="+role, pathVariable+"="+path)
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
	return cmd, in, bufio.NewReader(out)
}

func TestSecondProcessIsKeptOut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "club.db")
	first, _, out := start(t, "hold", path)
	if line, err := out.ReadString('\n'); err != nil || line != "open\n" {
		t.Fatalf("the first process says %q, %v", line, err)
	}
	e := refused(t, path, terminal, planner.Conflict)
	if want := fmt.Sprintf("in use by process %d", first.Process.Pid); !strings.Contains(e.Sentence, want) {
		t.Errorf("%q does not say %q", e.Sentence, want)
	}
	r, err := store.OpenForReading(t.Context(), path)
	if err != nil {
		t.Fatalf("reading beside another process: %v", err)
	}
	if got := export(t, r)["origin"]; len(got) != 1 {
		t.Errorf("the export has no origin: %v", got)
	}
	r.Close()
	first.Process.Kill() // its lock must die with it
	first.Wait()
	s, err := store.Open(t.Context(), path, terminal)
	if err != nil {
		t.Fatalf("the lock outlived its process: %v", err)
	}
	s.Close()
}

// What was acknowledged survives kill -9 at any moment; what was not is there as
// a whole or not at all.
func TestAcknowledgedWritesSurviveKill(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	s := storetest.New(t)
	join(t, s, "ana")
	s.Close()
	rounds := 20
	if testing.Short() {
		rounds = 5
	}
	written := 0
	for round := range rounds {
		acked := killWhileWriting(t, s.Path(), 1+random.IntN(60))
		s, err := store.Open(t.Context(), s.Path(), terminal)
		if err != nil {
			t.Fatalf("round %d: opening after the kill: %v", round, err)
		}
		got := batches(t, s)
		if got < acked || got > acked+1 {
			t.Fatalf("round %d: %d batches are there, %d were acknowledged", round, got, acked)
		}
		if err := s.Check(t.Context()); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		written = got
	}
	if written < rounds {
		t.Errorf("only %d batches were written in %d rounds: the test proves little", written, rounds)
	}
}

// killWhileWriting kills a writer some microseconds after its nth acknowledgement
// and returns the last batch it acknowledged.
func killWhileWriting(t *testing.T, path string, n int) int {
	t.Helper()
	cmd, _, out := start(t, "write", path)
	last := 0
	for i := 0; ; i++ {
		if i == n {
			cmd.Process.Kill() // acknowledgements already on their way are read below
		}
		line, err := out.ReadString('\n')
		if err != nil {
			break
		}
		if last, err = strconv.Atoi(strings.TrimSpace(line)); err != nil {
			t.Fatalf("the writer says %q", line)
		}
	}
	cmd.Wait()
	return last
}

// batches counts the batches in the log and checks that the last ones, where a
// tear would be, are whole.
func batches(t *testing.T, s *store.Store) int {
	t.Helper()
	log := read(t, s, func(tx *store.Tx) ([]planner.Set, error) { return tx.Sets(1, march1, march1.AddDays(60)) })
	if len(log)%setsInBatch != 0 {
		t.Fatalf("%d sets are no whole number of batches", len(log))
	}
	n := len(log) / setsInBatch
	view(t, s, func(tx *store.Tx) error {
		for i := max(1, n-5); i <= n; i++ {
			sets, err := tx.SetsOfMessage(1, strconv.Itoa(i))
			if err != nil || len(sets) != setsInBatch {
				t.Fatalf("batch %d has %d sets, %v", i, len(sets), err)
			}
		}
		return nil
	})
	return n
}
