-- What a club keeps of classes, papers and people who come and go.

-- +goose Up

-- The unit that new lifters begin with.
ALTER TABLE club ADD COLUMN unit TEXT NOT NULL DEFAULT 'kg' CHECK (unit IN ('kg', 'lb'));

-- The bodyweight classes the club enters, as its captain read them in the rule book
-- of a day. No row: classes are not compared with anything.
CREATE TABLE class_table (
    id        INTEGER PRIMARY KEY CHECK (id = 1),
    name      TEXT    NOT NULL,
    since_day TEXT    CHECK (since_day IS date(since_day))
) STRICT;

CREATE TABLE class_limits (
    category TEXT    NOT NULL CHECK (category IN ('women', 'men')),
    limit_g  INTEGER NOT NULL CHECK (limit_g > 0),
    class_plus INTEGER NOT NULL CHECK (class_plus IN (0, 1)), -- above the limit, without an end
    PRIMARY KEY (category, limit_g, class_plus)
) STRICT, WITHOUT ROWID;

-- Who has left the club, with what they had chosen: it comes back with them.
CREATE TABLE leavers (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    nudges    TEXT    NOT NULL CHECK (nudges IN ('', 'direct', 'channel', 'ask')),
    public_ok INTEGER NOT NULL CHECK (public_ok IN (0, 1)),
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    at_ms     INTEGER NOT NULL
) STRICT;

-- Lifters that a captain pasted in, and who says to be one of them.
CREATE TABLE placeholders (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL, -- who claims it
    made_ms   INTEGER NOT NULL
) STRICT;

-- The last day of a lifter's licence.
CREATE TABLE licences (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day))
) STRICT;

-- Where a lifter has to be at a meet, in the organiser's short words.
CREATE TABLE meet_roster (
    meet_id INTEGER PRIMARY KEY NOT NULL REFERENCES meets (id) ON DELETE CASCADE,
    session TEXT    NOT NULL,
    flight  TEXT    NOT NULL,
    travel  TEXT    NOT NULL
) STRICT;

-- How many attempts were missed for which reason.
CREATE TABLE meet_reviews (
    meet_id   INTEGER PRIMARY KEY NOT NULL REFERENCES meets (id) ON DELETE CASCADE,
    strength  INTEGER NOT NULL CHECK (strength BETWEEN 0 AND 9),
    technique INTEGER NOT NULL CHECK (technique BETWEEN 0 AND 9),
    command   INTEGER NOT NULL CHECK (command BETWEEN 0 AND 9),
    told_ms   INTEGER NOT NULL
) STRICT;
