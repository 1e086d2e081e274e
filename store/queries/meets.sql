-- name: AddMeet :one
INSERT INTO meets (lifter_id, name, day, kind, event, equipment, rule_set, weigh_in_hours, class_limit_g, class_plus,
    qualifying_g, entry_closes_day, place, zone, handler_id, entered, result_total_g, result_entered, added_ms, changed_ms)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
RETURNING id;

-- name: SaveMeet :execrows
UPDATE meets SET name = ?, day = ?, kind = ?, event = ?, equipment = ?, rule_set = ?, weigh_in_hours = ?,
    class_limit_g = ?, class_plus = ?, qualifying_g = ?, entry_closes_day = ?, place = ?, zone = ?, handler_id = ?,
    entered = ?, result_total_g = ?, result_entered = ?, changed_ms = ?
WHERE id = ? AND lifter_id = ? AND dropped_ms IS NULL;

-- name: DropMeet :execrows
UPDATE meets SET dropped_ms = sqlc.arg(dropped_ms), changed_ms = sqlc.arg(dropped_ms)
WHERE id = sqlc.arg(id) AND dropped_ms IS NULL;

-- name: Meets :many
SELECT * FROM meets WHERE lifter_id = ? AND dropped_ms IS NULL ORDER BY day, id;

-- name: AllMeets :many
SELECT * FROM meets WHERE dropped_ms IS NULL ORDER BY day, id;
