-- What the captain's desk is set to.

-- +goose Up

-- One row, absent until somebody changes a setting.
CREATE TABLE desk (
    id         INTEGER PRIMARY KEY CHECK (id = 1),
    channel    TEXT    NOT NULL, -- hidden from ordinary members; '' for none
    digest_on INTEGER CHECK (digest_on BETWEEN 0 AND 6), -- Sunday is 0; NULL: no digest
    changes    INTEGER NOT NULL CHECK (changes IN (0, 1)) -- announce the week's block changes by itself
) STRICT;
