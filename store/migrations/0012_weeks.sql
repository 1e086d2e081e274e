-- What a training week is made from, and what was shown of it.

-- +goose Up

-- Whose weeks a club trains by: the bot's, the club's own tables, or everybody's own.
ALTER TABLE club ADD COLUMN weeks TEXT NOT NULL DEFAULT 'bot' CHECK (weeks IN ('bot', 'club', 'own'));

-- How one lifter trains; no row: as the club, on days spread over the week.
CREATE TABLE training (
    lifter_id  INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    weeks      TEXT    NOT NULL CHECK (weeks IN ('', 'bot', 'club', 'own')), -- '': as the club
    weekdays   INTEGER NOT NULL CHECK (weekdays BETWEEN 0 AND 127), -- one bit a weekday, Sunday the lowest; 0: spread
    cautious   INTEGER NOT NULL CHECK (cautious IN (0, 1)), -- chosen by anyone; there is no column for a reason
    supervised INTEGER NOT NULL CHECK (supervised IN (0, 1)) -- a coach vouches for a lifter under 18
) STRICT;

-- The bar and the discs; no row: the usual ones.
CREATE TABLE gym (
    id           INTEGER PRIMARY KEY CHECK (id = 1),
    unit         TEXT    NOT NULL CHECK (unit IN ('kg', 'lb')),
    bar_g        INTEGER NOT NULL CHECK (bar_g >= 0), -- 0: the usual bar and collars
    collars_g    INTEGER NOT NULL CHECK (collars_g >= 0),
    discs_json   TEXT    NOT NULL CHECK (json_valid(discs_json)), -- grams of single discs
    missing_json TEXT    NOT NULL CHECK (json_valid(missing_json))
) STRICT;

-- The club's own week for a kind of block, in its text form.
CREATE TABLE club_weeks (
    kind    TEXT    PRIMARY KEY NOT NULL CHECK (kind IN ('hypertrophy', 'strength', 'peaking', 'recovery')),
    lines   TEXT    NOT NULL,
    set_ms  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Changes to a lifter's weeks that stay when a week is made again.
CREATE TABLE week_changes (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id   INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id       INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    change_json TEXT    NOT NULL CHECK (json_valid(change_json)),
    set_ms      INTEGER NOT NULL
) STRICT;

CREATE INDEX week_changes_by_lifter ON week_changes (lifter_id);

-- A training week as it was made, with what the lifter moved, cut or swapped in it.
CREATE TABLE training_weeks (
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    start_day  TEXT    NOT NULL CHECK (start_day IS date(start_day)),
    basis      TEXT    NOT NULL, -- a digest of what it was made from, but for the log
    plan_json  TEXT    NOT NULL CHECK (json_valid(plan_json)),
    edits_json TEXT    NOT NULL CHECK (json_valid(edits_json)),
    made_ms    INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, start_day)
) STRICT, WITHOUT ROWID;

-- The work of a day as it was shown last.
CREATE TABLE prescribed (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    day       TEXT    NOT NULL CHECK (day IS date(day)),
    work_json TEXT    NOT NULL CHECK (json_valid(work_json)),
    shown_ms  INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day)
) STRICT, WITHOUT ROWID;

-- +goose StatementBegin
CREATE TRIGGER watch_training_new AFTER INSERT ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_training AFTER UPDATE ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_training_gone AFTER DELETE ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
