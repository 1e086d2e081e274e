package store

import (
	"database/sql"
	"path/filepath"
	"strings"
	"testing"
	"time"

	lib "modernc.org/sqlite/lib"
)

// fresh opens a new database from inside the package, where the connections can
// be reached.
func fresh(t testing.TB) *Store {
	t.Helper()
	s, err := Open(t.Context(), filepath.Join(t.TempDir(), "club.db"), Options{Terminal, time.Unix(1, 0)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// Every connection of both pools, all held at once, has every setting.
func TestEveryConnectionHasTheSettings(t *testing.T) {
	s := fresh(t)
	for name, pool := range map[string]struct {
		db    *sql.DB
		n     int
		query string
	}{"writer": {s.writer, 1, "0"}, "readers": {s.readers, readerCount, "1"}} {
		if got := pool.db.Stats().MaxOpenConnections; got != pool.n {
			t.Errorf("the %s pool may grow to %d, want %d", name, got, pool.n)
		}
		for range pool.n {
			c, err := pool.db.Conn(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			defer c.Close() // held until all were looked at
			for pragma, want := range map[string]string{
				"journal_mode": "wal", "synchronous": "2" /* FULL */, "foreign_keys": "1", "busy_timeout": "5000",
				"temp_store": "2" /* MEMORY */, "cache_size": "-8000", "trusted_schema": "0", "mmap_size": "0",
				"query_only": pool.query,
			} {
				var got string
				if err := c.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got); err != nil {
					t.Errorf("%s of the %s: %v", pragma, name, err)
				} else if got != want {
					t.Errorf("%s of the %s is %s, want %s", pragma, name, got, want)
				}
			}
			if _, err := c.QueryContext(t.Context(), `SELECT "no such column"`); err == nil {
				t.Errorf("the %s takes a misspelt column for a text", name)
			}
		}
	}
}

func TestReadersCannotWriteEvenByForce(t *testing.T) {
	s := fresh(t)
	c, err := s.readers.Conn(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := c.ExecContext(t.Context(), "PRAGMA query_only = 0"); err != nil {
		t.Fatal(err)
	}
	_, err = c.ExecContext(t.Context(), "DELETE FROM origin")
	if primary(err) != lib.SQLITE_READONLY {
		t.Errorf("got %v, want read-only", err)
	}
}

// What the schema itself refuses, whoever writes.
func TestSchemaRefusesBadRows(t *testing.T) {
	s := fresh(t)
	exec := func(statement string) error {
		_, err := s.writer.ExecContext(t.Context(), statement)
		return err
	}
	const lifter = `INSERT INTO lifters VALUES (1,'ana','ana','',0,NULL,'','',NULL,0,0,0,'','','',0,0,0,0,'',0,0,1,1,1,'','')`
	const set = `INSERT INTO sets VALUES (1,'2027-03-01',1,'m','squat','',140000,5,1,NULL,0,'',0,1)`
	const meet = `INSERT INTO meets VALUES (1,1,'Open','2027-06-12','main','full','raw','',2,0,0,0,NULL,'','',NULL,0,0,0,1,1,NULL)`
	const plan = `INSERT INTO plans VALUES (1,1,1,'proposed',1,NULL,1,'{}')`
	const block = `INSERT INTO plan_blocks VALUES (1,0,'strength','2027-03-01','2027-03-28',4,NULL,'',NULL)`
	const post = `INSERT INTO posts VALUES ('p','c','','{}',1,'planned',0,NULL,'','',1,NULL)`
	for _, good := range []string{lifter, set, meet, plan, block, post, `INSERT INTO bodyweights VALUES (1,'2027-03-01',62500,1)`} {
		if err := exec(good); err != nil {
			t.Fatalf("%s: %v", good, err)
		}
	}
	next := func(row string) string { return strings.Replace(row, "(1,'2027-03-01',1", "(1,'2027-03-01',2", 1) }
	swap := func(row, old, new string) string {
		if !strings.Contains(row, old) {
			t.Fatalf("%q is not in %q", old, row)
		}
		return strings.Replace(row, old, new, 1)
	}
	const check, foreign = lib.SQLITE_CONSTRAINT_CHECK, lib.SQLITE_CONSTRAINT_FOREIGNKEY
	for _, c := range []struct {
		statement string
		want      int
	}{
		{swap(set, "2027-03-01", "2027-02-30"), check},
		{swap(set, "2027-03-01", "2027-02-29"), check},
		{swap(set, "2027-03-01", "2461000.5"), check},
		{swap(set, "2027-03-01", "2027-03-01 10:00"), check},
		{swap(set, "2027-03-01", "2027-3-1"), check},
		{swap(set, "'2027-03-01'", "'soon'"), check},
		{swap(set, "'2027-03-01'", "'now'"), lib.SQLITE_ERROR}, // a check may not ask the clock
		{swap(set, "'2027-03-01'", "NULL"), lib.SQLITE_CONSTRAINT_NOTNULL},
		{swap(next(set), "140000", "-1"), check},
		{swap(next(set), "140000", "700001"), check},
		{swap(next(set), "140000", "140.5"), lib.SQLITE_CONSTRAINT_DATATYPE},
		{swap(next(set), "140000", "'heavy'"), lib.SQLITE_CONSTRAINT_DATATYPE},
		{swap(next(set), "140000,5,1", "140000,101,1"), check},
		{swap(next(set), "140000,5,1", "140000,5,0"), check},
		{swap(next(set), "NULL", "-0.5"), check},
		{swap(next(set), "'',0,1)", "'rubber',0,1)"), check},
		{swap(next(set), "'',0,1)", "'',2,1)"), check},
		{swap(next(set), "squat", ""), check},
		{swap(set, "(1,", "(2,"), foreign},
		{set, lib.SQLITE_CONSTRAINT_PRIMARYKEY},
		{swap(swap(lifter, "(1,", "(2,"), "'ana','ana'", "'Ana','ana'"), lib.SQLITE_CONSTRAINT_UNIQUE},
		{swap(swap(lifter, "(1,", "(2,"), "'ana','ana'", "'',''"), check},
		{`UPDATE lifters SET squat_g = -1`, check},
		{`UPDATE lifters SET bodyweight_g = -1`, check},
		{`UPDATE lifters SET days = 8`, check},
		{`UPDATE lifters SET level = 'hero'`, check},
		{`UPDATE lifters SET category = 'other'`, check},
		{`UPDATE lifters SET born_day = '1999-02-29'`, check},
		{`UPDATE lifters SET coach_id = 9`, foreign},
		{`DELETE FROM lifters`, foreign},
		{`UPDATE meets SET kind = 'friendly'`, check},
		{`UPDATE meets SET day = '2027-06-31'`, check},
		{`UPDATE meets SET weigh_in_hours = -2`, check},
		{`UPDATE meets SET entry_closes_day = 'soon'`, check},
		{`INSERT INTO bodyweights VALUES (1,'2027-03-02',-1,1)`, check},
		{swap(swap(plan, "(1,1,1", "(2,1,2"), "'{}'", "'{'"), check},
		{swap(plan, "(1,1,1", "(2,1,2"), lib.SQLITE_CONSTRAINT_UNIQUE}, // two proposals
		{swap(swap(block, "(1,0", "(1,1"), "2027-03-28", "2027-02-28"), check},
		{swap(swap(block, "(1,0", "(1,1"), "'strength'", "'rest'"), check},
		{swap(swap(post, "'p'", "'q'"), "'planned',0,NULL", "'claimed',1,NULL"), check},
		{swap(swap(post, "'p'", "'q'"), "'planned',0,NULL", "'planned',0,5"), check},
		{swap(swap(post, "'p'", "'q'"), "'{}'", "'hello'"), check},
		{`INSERT INTO facts VALUES ('f',1,'silence',1,'planned','','nopost',1)`, foreign},
		{`INSERT INTO facts VALUES ('f',1,'silence',1,'maybe','',NULL,1)`, check},
		{`INSERT INTO origin VALUES (2,'terminal',1)`, check},
		{`UPDATE origin SET world = 'moon'`, check},
		{`INSERT INTO terminal VALUES (2,NULL,0)`, check},
	} {
		if err := exec(c.statement); code(err) != c.want {
			t.Errorf("%s: got %v, want code %d", c.statement, err, c.want)
		}
	}
}
