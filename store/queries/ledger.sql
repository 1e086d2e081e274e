-- name: KnownFact :one
SELECT * FROM facts WHERE key = ?;

-- name: AddFact :exec
INSERT INTO facts (key, lifter_id, kind, due_ms, state, reason, post_key, changed_ms)
VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING;

-- name: FactsOfPost :many
SELECT key FROM facts WHERE post_key = ? ORDER BY key;

-- name: SettleFacts :exec
UPDATE facts SET state = ?, reason = ?, changed_ms = ? WHERE post_key = ? AND state = 'planned';

-- name: Facts :many
SELECT * FROM facts WHERE lifter_id IS ? ORDER BY due_ms DESC, key DESC LIMIT ?;

-- name: QueuePost :execrows
INSERT INTO posts (key, channel, person, body_json, due_ms, state, attempts, ref, reason, queued_ms)
VALUES (?, ?, ?, ?, ?, 'planned', 0, '', '', ?) ON CONFLICT DO NOTHING;

-- name: Post :one
SELECT * FROM posts WHERE key = ?;

-- name: PostsWaiting :many
SELECT * FROM posts WHERE state = 'planned' AND key >= sqlc.arg(first) AND key < sqlc.arg(behind) ORDER BY due_ms, key;

-- name: ClaimPosts :many
UPDATE posts SET state = 'claimed', attempts = attempts + 1, claimed_until_ms = sqlc.arg(until_ms)
WHERE key IN (
    SELECT p.key FROM posts p
    WHERE p.state IN ('planned', 'claimed') AND p.due_ms <= sqlc.arg(now_ms)
        AND (p.claimed_until_ms IS NULL OR p.claimed_until_ms <= sqlc.arg(now_ms))
    ORDER BY p.due_ms, p.key LIMIT sqlc.arg(most)
)
RETURNING *;

-- name: SettlePost :execrows
UPDATE posts SET state = ?, ref = ?, reason = ?, settled_ms = ?, claimed_until_ms = NULL
WHERE key = ? AND state IN ('planned', 'claimed');

-- name: DelayPost :execrows
UPDATE posts SET state = 'planned', due_ms = ?, reason = ?, claimed_until_ms = NULL
WHERE key = ? AND state IN ('planned', 'claimed');

-- name: NudgesOff :many
SELECT kind FROM nudges_off WHERE lifter_id = ? ORDER BY kind;

-- name: TurnNudgeOff :exec
INSERT INTO nudges_off (lifter_id, kind) VALUES (?, ?) ON CONFLICT DO NOTHING;

-- name: TurnNudgeOn :exec
DELETE FROM nudges_off WHERE lifter_id = ? AND kind = ?;

-- name: Snooze :exec
INSERT INTO snoozes (lifter_id, key, until_ms) VALUES (?, ?, ?)
ON CONFLICT (lifter_id, key) DO UPDATE SET until_ms = excluded.until_ms;

-- name: Snoozes :many
SELECT * FROM snoozes WHERE lifter_id = ? ORDER BY key;

-- name: Undelivered :many
SELECT channel, count(*) AS posts FROM posts
WHERE person = '' AND (state = 'dead' AND reason = sqlc.arg(reason) AND settled_ms >= sqlc.arg(since_ms) OR state = 'planned' AND attempts > 0)
GROUP BY channel ORDER BY channel;
