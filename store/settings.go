package store

import (
	"database/sql"
	"errors"
	"net/url"
	"sync"

	"modernc.org/sqlite"
)

// readerCount is the number of connections for reading. More than one per core
// gained nothing when it was measured on two cores.
const readerCount = 2

// shared is what every connection is opened with. It stands in the connection
// string because a setting made once on a pool reaches one connection only.
// FULL makes each commit survive a power cut.
const shared = "_synchronous=FULL&_busy_timeout=5000&_foreign_keys=on&_dqs=0&_defensive=1&_error_rc=1" +
	"&_pragma=temp_store(MEMORY)&_pragma=cache_size(-8000)&_pragma=trusted_schema(0)"

// What the writer deletes is overwritten: who asks to be erased is gone from the
// file, not only from its index.
const (
	forWriting = shared + "&_journal_mode=WAL&_txlock=immediate&_pragma=secure_delete(1)"
	forReading = shared + "&mode=ro&_query_only=1"
)

// safeLocks makes SQLite use locks that belong to the open file. With ordinary
// POSIX locks any code of this process that opens and closes the database file
// would silently drop them, and another process could then delete the
// write-ahead log under us. Only Linux has such locks; elsewhere the ordinary ones
// must do.
var safeLocks = sync.OnceValue(func() error {
	_, err := sqlite.OFDLocking(true)
	if errors.Is(err, sqlite.ErrOFDLockingUnavailable) {
		return nil
	}
	return err
})

// connect makes a pool of at most n connections to the file.
func connect(path, settings string, n int) (*sql.DB, error) {
	// The file: form is needed: on a plain name part of the settings is ignored.
	name := url.URL{Scheme: "file", OmitHost: true, Path: path, RawQuery: settings}
	c, err := newConnector(name.String())
	if err != nil {
		return nil, err
	}
	db := sql.OpenDB(c)
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db, nil
}
