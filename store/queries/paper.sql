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
SELECT until_day, number FROM licences WHERE lifter_id = ?;

-- name: SaveLicence :exec
INSERT INTO licences (lifter_id, until_day, number) VALUES (?, ?, ?)
ON CONFLICT (lifter_id) DO UPDATE SET until_day = excluded.until_day, number = excluded.number;

-- name: DropLicence :exec
DELETE FROM licences WHERE lifter_id = ?;

-- name: Roster :one
SELECT session, flight, travel FROM meet_roster WHERE meet_id = ?;

-- name: SaveRoster :exec
INSERT INTO meet_roster (meet_id, session, flight, travel) VALUES (?, ?, ?, ?)
ON CONFLICT (meet_id) DO UPDATE SET session = excluded.session, flight = excluded.flight, travel = excluded.travel;

-- name: Review :one
SELECT * FROM meet_reviews WHERE meet_id = ?;

-- name: SaveReview :exec
INSERT INTO meet_reviews (meet_id, strength, technique, command, told_ms, lifts_told, squat_g, bench_g, deadlift_g, expected_low_g, expected_high_g, well, next_time)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
ON CONFLICT (meet_id) DO UPDATE SET strength = excluded.strength, technique = excluded.technique, command = excluded.command, told_ms = excluded.told_ms,
    lifts_told = excluded.lifts_told, squat_g = excluded.squat_g, bench_g = excluded.bench_g, deadlift_g = excluded.deadlift_g,
    expected_low_g = excluded.expected_low_g, expected_high_g = excluded.expected_high_g, well = excluded.well, next_time = excluded.next_time;

-- name: DropReview :exec
DELETE FROM meet_reviews WHERE meet_id = ?;

-- name: AddPlaceholder :exec
INSERT INTO placeholders (lifter_id, made_ms) VALUES (?, ?);

-- name: Placeholders :many
SELECT lifter_id, by_id, made_ms FROM placeholders ORDER BY lifter_id;

-- name: Placeholder :one
SELECT by_id, made_ms FROM placeholders WHERE lifter_id = ?;

-- name: ClaimPlaceholder :execrows
UPDATE placeholders SET by_id = ? WHERE lifter_id = ?;

-- name: WardsOf :many
SELECT l.* FROM lifters l JOIN placeholders p ON p.lifter_id = l.id
WHERE l.coach_id = sqlc.arg(coach_id) OR (l.coach_id IS NULL OR l.coach_id IN (SELECT lifter_id FROM leavers)) AND sqlc.arg(captain)
ORDER BY l.id;

-- A trigger on the column lets everybody who may speak for them look again.
-- name: WakeForWards :exec
UPDATE lifters SET coach_id = coach_id WHERE lifters.coach_id = sqlc.arg(coach_id) AND lifters.id IN (SELECT p.lifter_id FROM placeholders p);

-- name: LastHandleNumber :one
SELECT CAST(coalesce(max(id), 0) AS INTEGER) AS id FROM lifters;

-- The words of places and reviews, for taking names out.

-- name: RosterWords :many
SELECT meet_id, session, flight, travel FROM meet_roster;

-- name: ReviewWords :many
SELECT meet_id, well, next_time FROM meet_reviews WHERE well <> '' OR next_time <> '';

-- name: SetReviewWords :exec
UPDATE meet_reviews SET well = ?, next_time = ? WHERE meet_id = ?;

-- name: NoteWords :many
SELECT id, what FROM notes;

-- name: SetNoteWords :exec
UPDATE notes SET what = ? WHERE id = ?;

-- name: TakeoverWords :many
SELECT lifter_id, came_json FROM takeovers;

-- name: SetTakeoverWords :exec
UPDATE takeovers SET came_json = ? WHERE lifter_id = ?;

-- name: ForgetNotes :exec
DELETE FROM notes WHERE what = ? AND undo = '';
