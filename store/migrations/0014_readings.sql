-- What the log last said of each lift, so that nobody reads five years of sets again
-- for a word in a list.

-- +goose Up

-- The bests of a lift are looked up each time a set is logged.
CREATE INDEX sets_by_lift ON sets (lifter_id, lift, variant, gear, reps, reserve, day, weight_g) WHERE missed = 0 AND pending = 0 AND reps > 0;

-- Lifts about which the log changed since they were read. Triggers write it, so that
-- no way of changing a log can forget to.
CREATE TABLE unread (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    lift      TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    PRIMARY KEY (lifter_id, lift)
) STRICT, WITHOUT ROWID;

CREATE TABLE readings (
    lifter_id    INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    lift         TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    read_day     TEXT    NOT NULL CHECK (read_day IS date(read_day)),
    kg           REAL    NOT NULL CHECK (kg >= 0), -- the max in the form that is trained; 0: nothing known
    observations INTEGER NOT NULL CHECK (observations >= 0), -- days with a set that it rests on
    verdict      TEXT    NOT NULL CHECK (verdict IN ('rising', 'holding', 'falling', 'too little data')),
    reason       TEXT    NOT NULL,
    since_day    TEXT    CHECK (since_day IS date(since_day)), -- of the halt or fall; NULL: none
    stalled_day  TEXT    CHECK (stalled_day IS date(stalled_day)), -- first read as holding or falling, and so ever since; NULL: it is not
    PRIMARY KEY (lifter_id, lift)
) STRICT, WITHOUT ROWID;

INSERT INTO unread (lifter_id, lift) SELECT DISTINCT lifter_id, lift FROM sets WHERE lift IN ('squat', 'bench', 'deadlift');

-- +goose StatementBegin
CREATE TRIGGER unread_new AFTER INSERT ON sets WHEN NEW.lift IN ('squat', 'bench', 'deadlift') BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) VALUES (NEW.lifter_id, NEW.lift);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_changed AFTER UPDATE ON sets BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT OLD.lifter_id, OLD.lift WHERE OLD.lift IN ('squat', 'bench', 'deadlift');
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT NEW.lifter_id, NEW.lift WHERE NEW.lift IN ('squat', 'bench', 'deadlift');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_gone AFTER DELETE ON sets WHEN OLD.lift IN ('squat', 'bench', 'deadlift') BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) VALUES (OLD.lifter_id, OLD.lift);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_reading_new AFTER INSERT ON readings BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_reading AFTER UPDATE ON readings BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
