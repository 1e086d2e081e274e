-- When the runner of nudges has to look at each lifter again. Looking at a whole
-- club each minute would cost more the larger it grows; this way a minute in which
-- nothing is due costs one look into an index.

-- +goose Up

-- next_ms 0: something about the lifter changed, so look at once. Triggers write
-- it, so that no way of changing a lifter can forget to.
CREATE TABLE watch (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    next_ms   INTEGER NOT NULL CHECK (next_ms >= 0),
    seen_ms   INTEGER NOT NULL CHECK (seen_ms >= 0)
) STRICT;

CREATE INDEX watch_by_next ON watch (next_ms);
CREATE INDEX watch_by_seen ON watch (seen_ms);

INSERT INTO watch (lifter_id, next_ms, seen_ms) SELECT id, 0, 0 FROM lifters;

-- When a lifter asked for a kind of nudge after all. What went unanswered before
-- that moment no longer counts.
CREATE TABLE nudges_kept (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    kind      TEXT    NOT NULL CHECK (kind <> ''),
    at_ms     INTEGER NOT NULL CHECK (at_ms > 0),
    PRIMARY KEY (lifter_id, kind)
) STRICT, WITHOUT ROWID;

CREATE INDEX facts_by_kind ON facts (lifter_id, kind, due_ms) WHERE lifter_id IS NOT NULL;

-- +goose StatementBegin
CREATE TRIGGER watch_new_lifter AFTER INSERT ON lifters BEGIN
    INSERT INTO watch (lifter_id, next_ms, seen_ms) VALUES (NEW.id, 0, 0);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_lifter AFTER UPDATE ON lifters BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_meet_new AFTER INSERT ON meets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_meet AFTER UPDATE ON meets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_plan AFTER UPDATE ON plans BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_block AFTER UPDATE ON plan_blocks BEGIN
    UPDATE watch SET next_ms = 0
    WHERE lifter_id = (SELECT p.lifter_id FROM plans p WHERE p.id = NEW.plan_id) AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_sets_new AFTER INSERT ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_sets AFTER UPDATE ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_sets_gone AFTER DELETE ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_fact AFTER UPDATE OF state ON facts WHEN NEW.lifter_id IS NOT NULL BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_fact_gone AFTER DELETE ON facts WHEN OLD.lifter_id IS NOT NULL BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_off AFTER INSERT ON nudges_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_on AFTER DELETE ON nudges_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_snooze_new AFTER INSERT ON snoozes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_snooze AFTER UPDATE ON snoozes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_press AFTER INSERT ON button_uses BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_kept AFTER INSERT ON nudges_kept BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_club_new AFTER INSERT ON club BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_club AFTER UPDATE ON club BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_away_new AFTER INSERT ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_away AFTER UPDATE ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_away_gone AFTER DELETE ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_lift_off_new AFTER INSERT ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_lift_off AFTER UPDATE ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_lift_off_gone AFTER DELETE ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_day_new AFTER INSERT ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_day AFTER UPDATE ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_day_gone AFTER DELETE ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_kept_again AFTER UPDATE ON nudges_kept BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_note_new AFTER INSERT ON notes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;
-- +goose StatementEnd
-- A plan that waits, or no longer does, is the coach's affair: the lifter's own,
-- or every captain.
-- +goose StatementBegin
CREATE TRIGGER watch_approval_new AFTER INSERT ON approvals BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND lifter_id IN
        (SELECT c.id FROM lifters c WHERE c.captain = 1 UNION SELECT l.coach_id FROM lifters l WHERE l.id = NEW.lifter_id);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_approval AFTER UPDATE ON approvals BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND lifter_id IN
        (SELECT c.id FROM lifters c WHERE c.captain = 1 UNION SELECT l.coach_id FROM lifters l WHERE l.id = NEW.lifter_id);
END;
-- +goose StatementEnd
