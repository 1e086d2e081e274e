-- name: EraseSets :exec
DELETE FROM sets WHERE lifter_id = ?;

-- name: EraseSetHistory :exec
DELETE FROM set_history WHERE lifter_id = ?;

-- name: ForgetCorrector :exec
UPDATE set_history SET by_id = NULL WHERE by_id = ?;

-- name: EraseBodyweights :exec
DELETE FROM bodyweights WHERE lifter_id = ?;

-- name: ErasePlanBlocks :exec
DELETE FROM plan_blocks WHERE plan_id IN (SELECT p.id FROM plans p WHERE p.lifter_id = ?);

-- name: ErasePlanMeets :exec
DELETE FROM plan_meets WHERE plan_id IN (SELECT p.id FROM plans p WHERE p.lifter_id = ?);

-- name: ErasePlans :exec
DELETE FROM plans WHERE lifter_id = ?;

-- name: EraseMeets :exec
DELETE FROM meets WHERE lifter_id = ?;

-- name: ForgetHandler :exec
UPDATE meets SET handler_id = NULL WHERE handler_id = ?;

-- name: EraseButtonUses :exec
DELETE FROM button_uses WHERE lifter_id = ?;

-- name: EraseButtons :exec
DELETE FROM buttons WHERE owner_id = ?;

-- name: PostsAbout :many
SELECT key FROM posts WHERE person = sqlc.arg(handle)
UNION
SELECT f.post_key FROM facts f WHERE f.lifter_id = sqlc.arg(lifter_id) AND f.post_key IS NOT NULL;

-- name: ForgetPlannedFacts :exec
DELETE FROM facts WHERE post_key = ? AND state = 'planned';

-- name: DetachFacts :exec
UPDATE facts SET post_key = NULL WHERE post_key = ?;

-- name: ErasePost :exec
DELETE FROM posts WHERE key = ?;

-- name: EraseFacts :exec
DELETE FROM facts WHERE lifter_id = ?;

-- name: EraseNudgesOff :exec
DELETE FROM nudges_off WHERE lifter_id = ?;

-- name: EraseSnoozes :exec
DELETE FROM snoozes WHERE lifter_id = ?;

-- name: EraseAudit :exec
DELETE FROM audit WHERE about_id = ?;

-- name: ForgetWhoChanged :exec
UPDATE audit SET by_id = NULL, by_gone = 1 WHERE by_id = ?;

-- name: ForgetCoach :exec
UPDATE lifters SET coach_id = NULL WHERE coach_id = ?;

-- name: EraseLifter :execrows
DELETE FROM lifters WHERE id = ?;

-- name: ErasePressesOn :exec
DELETE FROM terminal_presses WHERE message_id IN (SELECT m.id FROM terminal_messages m WHERE m.recipient = ?);

-- name: ErasePresses :exec
DELETE FROM terminal_presses WHERE person = ?;

-- name: EraseTerminalMessages :exec
DELETE FROM terminal_messages WHERE recipient = ?;

-- name: EraseEveryFact :exec
DELETE FROM facts;

-- name: EraseEveryPost :exec
DELETE FROM posts;

-- name: EraseEveryButton :exec
DELETE FROM buttons;

-- name: EraseEveryEvent :exec
DELETE FROM events;

-- name: EraseTrail :exec
DELETE FROM audit;

-- name: EraseSettings :exec
DELETE FROM club;

-- name: PostBodies :many
SELECT key, body_json FROM posts;

-- name: SetPostBody :exec
UPDATE posts SET body_json = ? WHERE key = ?;

-- name: ButtonWords :many
SELECT token, label, args_json FROM buttons;

-- name: SetButtonWords :exec
UPDATE buttons SET label = ?, args_json = ? WHERE token = ?;

-- name: TerminalBodies :many
SELECT id, body_json FROM terminal_messages;

-- name: SetTerminalBody :exec
UPDATE terminal_messages SET body_json = ? WHERE id = ?;

-- name: AuditTexts :many
SELECT id, what FROM audit;

-- name: SetAuditText :exec
UPDATE audit SET what = ? WHERE id = ?;
