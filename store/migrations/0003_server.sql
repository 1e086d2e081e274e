-- Which server of the platform the data belongs to.

-- +goose Up

-- One row from the day the bot first found itself in a server. Data of one club
-- must never be shown to another that the bot is let into later.
CREATE TABLE home (
    id     INTEGER PRIMARY KEY NOT NULL CHECK (id = 1),
    server TEXT    NOT NULL CHECK (server <> '')
) STRICT;
