-- name: AddImport :one
INSERT INTO imports (lifter_id, state, draft, made_ms, expires_ms) VALUES (?, 'waiting', ?, ?, ?) RETURNING id;

-- name: ImportDraft :one
SELECT draft FROM imports WHERE id = ? AND lifter_id = ? AND state = 'waiting';

-- name: SaveDraft :execrows
UPDATE imports SET draft = ? WHERE id = ? AND lifter_id = ? AND state = 'waiting';

-- name: FinishImport :execrows
UPDATE imports SET state = 'done', draft = NULL WHERE id = ? AND lifter_id = ? AND state = 'waiting';

-- name: UndoImport :execrows
UPDATE imports SET state = 'undone' WHERE id = ? AND lifter_id = ? AND state = 'done';

-- name: DropImport :exec
DELETE FROM imports WHERE id = ? AND lifter_id = ? AND state = 'waiting';

-- name: DropWaiting :exec
DELETE FROM imports WHERE lifter_id = ? AND state = 'waiting';

-- name: ForgetImports :exec
DELETE FROM imports WHERE state = 'waiting' AND expires_ms < ?;

-- name: ImportedMarks :many
SELECT mark FROM imported_sets WHERE lifter_id = ?;

-- name: ForgetMarks :exec
DELETE FROM imported_sets WHERE lifter_id = ? AND import_id = ?;

-- name: KeepSetsOfImport :execrows
INSERT INTO set_history (lifter_id, day, seq, message, lift, variant, weight_g, reps, sets, reserve, missed, gear,
    pending, written_ms, change, by_id, changed_ms)
SELECT s.lifter_id, s.day, s.seq, s.message, s.lift, s.variant, s.weight_g, s.reps, s.sets, s.reserve, s.missed, s.gear,
    s.pending, s.written_ms, 'dropped', sqlc.arg(by_id), sqlc.arg(changed_ms)
FROM sets s WHERE s.lifter_id = sqlc.arg(lifter_id) AND s.message = sqlc.arg(message);

-- name: DropSetsOfImport :exec
DELETE FROM sets WHERE lifter_id = ? AND message = ?;

-- name: LastSeqs :many
SELECT s.day, CAST(max(s.seq) AS INTEGER) AS seq FROM sets s WHERE s.lifter_id = sqlc.arg(lifter_id) GROUP BY s.day
UNION ALL
SELECT h.day, CAST(max(h.seq) AS INTEGER) AS seq FROM set_history h WHERE h.lifter_id = sqlc.arg(lifter_id) GROUP BY h.day;

-- name: EraseImportedSets :exec
DELETE FROM imported_sets WHERE lifter_id = ?;

-- name: EraseImports :exec
DELETE FROM imports WHERE lifter_id = ?;
