-- name: NudgeTimes :one
SELECT * FROM nudge_times WHERE lifter_id = ?;

-- name: SaveNudgeTimes :exec
INSERT INTO nudge_times (lifter_id, hour, minute, quiet, paused_ms) VALUES (?, ?, ?, ?, ?)
ON CONFLICT (lifter_id) DO UPDATE SET hour = excluded.hour, minute = excluded.minute,
    quiet = excluded.quiet, paused_ms = excluded.paused_ms;

-- name: EraseNudgeTimes :exec
DELETE FROM nudge_times WHERE lifter_id = ?;
