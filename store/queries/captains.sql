-- name: Appoint :exec
INSERT INTO appointed (lifter_id, by_id, at_ms) VALUES (?, ?, ?) ON CONFLICT DO NOTHING;

-- name: Dismiss :execrows
DELETE FROM appointed WHERE lifter_id = ?;

-- name: Appointed :one
SELECT count(*) FROM appointed WHERE lifter_id = ?;

-- name: EraseAppointed :exec
DELETE FROM appointed WHERE lifter_id = ?;

-- name: ForgetWhoAppointed :exec
UPDATE appointed SET by_id = NULL WHERE by_id = ?;
