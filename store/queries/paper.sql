-- name: ClassTable :one
SELECT name, since_day FROM class_table WHERE id = 1;

-- name: SaveClassTable :exec
INSERT INTO class_table (id, name, since_day) VALUES (1, ?, ?)
ON CONFLICT (id) DO UPDATE SET name = excluded.name, since_day = excluded.since_day;

-- name: EraseClassTable :exec
DELETE FROM class_table;

-- name: ClassLimits :many
SELECT category, limit_g, class_plus FROM class_limits ORDER BY category DESC, limit_g, class_plus;

-- name: AddClassLimit :exec
INSERT INTO class_limits (category, limit_g, class_plus) VALUES (?, ?, ?) ON CONFLICT DO NOTHING;

-- name: EraseClassLimits :exec
DELETE FROM class_limits;

-- name: MarkLeft :exec
INSERT INTO leavers (lifter_id, nudges, public_ok, by_id, at_ms) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING;

-- name: Left :one
SELECT nudges, public_ok, at_ms FROM leavers WHERE lifter_id = ?;

-- name: Leavers :many
SELECT lifter_id FROM leavers ORDER BY lifter_id;

-- name: LeftBefore :many
SELECT lifter_id FROM leavers WHERE at_ms <= ? ORDER BY lifter_id;

-- name: ForgetLeft :execrows
DELETE FROM leavers WHERE lifter_id = ?;

-- name: Unreachable :many
SELECT DISTINCT person FROM posts WHERE state = 'dead' AND person <> '' AND reason = sqlc.arg(reason) AND settled_ms >= sqlc.arg(since_ms) ORDER BY person;

-- name: Licence :one
SELECT until_day FROM licences WHERE lifter_id = ?;

-- name: SaveLicence :exec
INSERT INTO licences (lifter_id, until_day) VALUES (?, ?) ON CONFLICT (lifter_id) DO UPDATE SET until_day = excluded.until_day;

-- name: DropLicence :exec
DELETE FROM licences WHERE lifter_id = ?;

-- name: Roster :one
SELECT session, flight, travel FROM meet_roster WHERE meet_id = ?;

-- name: SaveRoster :exec
INSERT INTO meet_roster (meet_id, session, flight, travel) VALUES (?, ?, ?, ?)
ON CONFLICT (meet_id) DO UPDATE SET session = excluded.session, flight = excluded.flight, travel = excluded.travel;

-- name: Review :one
SELECT strength, technique, command FROM meet_reviews WHERE meet_id = ?;

-- name: SaveReview :exec
INSERT INTO meet_reviews (meet_id, strength, technique, command, told_ms) VALUES (?, ?, ?, ?, ?)
ON CONFLICT (meet_id) DO UPDATE SET strength = excluded.strength, technique = excluded.technique, command = excluded.command, told_ms = excluded.told_ms;

-- name: AddPlaceholder :exec
INSERT INTO placeholders (lifter_id, made_ms) VALUES (?, ?);

-- name: Placeholders :many
SELECT lifter_id, by_id FROM placeholders ORDER BY lifter_id;

-- name: ClaimPlaceholder :execrows
UPDATE placeholders SET by_id = ? WHERE lifter_id = ?;

-- name: MoveMeets :exec
UPDATE meets SET lifter_id = sqlc.arg(real_id) WHERE meets.lifter_id = sqlc.arg(from_id) AND meets.dropped_ms IS NULL
    AND NOT EXISTS (SELECT 1 FROM meets other WHERE other.lifter_id = sqlc.arg(real_id) AND other.dropped_ms IS NULL
        AND other.day = meets.day AND other.name = meets.name COLLATE NOCASE);

-- name: MovePlans :exec
UPDATE plans SET lifter_id = sqlc.arg(real_id) WHERE lifter_id = sqlc.arg(from_id);

-- name: MoveSets :exec
UPDATE sets SET lifter_id = sqlc.arg(real_id), seq = seq + sqlc.arg(behind) WHERE lifter_id = sqlc.arg(from_id) AND day = sqlc.arg(day);

-- name: MoveSetHistory :exec
UPDATE set_history SET lifter_id = sqlc.arg(real_id), seq = seq + sqlc.arg(behind) WHERE lifter_id = sqlc.arg(from_id) AND day = sqlc.arg(day);

-- name: DaysLogged :many
SELECT DISTINCT day FROM sets WHERE lifter_id = ? ORDER BY day;

-- name: MoveAways :exec
UPDATE away SET lifter_id = sqlc.arg(real_id) WHERE lifter_id = sqlc.arg(from_id);
