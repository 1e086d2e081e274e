-- name: Desk :one
SELECT channel, digest_on, changes, checkin_on FROM desk WHERE id = 1;

-- name: SaveDesk :exec
INSERT INTO desk (id, channel, digest_on, changes, checkin_on) VALUES (1, ?, ?, ?, ?)
ON CONFLICT (id) DO UPDATE SET channel = excluded.channel, digest_on = excluded.digest_on,
    changes = excluded.changes, checkin_on = excluded.checkin_on;

-- name: EraseDesk :exec
DELETE FROM desk;
