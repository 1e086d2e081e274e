-- name: Lifters :many
SELECT * FROM lifters ORDER BY id;

-- name: Lifter :one
SELECT * FROM lifters WHERE id = ?;

-- name: LifterByHandle :one
SELECT * FROM lifters WHERE handle_key = ?;

-- name: AddLifter :one
INSERT INTO lifters (handle, handle_key, name, captain, coach_id, training_group, category, born_day, bodyweight_g,
    class_limit_g, class_plus, level, zone, unit, days, squat_g, bench_g, deadlift_g, nudges, long_blocks,
    has_competed, bench_style, deadlift_style, joined_ms, changed_ms)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
RETURNING id;

-- name: SaveLifter :execrows
UPDATE lifters SET handle = ?, handle_key = ?, name = ?, captain = ?, coach_id = ?, training_group = ?, category = ?,
    born_day = ?, bodyweight_g = ?, class_limit_g = ?, class_plus = ?, level = ?, zone = ?, unit = ?, days = ?,
    squat_g = ?, bench_g = ?, deadlift_g = ?, nudges = ?, long_blocks = ?, has_competed = ?,
    bench_style = ?, deadlift_style = ?, changed_ms = ?
WHERE id = ?;

-- name: LifterPublic :one
SELECT public_ok FROM lifters WHERE id = ?;

-- name: SetLifterPublic :execrows
UPDATE lifters SET public_ok = ? WHERE id = ?;
