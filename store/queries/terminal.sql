-- name: Clock :one
SELECT clock_ms FROM terminal WHERE id = 1;

-- name: SetClock :exec
INSERT INTO terminal (id, clock_ms, events) VALUES (1, ?, 0)
ON CONFLICT (id) DO UPDATE SET clock_ms = excluded.clock_ms;

-- name: NextTerminalEvent :one
INSERT INTO terminal (id, events) VALUES (1, 1)
ON CONFLICT (id) DO UPDATE SET events = events + 1
RETURNING events;

-- name: AddTerminalMessage :one
INSERT INTO terminal_messages (key, at_ms, kind, recipient, private, body_json) VALUES (?, ?, ?, ?, ?, ?)
ON CONFLICT (key) DO NOTHING
RETURNING id;

-- name: TerminalMessageByKey :one
SELECT * FROM terminal_messages WHERE key = ?;

-- name: TerminalMessages :many
SELECT * FROM terminal_messages ORDER BY id DESC LIMIT ?;

-- name: PressTerminal :execrows
INSERT INTO terminal_presses (message_id, token, person, at_ms) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING;
