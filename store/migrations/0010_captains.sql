-- Captains that a captain appointed. Those whom the workspace makes captains, by a
-- right or a role, stand in no table: they are captains as long as it says so.

-- +goose Up

CREATE TABLE appointed (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    at_ms     INTEGER NOT NULL
) STRICT;
