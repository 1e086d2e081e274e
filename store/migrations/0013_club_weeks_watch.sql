-- The club's own weeks decide which weeks of a block are announced as easy or heavy,
-- so everybody is looked at again when one changes.

-- +goose Up

-- +goose StatementBegin
CREATE TRIGGER watch_club_week_new AFTER INSERT ON club_weeks BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER watch_club_week_gone AFTER DELETE ON club_weeks BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;
-- +goose StatementEnd
