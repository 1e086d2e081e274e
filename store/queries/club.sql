-- name: Origin :one
SELECT * FROM origin WHERE id = 1;

-- name: SetOrigin :exec
INSERT INTO origin (id, world, created_ms) VALUES (1, ?, ?) ON CONFLICT DO NOTHING;

-- name: Club :one
SELECT * FROM club WHERE id = 1;

-- name: SaveClub :exec
INSERT INTO club (id, zone, week_start, hour, minute, log_channel, nudge_channel, captain_role, advance, women_shorter, equation, smallest_step_g, weeks, unit)
VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
ON CONFLICT (id) DO UPDATE SET zone = excluded.zone, week_start = excluded.week_start, hour = excluded.hour,
    minute = excluded.minute, log_channel = excluded.log_channel, nudge_channel = excluded.nudge_channel,
    captain_role = excluded.captain_role, advance = excluded.advance, women_shorter = excluded.women_shorter,
    equation = excluded.equation, smallest_step_g = excluded.smallest_step_g, weeks = excluded.weeks, unit = excluded.unit;
