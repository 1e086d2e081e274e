-- name: AddButton :exec
INSERT INTO buttons (token, label, owner_id, action, args_json, made_ms, expires_ms) VALUES (?, ?, ?, ?, ?, ?, ?);

-- name: Button :one
SELECT * FROM buttons WHERE token = ?;

-- name: UseButton :execrows
INSERT INTO button_uses (token, lifter_id, used_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING;

-- name: ForgetButtons :execrows
DELETE FROM buttons WHERE expires_ms < ?;

-- name: FreshEvent :execrows
INSERT INTO events (id, seen_ms) VALUES (?, ?) ON CONFLICT DO NOTHING;

-- name: ForgetEvents :execrows
DELETE FROM events WHERE seen_ms < ?;

-- name: AddAudit :exec
INSERT INTO audit (by_id, about_id, what, at_ms) VALUES (?, ?, ?, ?);

-- name: AuditTrail :many
SELECT * FROM audit ORDER BY id DESC LIMIT ?;
