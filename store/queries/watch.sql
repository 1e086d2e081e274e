-- name: Unwatched :many
SELECT lifter_id FROM watch WHERE next_ms = 0 OR seen_ms > sqlc.arg(now_ms) LIMIT sqlc.arg(most);

-- name: Ripe :many
SELECT lifter_id FROM watch WHERE next_ms BETWEEN 1 AND sqlc.arg(now_ms) ORDER BY lifter_id;

-- name: NextLook :one
SELECT CAST(COALESCE(min(next_ms), 0) AS INTEGER) FROM watch WHERE next_ms > 0;

-- name: LookAgain :exec
UPDATE watch SET next_ms = ?, seen_ms = ? WHERE lifter_id = ?;

-- name: KeepNudge :exec
INSERT INTO nudges_kept (lifter_id, kind, at_ms) VALUES (?, ?, ?)
ON CONFLICT (lifter_id, kind) DO UPDATE SET at_ms = excluded.at_ms;

-- name: NudgeKept :one
SELECT at_ms FROM nudges_kept WHERE lifter_id = ? AND kind = ?;

-- name: FactsOfKind :many
SELECT * FROM facts WHERE lifter_id = sqlc.arg(lifter_id) AND kind = sqlc.arg(kind) AND due_ms <= sqlc.arg(until_ms)
ORDER BY due_ms DESC, key DESC LIMIT sqlc.arg(most);

-- name: ToldSince :many
SELECT f.key, f.kind, f.post_key, p.due_ms FROM facts f JOIN posts p ON p.key = f.post_key
WHERE f.lifter_id = sqlc.arg(lifter_id) AND p.due_ms > sqlc.arg(since_ms) AND p.state <> 'dead'
ORDER BY p.due_ms, f.key;

-- name: ButtonUsed :one
SELECT count(*) FROM button_uses WHERE token = ? AND lifter_id = ?;

-- name: EraseWatch :exec
DELETE FROM watch WHERE lifter_id = ?;

-- name: EraseNudgesKept :exec
DELETE FROM nudges_kept WHERE lifter_id = ?;
