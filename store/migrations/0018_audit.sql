-- What somebody did for others stays when they are erased.

-- +goose Up

-- 1: whoever did it has left and is erased. 0 with no by_id is the program itself.
ALTER TABLE audit ADD COLUMN by_gone INTEGER NOT NULL DEFAULT 0 CHECK (by_gone IN (0, 1));

-- What was done to the club was kept as done by somebody for themselves.
UPDATE audit SET about_id = NULL WHERE by_id = about_id AND what NOT LIKE 'took back %';
