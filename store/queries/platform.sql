-- name: SignIns :many
SELECT at_ms FROM sign_ins ORDER BY at_ms;

-- name: AddSignIn :exec
INSERT INTO sign_ins (at_ms) VALUES (?) ON CONFLICT DO NOTHING;

-- name: ForgetSignIns :exec
DELETE FROM sign_ins;

-- name: MarkRemoved :exec
INSERT INTO removal (id, at_ms) VALUES (1, ?) ON CONFLICT DO NOTHING;

-- name: Removed :one
SELECT at_ms FROM removal;

-- name: ClearRemoved :exec
DELETE FROM removal;

-- name: AuthorOfMessage :one
SELECT l.handle FROM sets s JOIN lifters l ON l.id = s.lifter_id WHERE s.message = ? LIMIT 1;

-- name: LastEvent :one
SELECT seen_ms FROM events ORDER BY seen_ms DESC LIMIT 1;

-- name: SaveHome :exec
INSERT INTO home (id, server) VALUES (1, ?) ON CONFLICT (id) DO UPDATE SET server = excluded.server;

-- name: Home :one
SELECT server FROM home;

-- name: ForgetHome :exec
DELETE FROM home;
