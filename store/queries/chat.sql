-- name: AddButton :exec
INSERT INTO buttons (token, label, owner_id, action, args_json, made_ms, expires_ms) VALUES (?, ?, ?, ?, ?, ?, ?);

-- name: Button :one
SELECT * FROM buttons WHERE token = ?;

-- name: UseButton :execrows
INSERT INTO button_uses (token, lifter_id, used_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING;

-- name: ForgetAnswers :exec
DELETE FROM buttons WHERE action IN ('set.answer', 'set.become', 'team.who') AND owner_id = sqlc.arg(owner_id)
    AND json_extract(args_json, '$.message') = CAST(sqlc.arg(message) AS TEXT)
    AND token NOT IN (SELECT u.token FROM button_uses u);

-- name: ForgetEventsBetween :exec
DELETE FROM events WHERE id >= sqlc.arg(first) AND id < sqlc.arg(behind);

-- name: EventsBetween :many
SELECT id FROM events WHERE id >= sqlc.arg(first) AND id < sqlc.arg(behind) ORDER BY id;

-- name: ForgetSaidAbout :exec
DELETE FROM events WHERE id >= 'said/' AND id < 'said0' AND id LIKE CAST(sqlc.arg(pattern) AS TEXT);

-- name: ForgetCalls :exec
DELETE FROM events WHERE id >= 'hand/' AND id < 'hand0' AND seen_ms < ?;

-- name: ForgetButtons :execrows
DELETE FROM buttons WHERE expires_ms < ?;

-- name: FreshEvent :execrows
INSERT INTO events (id, seen_ms) VALUES (?, ?) ON CONFLICT DO NOTHING;

-- name: ForgetEvents :execrows
DELETE FROM events WHERE seen_ms < ?;

-- name: AddAudit :exec
INSERT INTO audit (by_id, about_id, what, at_ms) VALUES (?, ?, ?, ?);

-- name: AuditTrail :many
SELECT * FROM audit ORDER BY id DESC LIMIT ? OFFSET ?;

-- name: AuditTrailOf :many
SELECT * FROM audit WHERE about_id = ? ORDER BY id DESC LIMIT ? OFFSET ?;
