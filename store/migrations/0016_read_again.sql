-- A reading rests on more than the log: on what the plan expects, on times away, on
-- what the lifter said of themselves and on the club's equation. Where one of these
-- changes, what was read is read again.

-- +goose Up

-- +goose StatementBegin
CREATE TRIGGER unread_plan AFTER UPDATE OF state ON plans WHEN NEW.state = 'agreed' OR OLD.state = 'agreed' BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_away_new AFTER INSERT ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_away AFTER UPDATE ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_away_gone AFTER DELETE ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = OLD.lifter_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_lifter AFTER UPDATE ON lifters
WHEN (NEW.level, NEW.squat_g, NEW.bench_g, NEW.deadlift_g, NEW.bench_style, NEW.deadlift_style)
    <> (OLD.level, OLD.squat_g, OLD.bench_g, OLD.deadlift_g, OLD.bench_style, OLD.deadlift_style) BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_equation_new AFTER INSERT ON club BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER unread_equation AFTER UPDATE ON club WHEN NEW.equation <> OLD.equation BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings;
END;
-- +goose StatementEnd
