-- How tired and how keen a lifter feels, once a week, and who may see it.

-- +goose Up

-- 0 is rested or keen, 2 very tired or stale; NULL: not told. There is no column for
-- a reason, and there must never be one.
CREATE TABLE checkins (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    day       TEXT    NOT NULL CHECK (day IS date(day)), -- of the answer
    tired     INTEGER CHECK (tired BETWEEN 0 AND 2),
    stale     INTEGER CHECK (stale BETWEEN 0 AND 2),
    told_ms   INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day)
) STRICT, WITHOUT ROWID;

-- Who else may see bodyweight and check-ins; no row: the lifter's own coach.
CREATE TABLE body_seen_by (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    who       TEXT    NOT NULL CHECK (who IN ('coach', 'captains', 'nobody'))
) STRICT;

-- The weekday on which the club is asked; Sunday is 0, NULL: never.
ALTER TABLE desk ADD COLUMN checkin_on INTEGER CHECK (checkin_on BETWEEN 0 AND 6);

-- +goose StatementBegin
CREATE TRIGGER watch_checkin_new AFTER INSERT ON checkins BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_checkin AFTER UPDATE ON checkins BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
