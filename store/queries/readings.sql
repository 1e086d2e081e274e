-- name: LiftBests :many
SELECT variant, gear, reps, reserve, CAST(max(weight_g) AS INTEGER) AS weight_g FROM sets INDEXED BY sets_by_lift
WHERE lifter_id = sqlc.arg(lifter_id) AND lift = sqlc.arg(lift) AND missed = 0 AND pending = 0 AND reps > 0 AND day <> sqlc.arg(day)
GROUP BY variant, gear, reps, reserve;

-- name: LiftDay :many
SELECT * FROM sets WHERE lifter_id = ? AND day = ? AND lift = ? ORDER BY seq;

-- name: Unread :many
SELECT lift FROM unread WHERE lifter_id = ? ORDER BY lift;

-- name: SomeUnread :one
SELECT count(*) FROM (SELECT 1 FROM unread LIMIT 1);

-- name: UnreadLifters :many
SELECT DISTINCT lifter_id FROM unread ORDER BY lifter_id LIMIT sqlc.arg(most);

-- name: MarkRead :exec
DELETE FROM unread WHERE lifter_id = ? AND lift = ?;

-- name: KeepReading :exec
INSERT INTO readings (lifter_id, lift, read_day, kg, observations, verdict, reason, since_day, stalled_day)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
ON CONFLICT (lifter_id, lift) DO UPDATE SET read_day = excluded.read_day, kg = excluded.kg, observations = excluded.observations,
    verdict = excluded.verdict, reason = excluded.reason, since_day = excluded.since_day, stalled_day = excluded.stalled_day;

-- name: Readings :many
SELECT * FROM readings WHERE lifter_id = ? ORDER BY lift;

-- name: EraseReadings :exec
DELETE FROM readings WHERE lifter_id = ?;

-- name: EraseUnread :exec
DELETE FROM unread WHERE lifter_id = ?;
