-- What people decide about a season, and what they tell that bears on it.

-- +goose Up

-- Time away from training, as it was told; never inferred, and never why. No last
-- day: the lifter is not back yet.
CREATE TABLE away (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    from_day  TEXT    NOT NULL CHECK (from_day IS date(from_day)),
    to_day    TEXT    CHECK (to_day IS date(to_day)),
    by_id     INTEGER REFERENCES lifters (id),
    told_ms   INTEGER NOT NULL,
    CHECK (to_day IS NULL OR from_day <= to_day)
) STRICT;

CREATE INDEX away_by_lifter ON away (lifter_id, from_day);

-- A lift that is off the plan until a day. There is no column for a reason, and
-- there must never be one.
CREATE TABLE lifts_off (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    lift      TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    from_day  TEXT    NOT NULL CHECK (from_day IS date(from_day)),
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day)), -- the day it is back
    by_id     INTEGER REFERENCES lifters (id),
    told_ms   INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, lift),
    CHECK (from_day < until_day)
) STRICT, WITHOUT ROWID;

-- What was fixed by hand about the blocks of one season. Zero and '' mean any.
CREATE TABLE pins (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    number    INTEGER NOT NULL CHECK (number >= 0), -- of the block in the season, finished ones counted
    kind      TEXT    NOT NULL CHECK (kind IN ('', 'hypertrophy', 'strength', 'peaking', 'recovery')),
    start_day TEXT    CHECK (start_day IS date(start_day)),
    weeks     INTEGER NOT NULL CHECK (weeks BETWEEN 0 AND 52),
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day)), -- the pin ends with the plan it was made for
    by_id     INTEGER REFERENCES lifters (id),
    set_ms    INTEGER NOT NULL
) STRICT;

CREATE INDEX pins_by_lifter ON pins (lifter_id);

-- The longest a kind of block may be, in weeks; 0 forbids it. One lifter's, or a
-- rule of the club where lifter_id is NULL.
CREATE TABLE bounds (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER REFERENCES lifters (id),
    kind      TEXT    NOT NULL CHECK (kind IN ('hypertrophy', 'strength', 'peaking', 'recovery')),
    most      INTEGER NOT NULL CHECK (most BETWEEN 0 AND 52),
    by_id     INTEGER REFERENCES lifters (id),
    set_ms    INTEGER NOT NULL
) STRICT;

CREATE UNIQUE INDEX bounds_once ON bounds (coalesce(lifter_id, 0), kind);

-- Who has the last word on plans in a group; '' is everybody without a row.
CREATE TABLE deciders (
    training_group TEXT PRIMARY KEY,
    who            TEXT NOT NULL CHECK (who IN ('coach', 'lifter', 'both'))
) STRICT, WITHOUT ROWID;

-- A proposed plan that one side has said yes to and that waits for the other.
CREATE TABLE approvals (
    plan_id     INTEGER PRIMARY KEY NOT NULL REFERENCES plans (id),
    lifter_id   INTEGER NOT NULL REFERENCES lifters (id),
    wants       TEXT    NOT NULL CHECK (wants IN ('coach', 'lifter')), -- whose yes is missing
    state       TEXT    NOT NULL CHECK (state IN ('waiting', 'approved', 'declined')),
    reason      TEXT    NOT NULL, -- of a no, one of the program's own words
    by_id       INTEGER REFERENCES lifters (id), -- who said the last word
    asked_ms    INTEGER NOT NULL,
    settled_ms  INTEGER
) STRICT;

CREATE INDEX approvals_waiting ON approvals (asked_ms) WHERE state = 'waiting';

-- What somebody did for a lifter, in the program's own words, and how the lifter
-- can take it back.
CREATE TABLE notes (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    by_id     INTEGER REFERENCES lifters (id),
    what      TEXT    NOT NULL,
    undo      TEXT    NOT NULL, -- '' where it cannot be taken back
    args_json TEXT    NOT NULL CHECK (json_valid(args_json)),
    made_ms   INTEGER NOT NULL,
    undone_ms INTEGER
) STRICT;

CREATE INDEX notes_by_lifter ON notes (lifter_id, made_ms);

-- Days that are remembered of a lifter, one of each name: 'trained' without
-- logging, 'quiet' until, 'learning' since.
CREATE TABLE lifter_days (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    name      TEXT    NOT NULL CHECK (name IN ('trained', 'quiet', 'learning')),
    day       TEXT    NOT NULL CHECK (day IS date(day)),
    PRIMARY KEY (lifter_id, name)
) STRICT, WITHOUT ROWID;
