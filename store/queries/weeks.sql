-- name: Training :one
SELECT * FROM training WHERE lifter_id = ?;

-- name: SaveTraining :exec
INSERT INTO training (lifter_id, weeks, weekdays, cautious, supervised) VALUES (?, ?, ?, ?, ?)
ON CONFLICT (lifter_id) DO UPDATE SET weeks = excluded.weeks, weekdays = excluded.weekdays,
    cautious = excluded.cautious, supervised = excluded.supervised;

-- name: EraseTraining :exec
DELETE FROM training WHERE lifter_id = ?;

-- name: Gym :one
SELECT * FROM gym WHERE id = 1;

-- name: SaveGym :exec
INSERT INTO gym (id, unit, bar_g, collars_g, discs_json, missing_json) VALUES (1, ?, ?, ?, ?, ?)
ON CONFLICT (id) DO UPDATE SET unit = excluded.unit, bar_g = excluded.bar_g, collars_g = excluded.collars_g,
    discs_json = excluded.discs_json, missing_json = excluded.missing_json;

-- name: EraseGym :exec
DELETE FROM gym;

-- name: ClubWeek :one
SELECT * FROM club_weeks WHERE kind = ?;

-- name: SaveClubWeek :exec
INSERT INTO club_weeks (kind, lines, set_ms) VALUES (?, ?, ?)
ON CONFLICT (kind) DO UPDATE SET lines = excluded.lines, set_ms = excluded.set_ms;

-- name: DropClubWeek :execrows
DELETE FROM club_weeks WHERE kind = ?;

-- name: EraseClubWeeks :exec
DELETE FROM club_weeks;

-- name: AddWeekChange :one
INSERT INTO week_changes (lifter_id, by_id, change_json, set_ms) VALUES (?, ?, ?, ?) RETURNING id;

-- name: WeekChanges :many
SELECT * FROM week_changes WHERE lifter_id = ? ORDER BY id;

-- name: DropWeekChange :execrows
DELETE FROM week_changes WHERE lifter_id = ? AND id = ?;

-- name: EraseWeekChanges :exec
DELETE FROM week_changes WHERE lifter_id = ?;

-- name: ForgetWhoChangedWeek :exec
UPDATE week_changes SET by_id = NULL WHERE by_id = ?;

-- name: TrainingWeek :one
SELECT * FROM training_weeks WHERE lifter_id = ? AND start_day = ?;

-- name: SaveTrainingWeek :exec
INSERT INTO training_weeks (lifter_id, start_day, basis, plan_json, edits_json, made_ms) VALUES (?, ?, ?, ?, ?, ?)
ON CONFLICT (lifter_id, start_day) DO UPDATE SET basis = excluded.basis, plan_json = excluded.plan_json,
    edits_json = excluded.edits_json, made_ms = excluded.made_ms;

-- name: EraseTrainingWeeks :exec
DELETE FROM training_weeks WHERE lifter_id = ?;

-- name: Prescribe :exec
INSERT INTO prescribed (lifter_id, day, work_json, shown_ms) VALUES (?, ?, ?, ?)
ON CONFLICT (lifter_id, day) DO UPDATE SET work_json = excluded.work_json, shown_ms = excluded.shown_ms;

-- name: Unprescribe :exec
DELETE FROM prescribed WHERE lifter_id = ? AND day = ?;

-- name: Prescribed :many
SELECT * FROM prescribed WHERE lifter_id = @lifter_id AND day >= @first_day AND day <= @last_day ORDER BY day;

-- name: ErasePrescribed :exec
DELETE FROM prescribed WHERE lifter_id = ?;
