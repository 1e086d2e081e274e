-- name: AddAway :one
INSERT INTO away (lifter_id, from_day, to_day, by_id, told_ms) VALUES (?, ?, ?, ?, ?) RETURNING id;

-- name: EndAway :execrows
UPDATE away SET to_day = ? WHERE id = ?;

-- name: DropAway :execrows
DELETE FROM away WHERE id = ?;

-- name: Aways :many
SELECT * FROM away WHERE lifter_id = ? ORDER BY from_day, id;

-- name: TakeLiftOff :exec
INSERT INTO lifts_off (lifter_id, lift, from_day, until_day, by_id, told_ms) VALUES (?, ?, ?, ?, ?, ?)
ON CONFLICT (lifter_id, lift) DO UPDATE SET from_day = excluded.from_day, until_day = excluded.until_day,
    by_id = excluded.by_id, told_ms = excluded.told_ms;

-- name: PutLiftBack :execrows
DELETE FROM lifts_off WHERE lifter_id = ? AND lift = ?;

-- name: LiftsOff :many
SELECT * FROM lifts_off WHERE lifter_id = ? ORDER BY lift;

-- name: AddPin :one
INSERT INTO pins (lifter_id, number, kind, start_day, weeks, until_day, by_id, set_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?) RETURNING id;

-- name: DropPin :execrows
DELETE FROM pins WHERE id = ? AND lifter_id = ?;

-- name: Pins :many
SELECT * FROM pins WHERE lifter_id = ? ORDER BY id;

-- name: SetBound :exec
INSERT INTO bounds (lifter_id, kind, most, by_id, set_ms) VALUES (?, ?, ?, ?, ?)
ON CONFLICT (coalesce(lifter_id, 0), kind) DO UPDATE SET most = excluded.most, by_id = excluded.by_id, set_ms = excluded.set_ms;

-- name: DropBound :execrows
DELETE FROM bounds WHERE lifter_id IS ? AND kind = ?;

-- name: Bounds :many
SELECT * FROM bounds WHERE lifter_id = ? OR lifter_id IS NULL ORDER BY id;

-- name: SetDecider :exec
INSERT INTO deciders (training_group, who) VALUES (?, ?) ON CONFLICT (training_group) DO UPDATE SET who = excluded.who;

-- name: DropDecider :execrows
DELETE FROM deciders WHERE training_group = ?;

-- name: Deciders :many
SELECT * FROM deciders ORDER BY training_group;

-- name: AskApproval :exec
INSERT INTO approvals (plan_id, lifter_id, wants, state, reason, asked_ms) VALUES (?, ?, ?, 'waiting', '', ?)
ON CONFLICT (plan_id) DO NOTHING;

-- name: SettleApproval :execrows
UPDATE approvals SET state = ?, reason = ?, by_id = ?, settled_ms = ? WHERE plan_id = ? AND state = 'waiting';

-- name: Approval :one
SELECT * FROM approvals WHERE plan_id = ?;

-- name: WaitingApprovals :many
SELECT a.* FROM approvals a JOIN plans p ON p.id = a.plan_id
WHERE a.state = 'waiting' AND p.state = 'proposed' ORDER BY a.asked_ms, a.plan_id;

-- name: AddNote :one
INSERT INTO notes (lifter_id, by_id, what, undo, args_json, made_ms) VALUES (?, ?, ?, ?, ?, ?) RETURNING id;

-- name: NotesSince :many
SELECT * FROM notes WHERE lifter_id = sqlc.arg(lifter_id) AND made_ms >= sqlc.arg(since_ms) ORDER BY made_ms, id;

-- name: Note :one
SELECT * FROM notes WHERE id = ?;

-- name: UndoNote :execrows
UPDATE notes SET undone_ms = ? WHERE id = ? AND undone_ms IS NULL;

-- name: SetLifterDay :exec
INSERT INTO lifter_days (lifter_id, name, day) VALUES (?, ?, ?) ON CONFLICT (lifter_id, name) DO UPDATE SET day = excluded.day;

-- name: LifterDays :many
SELECT * FROM lifter_days WHERE lifter_id = ?;

-- name: LastLogged :one
SELECT day FROM sets WHERE lifter_id = ? ORDER BY day DESC LIMIT 1;

-- name: WithdrawPlan :execrows
UPDATE plans SET state = 'declined', changed_ms = ? WHERE id = ? AND state = 'agreed';

-- name: EraseAway :exec
DELETE FROM away WHERE lifter_id = ?;

-- name: EraseLiftsOff :exec
DELETE FROM lifts_off WHERE lifter_id = ?;

-- name: ErasePins :exec
DELETE FROM pins WHERE lifter_id = ?;

-- name: EraseBounds :exec
DELETE FROM bounds WHERE lifter_id = ?;

-- name: EraseApprovals :exec
DELETE FROM approvals WHERE lifter_id = ?;

-- name: EraseNotes :exec
DELETE FROM notes WHERE lifter_id = ?;

-- name: ForgetWhoNoted :exec
UPDATE notes SET by_id = NULL WHERE by_id = ?;

-- name: EraseLifterDays :exec
DELETE FROM lifter_days WHERE lifter_id = ?;

-- name: ForgetWhoToldAway :exec
UPDATE away SET by_id = NULL WHERE by_id = ?;

-- name: ForgetWhoTookOff :exec
UPDATE lifts_off SET by_id = NULL WHERE by_id = ?;

-- name: ForgetWhoPinned :exec
UPDATE pins SET by_id = NULL WHERE by_id = ?;

-- name: ForgetWhoBound :exec
UPDATE bounds SET by_id = NULL WHERE by_id = ?;

-- name: ForgetWhoApproved :exec
UPDATE approvals SET by_id = NULL WHERE by_id = ?;

-- name: EraseEveryBound :exec
DELETE FROM bounds;

-- name: EraseDeciders :exec
DELETE FROM deciders;
