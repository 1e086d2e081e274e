-- name: SaveTakeover :exec
INSERT INTO takeovers (lifter_id, by_id, came_json, at_ms) VALUES (?, ?, ?, ?)
ON CONFLICT (lifter_id) DO UPDATE SET by_id = excluded.by_id, came_json = excluded.came_json, at_ms = excluded.at_ms;

-- name: Takeover :one
SELECT came_json, at_ms FROM takeovers WHERE lifter_id = ?;

-- name: DropTakeover :exec
DELETE FROM takeovers WHERE lifter_id = ?;

-- name: DropTakeoversBefore :exec
DELETE FROM takeovers WHERE at_ms <= ?;

-- name: MovePlans :exec
UPDATE plans SET lifter_id = sqlc.arg(real_id), version = version + sqlc.arg(behind) WHERE lifter_id = sqlc.arg(from_id);

-- name: RestorePlan :exec
UPDATE plans SET state = 'agreed' WHERE id = ? AND state = 'replaced';

-- name: DaysLogged :many
SELECT s.day FROM sets s WHERE s.lifter_id = sqlc.arg(lifter_id) UNION SELECT h.day FROM set_history h WHERE h.lifter_id = sqlc.arg(lifter_id) ORDER BY 1;

-- name: SetKeys :many
SELECT day, seq FROM sets WHERE lifter_id = ? ORDER BY day, seq;

-- name: MoveSets :exec
UPDATE sets SET lifter_id = sqlc.arg(real_id), seq = seq + sqlc.arg(behind) WHERE lifter_id = sqlc.arg(from_id) AND day = sqlc.arg(day);

-- name: ShiftSetHistory :exec
UPDATE set_history SET seq = seq + sqlc.arg(behind) WHERE lifter_id = sqlc.arg(from_id) AND day = sqlc.arg(day);

-- name: PlanMeetsToOwn :exec
UPDATE plan_meets SET meet_id = (SELECT own.id FROM meets own JOIN meets old ON old.day = own.day AND old.name = own.name COLLATE NOCASE
    WHERE old.id = plan_meets.meet_id AND own.lifter_id = sqlc.arg(real_id) AND own.dropped_ms IS NULL)
WHERE plan_meets.meet_id IN (SELECT m.id FROM meets m WHERE m.lifter_id = sqlc.arg(from_id));

-- name: RostersToOwn :exec
UPDATE OR IGNORE meet_roster SET meet_id = (SELECT own.id FROM meets own JOIN meets old ON old.day = own.day AND old.name = own.name COLLATE NOCASE
    WHERE old.id = meet_roster.meet_id AND own.lifter_id = sqlc.arg(real_id) AND own.dropped_ms IS NULL)
WHERE meet_roster.meet_id IN (SELECT m.id FROM meets m WHERE m.lifter_id = sqlc.arg(from_id));

-- name: ReviewsToOwn :exec
UPDATE OR IGNORE meet_reviews SET meet_id = (SELECT own.id FROM meets own JOIN meets old ON old.day = own.day AND old.name = own.name COLLATE NOCASE
    WHERE old.id = meet_reviews.meet_id AND own.lifter_id = sqlc.arg(real_id) AND own.dropped_ms IS NULL)
WHERE meet_reviews.meet_id IN (SELECT m.id FROM meets m WHERE m.lifter_id = sqlc.arg(from_id));

-- name: PlanMeetsTo :exec
UPDATE plan_meets SET meet_id = sqlc.arg(new_meet) WHERE meet_id = sqlc.arg(old_meet) AND plan_id IN (SELECT p.id FROM plans p WHERE p.lifter_id = sqlc.arg(lifter_id));

-- name: CutPlanMeets :exec
UPDATE plan_meets SET meet_id = NULL WHERE plan_meets.meet_id IN (SELECT m.id FROM meets m WHERE m.lifter_id = sqlc.arg(lifter_id))
    AND plan_meets.plan_id NOT IN (SELECT p.id FROM plans p WHERE p.lifter_id = sqlc.arg(lifter_id));
