-- What a platform needs to remember across restarts.

-- +goose Up

-- When the bot signed in: the platform allows so many a day.
CREATE TABLE sign_ins (
    at_ms INTEGER PRIMARY KEY NOT NULL
) STRICT;

-- Since when the bot is no longer in its workspace; no row while it is.
CREATE TABLE removal (
    id     INTEGER PRIMARY KEY NOT NULL CHECK (id = 1),
    at_ms  INTEGER NOT NULL CHECK (at_ms > 0)
) STRICT;

-- Whose message it was, when the platform tells only that one is gone.
CREATE INDEX sets_by_message_alone ON sets (message);
