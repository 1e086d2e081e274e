-- When a lifter wants to be told things directly.

-- +goose Up

-- No row: at the club's hour, on every day.
CREATE TABLE nudge_times (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    hour      INTEGER CHECK (hour BETWEEN 0 AND 23), -- NULL: the club's
    minute    INTEGER CHECK (minute BETWEEN 0 AND 59),
    quiet     INTEGER NOT NULL CHECK (quiet BETWEEN 0 AND 127), -- one bit a weekday, Sunday the lowest
    paused_ms INTEGER, -- nothing personal that can wait before this moment
    CHECK ((hour IS NULL) = (minute IS NULL))
) STRICT;

-- +goose StatementBegin
CREATE TRIGGER watch_times_new AFTER INSERT ON nudge_times BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_times AFTER UPDATE ON nudge_times BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
