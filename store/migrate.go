package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"sync"

	"github.com/pressly/goose/v3"

	"blockbell/planner"
	"blockbell/store/internal/column"
	"blockbell/store/internal/sqlgen"
)

//go:embed migrations/*.sql
var migrations embed.FS

// newest is the version of the last migration this program knows.
var newest = sync.OnceValues(func() (int64, error) {
	files, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return 0, err
	}
	if len(files) == 0 {
		return 0, errors.New("store: no migrations are built in")
	}
	number, _, _ := strings.Cut(path.Base(files[len(files)-1]), "_")
	return strconv.ParseInt(number, 10, 64)
})

// label is what a file says about itself before anything is changed.
type label struct {
	version int64 // 0: nothing in it yet
	world   World // empty: not yet written
	foreign bool  // holds tables of something else
}

// readLabel reads the label of an existing file.
func readLabel(ctx context.Context, db *sql.DB) (label, error) {
	var tables, goose, origin int
	err := db.QueryRowContext(ctx, `SELECT count(*), count(*) FILTER (WHERE name = 'goose_db_version'),
		count(*) FILTER (WHERE name = 'origin') FROM sqlite_schema WHERE type = 'table'`).Scan(&tables, &goose, &origin)
	if err != nil {
		return label{}, err
	}
	var l label
	if goose == 0 {
		l.foreign = tables > 0
		return l, nil
	}
	err = db.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version`).Scan(&l.version)
	if err != nil {
		return label{}, err
	}
	if origin == 0 {
		l.foreign = l.version > 0
		return l, nil
	}
	err = db.QueryRowContext(ctx, `SELECT world FROM origin`).Scan(&l.world)
	if err != nil && !absent(err) {
		return label{}, err
	}
	return l, nil
}

// acceptable refuses what Open must not touch.
func (l label) acceptable(path string, world World) error {
	if l.foreign {
		return notADatabase(path)
	}
	known, err := newest()
	if err != nil {
		return err
	}
	if l.version > known {
		return planner.Errorf(planner.Conflict, "Use the newer program, or go back to a backup made before it.",
			"the database %s was written by a newer version of the program (format %d, this one knows %d)",
			path, l.version, known)
	}
	if l.world != "" && l.world != world {
		return otherWorld(path, l.world)
	}
	return nil
}

// BelongsTo returns an error for a person where the open database was made for
// another world.
func (s *Store) BelongsTo(ctx context.Context, w World) error {
	had, err := readLabel(ctx, s.readers)
	if err != nil {
		return err
	}
	return had.acceptable(s.path, w)
}

// otherWorld is the error for a rehearsal's database at the platform, and the
// other way round.
func otherWorld(path string, is World) error {
	if is == Terminal {
		return planner.Errorf(planner.Conflict, "Serve from a database of its own, or play this one with `blockbell rehearse`.",
			"the database %s belongs to the terminal, not to a real club", path)
	}
	return planner.Errorf(planner.Conflict, "Rehearse on a database of its own, so that nothing reaches the real club.",
		"the database %s belongs to a real club, not to the terminal", path)
}

// current refuses everything but the format this program writes.
func (l label) current(path string) error {
	if err := l.acceptable(path, l.world); err != nil {
		return err
	}
	known, err := newest()
	if err != nil {
		return err
	}
	if l.version < known {
		return planner.Errorf(planner.Conflict, "Start the program on it once; that brings it up to date.",
			"the database %s has an older format (%d, this program writes %d)", path, l.version, known)
	}
	return nil
}

// upgrade applies the migrations that are missing, each in a transaction of its
// own together with its number, and writes the world into a new database.
func (s *Store) upgrade(ctx context.Context, had label, o Options) error {
	known, err := newest()
	if err != nil {
		return err
	}
	if had.version < known {
		if err := s.migrate(ctx); err != nil {
			return err
		}
	}
	if had.world != "" {
		return s.writer.PingContext(ctx)
	}
	return sqlgen.New(s.writer).SetOrigin(ctx, sqlgen.SetOriginParams{
		World: string(o.World), CreatedMs: column.At(o.Now),
	})
}

// migrate runs the migrations.
func (s *Store) migrate(ctx context.Context) error {
	files, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, s.writer, files, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}
