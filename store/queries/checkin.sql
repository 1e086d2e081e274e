-- name: CheckIn :exec
INSERT INTO checkins (lifter_id, day, tired, stale, told_ms) VALUES (?, ?, ?, ?, ?)
ON CONFLICT (lifter_id, day) DO UPDATE SET tired = coalesce(excluded.tired, tired),
    stale = coalesce(excluded.stale, stale), told_ms = excluded.told_ms;

-- name: CheckIns :many
SELECT * FROM checkins WHERE lifter_id = ? AND day >= ? ORDER BY day;

-- name: BodySeenBy :one
SELECT who FROM body_seen_by WHERE lifter_id = ?;

-- name: SetBodySeenBy :exec
INSERT INTO body_seen_by (lifter_id, who) VALUES (?, ?) ON CONFLICT (lifter_id) DO UPDATE SET who = excluded.who;

-- name: EraseCheckIns :exec
DELETE FROM checkins WHERE lifter_id = ?;

-- name: EraseBodySeenBy :exec
DELETE FROM body_seen_by WHERE lifter_id = ?;

-- name: DropBodyweight :execrows
DELETE FROM bodyweights WHERE lifter_id = ? AND day = ?;
