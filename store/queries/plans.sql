-- name: LastVersion :one
SELECT CAST(coalesce(max(version), 0) AS INTEGER) AS version FROM plans WHERE lifter_id = ?;

-- name: ReplacePlans :exec
UPDATE plans SET state = 'replaced', changed_ms = ? WHERE lifter_id = ? AND state = ?;

-- name: AddPlan :one
INSERT INTO plans (lifter_id, version, state, built_ms, changed_ms, detail_json) VALUES (?, ?, 'proposed', ?, ?, ?)
RETURNING id;

-- name: AddPlanBlock :exec
INSERT INTO plan_blocks (plan_id, ordinal, kind, start_day, end_day, weeks, taper_start_day, reason, begun_day)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?);

-- name: AddPlanMeet :exec
INSERT INTO plan_meets (plan_id, ordinal, meet_id, name, day, kind) VALUES (?, ?, ?, ?, ?, ?);

-- name: AgreePlan :execrows
UPDATE plans SET state = 'agreed', agreed_ms = sqlc.arg(agreed_ms), changed_ms = sqlc.arg(agreed_ms)
WHERE id = sqlc.arg(id) AND state = 'proposed';

-- name: DeclinePlan :execrows
UPDATE plans SET state = 'declined', changed_ms = ? WHERE id = ? AND state = 'proposed';

-- name: Plan :one
SELECT * FROM plans WHERE id = ?;

-- The state stands in the text: a partial index serves a parameter only after the
-- statement was planned once more for its value, each time it is bound.

-- name: AgreedPlan :one
SELECT * FROM plans WHERE lifter_id = ? AND state = 'agreed';

-- name: ProposedPlan :one
SELECT * FROM plans WHERE lifter_id = ? AND state = 'proposed';

-- name: Plans :many
SELECT * FROM plans WHERE lifter_id = ? ORDER BY version;

-- name: PlanBlocks :many
SELECT * FROM plan_blocks WHERE plan_id = ? ORDER BY ordinal;

-- name: PlanMeets :many
SELECT * FROM plan_meets WHERE plan_id = ? ORDER BY ordinal;

-- name: BeginBlock :execrows
UPDATE plan_blocks SET begun_day = ? WHERE plan_id = ? AND ordinal = ?;

-- name: TouchPlan :exec
UPDATE plans SET changed_ms = ? WHERE id = ?;
