-- How a lifter trains the competition lifts, and files of sets from elsewhere.

-- +goose Up

-- The form that counts as the competition lift in training; '' is not told.
ALTER TABLE lifters ADD COLUMN bench_style TEXT NOT NULL DEFAULT ''
    CHECK (bench_style IN ('', 'paused', 'touch and go'));
ALTER TABLE lifters ADD COLUMN deadlift_style TEXT NOT NULL DEFAULT ''
    CHECK (deadlift_style IN ('', 'conventional', 'sumo'));

-- Files of sets. What was read of a file waits in draft for a yes and no longer:
-- afterwards the row only says which sets came with it.
CREATE TABLE imports (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id),
    state      TEXT    NOT NULL CHECK (state IN ('waiting', 'done', 'undone')),
    draft      BLOB    CHECK (state = 'waiting' OR draft IS NULL),
    made_ms    INTEGER NOT NULL,
    expires_ms INTEGER NOT NULL
) STRICT;

CREATE INDEX imports_by_lifter ON imports (lifter_id);

-- A digest of every set that came with a file, so that the same file can come
-- again without harm, also when the set was corrected or dropped since.
CREATE TABLE imported_sets (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    mark      INTEGER NOT NULL,
    import_id INTEGER NOT NULL REFERENCES imports (id),
    PRIMARY KEY (lifter_id, mark)
) STRICT, WITHOUT ROWID;
