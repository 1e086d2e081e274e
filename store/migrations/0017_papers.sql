-- Papers of a meet, and lifters who took over what was kept for them.

-- +goose Up

-- The number on the licence, for the lifter's own eyes; '' is not told.
ALTER TABLE licences ADD COLUMN number TEXT NOT NULL DEFAULT '';

-- The heaviest good attempt of each lift, where lifts_told; what the log and the plan
-- let expect of the total the day before, 0 where nothing was known; and the lifter's
-- short words. There is no place for pain or health, and there must never be one.
ALTER TABLE meet_reviews ADD COLUMN lifts_told INTEGER NOT NULL DEFAULT 0 CHECK (lifts_told IN (0, 1));
ALTER TABLE meet_reviews ADD COLUMN squat_g INTEGER NOT NULL DEFAULT 0 CHECK (squat_g >= 0);
ALTER TABLE meet_reviews ADD COLUMN bench_g INTEGER NOT NULL DEFAULT 0 CHECK (bench_g >= 0);
ALTER TABLE meet_reviews ADD COLUMN deadlift_g INTEGER NOT NULL DEFAULT 0 CHECK (deadlift_g >= 0);
ALTER TABLE meet_reviews ADD COLUMN expected_low_g INTEGER NOT NULL DEFAULT 0 CHECK (expected_low_g >= 0);
ALTER TABLE meet_reviews ADD COLUMN expected_high_g INTEGER NOT NULL DEFAULT 0 CHECK (expected_high_g >= expected_low_g);
ALTER TABLE meet_reviews ADD COLUMN well TEXT NOT NULL DEFAULT '';
ALTER TABLE meet_reviews ADD COLUMN next_time TEXT NOT NULL DEFAULT '';

-- Who took over what was kept for a placeholder, and which rows came with it, so
-- that it can be taken back.
CREATE TABLE takeovers (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL, -- who confirmed it
    came_json TEXT    NOT NULL CHECK (json_valid(came_json)),
    at_ms     INTEGER NOT NULL
) STRICT;

-- What is told to a lifter rests on their licence, and on whether they have joined.
-- +goose StatementBegin
CREATE TRIGGER watch_licence_new AFTER INSERT ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_licence AFTER UPDATE ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id IN (OLD.lifter_id, NEW.lifter_id) AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_licence_gone AFTER DELETE ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_review_new AFTER INSERT ON meet_reviews BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_roster_new AFTER INSERT ON meet_roster BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_roster AFTER UPDATE ON meet_roster BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;
-- +goose StatementEnd

-- Who speaks for a placeholder is told of their meets: their coach, or the captains
-- where they have none. All captains and coaches look again, which costs little and
-- forgets nobody.
-- +goose StatementBegin
CREATE TRIGGER watch_placeholder_new AFTER INSERT ON placeholders BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND (lifter_id = NEW.lifter_id
        OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id));
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_placeholder_gone AFTER DELETE ON placeholders BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND (lifter_id = OLD.lifter_id
        OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = OLD.lifter_id));
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_placeholder_coach AFTER UPDATE OF coach_id ON lifters WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND (lifter_id IN (OLD.coach_id, NEW.coach_id) OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1));
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_placeholder_meet_new AFTER INSERT ON meets WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.lifter_id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_placeholder_meet AFTER UPDATE ON meets WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.lifter_id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id);
END;
-- +goose StatementEnd
