-- name: LastSeq :one
SELECT CAST(max(
    coalesce((SELECT max(s.seq) FROM sets s WHERE s.lifter_id = sqlc.arg(lifter_id) AND s.day = sqlc.arg(day)), 0),
    coalesce((SELECT max(h.seq) FROM set_history h WHERE h.lifter_id = sqlc.arg(lifter_id) AND h.day = sqlc.arg(day)), 0)
) AS INTEGER) AS seq;

-- name: AddSet :exec
INSERT INTO sets (lifter_id, day, seq, message, lift, variant, weight_g, reps, sets, reserve, missed, gear, pending, written_ms)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?);

-- name: Set :one
SELECT * FROM sets WHERE lifter_id = ? AND day = ? AND seq = ?;

-- name: FixSet :exec
UPDATE sets SET lift = ?, variant = ?, weight_g = ?, reps = ?, sets = ?, reserve = ?, missed = ?, gear = ?, pending = ?
WHERE lifter_id = ? AND day = ? AND seq = ?;

-- name: DropSet :exec
DELETE FROM sets WHERE lifter_id = ? AND day = ? AND seq = ?;

-- name: KeepSet :exec
INSERT INTO set_history (lifter_id, day, seq, message, lift, variant, weight_g, reps, sets, reserve, missed, gear,
    pending, written_ms, change, by_id, changed_ms)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?);

-- name: SetHistory :many
SELECT * FROM set_history WHERE lifter_id = ? AND day = ? AND seq = ? ORDER BY id;

-- name: Sets :many
SELECT * FROM sets WHERE lifter_id = sqlc.arg(lifter_id) AND day >= sqlc.arg(first_day) AND day <= sqlc.arg(last_day) ORDER BY day, seq;

-- name: RecentSets :many
SELECT * FROM sets WHERE lifter_id = ? ORDER BY day DESC, seq DESC LIMIT ?;

-- name: RecentPage :many
SELECT * FROM sets WHERE lifter_id = ? ORDER BY day DESC, seq DESC LIMIT ? OFFSET ?;

-- name: WrittenSince :many
SELECT * FROM sets
WHERE lifter_id = sqlc.arg(lifter_id) AND day >= sqlc.arg(first_day) AND day <= sqlc.arg(last_day)
    AND written_ms >= sqlc.arg(since_ms) AND message <> '' AND message NOT LIKE 'import/%'
ORDER BY written_ms DESC, message, day, seq;

-- name: SetsOfMessage :many
SELECT * FROM sets WHERE lifter_id = ? AND message = ? ORDER BY day, seq;

-- name: LiftersOfMessage :many
SELECT DISTINCT lifter_id FROM sets WHERE message = ? ORDER BY lifter_id;

-- name: LastSets :many
SELECT * FROM sets WHERE lifter_id = sqlc.arg(lifter_id) AND written_ms >= sqlc.arg(since_ms)
    AND message NOT LIKE 'import/%' ORDER BY written_ms DESC, day DESC, seq DESC;

-- name: HeavySets :many
SELECT day, seq, weight_g, reps, sets, reserve, gear FROM sets
WHERE lifter_id = sqlc.arg(lifter_id) AND day >= sqlc.arg(first_day) AND lift = sqlc.arg(lift) AND variant = '' AND gear IN ('', 'raw')
    AND missed = 0 AND pending = 0 AND reps > 0
ORDER BY day, seq;

-- name: AddBodyweight :exec
INSERT INTO bodyweights (lifter_id, day, mass_g, written_ms) VALUES (?, ?, ?, ?)
ON CONFLICT (lifter_id, day) DO UPDATE SET mass_g = excluded.mass_g, written_ms = excluded.written_ms;

-- name: Bodyweights :many
SELECT * FROM bodyweights WHERE lifter_id = sqlc.arg(lifter_id) AND day >= sqlc.arg(first_day) AND day <= sqlc.arg(last_day) ORDER BY day;

-- name: MessageOfSet :one
SELECT message FROM sets WHERE lifter_id = ? AND day = ? AND seq = ?;
