-- The schema that keeps what somebody erased did for others, and what was said about
-- meets before, and a few rows. Do not edit: databases like this one exist, and every later
-- program must bring them up to date.

CREATE TABLE goose_db_version (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);

CREATE TABLE origin (
    id         INTEGER PRIMARY KEY CHECK (id = 1),
    world      TEXT    NOT NULL CHECK (world IN ('terminal', 'platform')),
    created_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE club (
    id              INTEGER PRIMARY KEY CHECK (id = 1),
    zone            TEXT    NOT NULL,
    week_start      INTEGER NOT NULL CHECK (week_start BETWEEN 0 AND 6), -- Sunday is 0
    hour            INTEGER NOT NULL CHECK (hour BETWEEN 0 AND 23),
    minute          INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 59),
    log_channel     TEXT    NOT NULL,
    nudge_channel   TEXT    NOT NULL,
    captain_role    TEXT    NOT NULL,
    advance         TEXT    NOT NULL CHECK (advance IN ('agreed', 'ask')),
    women_shorter   INTEGER NOT NULL CHECK (women_shorter IN (0, 1)),
    equation        TEXT    NOT NULL CHECK (equation <> ''),
    smallest_step_g INTEGER NOT NULL CHECK (smallest_step_g > 0)
, weeks TEXT NOT NULL DEFAULT 'bot' CHECK (weeks IN ('bot', 'club', 'own')), unit TEXT NOT NULL DEFAULT 'kg' CHECK (unit IN ('kg', 'lb'))) STRICT;

CREATE TABLE lifters (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    handle       TEXT    NOT NULL CHECK (handle <> ''),
    handle_key   TEXT    NOT NULL UNIQUE CHECK (handle_key <> ''), -- lower case, without @
    name         TEXT    NOT NULL,
    captain      INTEGER NOT NULL CHECK (captain IN (0, 1)),
    coach_id     INTEGER REFERENCES lifters (id),
    training_group TEXT  NOT NULL,
    category     TEXT    NOT NULL CHECK (category IN ('', 'women', 'men')),
    born_day     TEXT    CHECK (born_day IS date(born_day)),
    bodyweight_g INTEGER NOT NULL CHECK (bodyweight_g >= 0),
    class_limit_g INTEGER NOT NULL CHECK (class_limit_g >= 0),
    class_plus   INTEGER NOT NULL CHECK (class_plus IN (0, 1)),
    level        TEXT    NOT NULL CHECK (level IN ('', 'new', 'novice', 'intermediate', 'advanced', 'elite')),
    zone         TEXT    NOT NULL,
    unit         TEXT    NOT NULL CHECK (unit IN ('', 'kg', 'lb')),
    days         INTEGER NOT NULL CHECK (days BETWEEN 0 AND 7), -- training days a week, 0 not told
    squat_g      INTEGER NOT NULL CHECK (squat_g >= 0),
    bench_g      INTEGER NOT NULL CHECK (bench_g >= 0),
    deadlift_g   INTEGER NOT NULL CHECK (deadlift_g >= 0),
    nudges       TEXT    NOT NULL CHECK (nudges IN ('', 'direct', 'channel', 'ask')),
    long_blocks  INTEGER NOT NULL CHECK (long_blocks IN (0, 1)),
    has_competed INTEGER NOT NULL CHECK (has_competed IN (0, 1)),
    public_ok    INTEGER NOT NULL DEFAULT 1 CHECK (public_ok IN (0, 1)), -- may be named where all can read
    joined_ms    INTEGER NOT NULL,
    changed_ms   INTEGER NOT NULL
, bench_style TEXT NOT NULL DEFAULT ''
    CHECK (bench_style IN ('', 'paused', 'touch and go')), deadlift_style TEXT NOT NULL DEFAULT ''
    CHECK (deadlift_style IN ('', 'conventional', 'sumo'))) STRICT;

CREATE TABLE meets (
    id               INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id        INTEGER NOT NULL REFERENCES lifters (id),
    name             TEXT    NOT NULL CHECK (name <> ''),
    day              TEXT    NOT NULL CHECK (day IS date(day)),
    kind             TEXT    NOT NULL CHECK (kind IN ('main', 'tune-up', 'test')),
    event            TEXT    NOT NULL CHECK (event IN ('', 'full', 'bench', 'push-pull', 'deadlift')),
    equipment        TEXT    NOT NULL CHECK (equipment IN ('', 'raw', 'wraps', 'single-ply', 'multi-ply')),
    rule_set         TEXT    NOT NULL,
    weigh_in_hours   INTEGER NOT NULL CHECK (weigh_in_hours BETWEEN 0 AND 48), -- before the start, 0 not told
    class_limit_g    INTEGER NOT NULL CHECK (class_limit_g >= 0),
    class_plus       INTEGER NOT NULL CHECK (class_plus IN (0, 1)),
    qualifying_g     INTEGER NOT NULL CHECK (qualifying_g >= 0),
    entry_closes_day TEXT    CHECK (entry_closes_day IS date(entry_closes_day)),
    place            TEXT    NOT NULL,
    zone             TEXT    NOT NULL,
    handler_id       INTEGER REFERENCES lifters (id),
    entered          INTEGER NOT NULL CHECK (entered IN (0, 1)),
    result_total_g   INTEGER NOT NULL CHECK (result_total_g >= 0),
    result_entered   INTEGER NOT NULL CHECK (result_entered IN (0, 1)),
    added_ms         INTEGER NOT NULL,
    changed_ms       INTEGER NOT NULL,
    dropped_ms       INTEGER
) STRICT;

CREATE UNIQUE INDEX meets_once ON meets (lifter_id, day, name COLLATE NOCASE) WHERE dropped_ms IS NULL;

CREATE TABLE sets (
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id),
    day        TEXT    NOT NULL CHECK (day IS date(day)),
    seq        INTEGER NOT NULL CHECK (seq > 0),
    message    TEXT    NOT NULL, -- id of the message, never its words
    lift       TEXT    NOT NULL CHECK (lift <> ''),
    variant    TEXT    NOT NULL, -- '' is the lift as in competition
    weight_g   INTEGER NOT NULL CHECK (weight_g BETWEEN 0 AND 700000),
    reps       INTEGER NOT NULL CHECK (reps BETWEEN 0 AND 100),
    sets       INTEGER NOT NULL CHECK (sets BETWEEN 1 AND 30),
    reserve    REAL    CHECK (reserve BETWEEN 0 AND 30), -- repetitions in reserve, NULL not told
    missed     INTEGER NOT NULL CHECK (missed IN (0, 1)),
    gear       TEXT    NOT NULL CHECK (gear IN ('', 'raw', 'wraps', 'single-ply', 'multi-ply')),
    pending    INTEGER NOT NULL CHECK (pending IN (0, 1)),
    written_ms INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX sets_by_message ON sets (lifter_id, message);

CREATE TABLE set_history (
    id         INTEGER PRIMARY KEY,
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id),
    day        TEXT    NOT NULL CHECK (day IS date(day)),
    seq        INTEGER NOT NULL CHECK (seq > 0),
    message    TEXT    NOT NULL,
    lift       TEXT    NOT NULL,
    variant    TEXT    NOT NULL,
    weight_g   INTEGER NOT NULL,
    reps       INTEGER NOT NULL,
    sets       INTEGER NOT NULL,
    reserve    REAL,
    missed     INTEGER NOT NULL CHECK (missed IN (0, 1)),
    gear       TEXT    NOT NULL,
    pending    INTEGER NOT NULL CHECK (pending IN (0, 1)),
    written_ms INTEGER NOT NULL,
    change     TEXT    NOT NULL CHECK (change IN ('fixed', 'moved', 'dropped')),
    by_id      INTEGER REFERENCES lifters (id),
    changed_ms INTEGER NOT NULL
) STRICT;

CREATE INDEX set_history_by_set ON set_history (lifter_id, day, seq);

CREATE TABLE bodyweights (
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id),
    day        TEXT    NOT NULL CHECK (day IS date(day)),
    mass_g     INTEGER NOT NULL CHECK (mass_g BETWEEN 20000 AND 400000),
    written_ms INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE plans (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id   INTEGER NOT NULL REFERENCES lifters (id),
    version     INTEGER NOT NULL CHECK (version > 0),
    state       TEXT    NOT NULL CHECK (state IN ('proposed', 'agreed', 'replaced', 'declined')),
    built_ms    INTEGER NOT NULL,
    agreed_ms   INTEGER,
    changed_ms  INTEGER NOT NULL,
    detail_json TEXT    NOT NULL CHECK (json_valid(detail_json)),
    UNIQUE (lifter_id, version)
) STRICT;

CREATE UNIQUE INDEX plans_one_proposed ON plans (lifter_id) WHERE state = 'proposed';

CREATE UNIQUE INDEX plans_one_agreed ON plans (lifter_id) WHERE state = 'agreed';

CREATE TABLE plan_blocks (
    plan_id         INTEGER NOT NULL REFERENCES plans (id),
    ordinal         INTEGER NOT NULL CHECK (ordinal >= 0),
    kind            TEXT    NOT NULL CHECK (kind IN ('hypertrophy', 'strength', 'peaking', 'recovery')),
    start_day       TEXT    NOT NULL CHECK (start_day IS date(start_day)),
    end_day         TEXT    NOT NULL CHECK (end_day IS date(end_day)),
    weeks           INTEGER NOT NULL CHECK (weeks >= 0),
    taper_start_day TEXT    CHECK (taper_start_day IS date(taper_start_day)),
    reason          TEXT    NOT NULL,
    begun_day       TEXT    CHECK (begun_day IS date(begun_day)),
    PRIMARY KEY (plan_id, ordinal),
    CHECK (start_day <= end_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_meets (
    plan_id INTEGER NOT NULL REFERENCES plans (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    meet_id INTEGER REFERENCES meets (id), -- NULL: a test day of the plan's own
    name    TEXT    NOT NULL,
    day     TEXT    NOT NULL CHECK (day IS date(day)),
    kind    TEXT    NOT NULL CHECK (kind IN ('main', 'tune-up', 'test')),
    PRIMARY KEY (plan_id, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE buttons (
    token      TEXT    PRIMARY KEY CHECK (token <> ''),
    label      TEXT    NOT NULL,
    owner_id   INTEGER REFERENCES lifters (id), -- NULL: anyone may press
    action     TEXT    NOT NULL CHECK (action <> ''),
    args_json  TEXT    NOT NULL CHECK (json_valid(args_json)),
    made_ms    INTEGER NOT NULL,
    expires_ms INTEGER -- NULL: never
) STRICT, WITHOUT ROWID;

CREATE TABLE button_uses (
    token     TEXT    NOT NULL REFERENCES buttons (token) ON DELETE CASCADE,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    used_ms   INTEGER NOT NULL,
    PRIMARY KEY (token, lifter_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE events (
    id      TEXT    PRIMARY KEY CHECK (id <> ''),
    seen_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE audit (
    id       INTEGER PRIMARY KEY,
    by_id    INTEGER REFERENCES lifters (id),
    about_id INTEGER REFERENCES lifters (id),
    what     TEXT    NOT NULL,
    at_ms    INTEGER NOT NULL
, by_gone INTEGER NOT NULL DEFAULT 0 CHECK (by_gone IN (0, 1))) STRICT;

CREATE TABLE posts (
    key              TEXT    PRIMARY KEY CHECK (key <> ''),
    channel          TEXT    NOT NULL,
    person           TEXT    NOT NULL, -- handle, for direct messages
    body_json        TEXT    NOT NULL CHECK (json_valid(body_json)),
    due_ms           INTEGER NOT NULL,
    state            TEXT    NOT NULL CHECK (state IN ('planned', 'claimed', 'sent', 'dead')),
    attempts         INTEGER NOT NULL CHECK (attempts >= 0),
    claimed_until_ms INTEGER,
    ref              TEXT    NOT NULL, -- where it stands once sent
    reason           TEXT    NOT NULL,
    queued_ms        INTEGER NOT NULL,
    settled_ms       INTEGER,
    CHECK ((state = 'claimed') = (claimed_until_ms IS NOT NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX posts_open ON posts (due_ms) WHERE state IN ('planned', 'claimed');

CREATE TABLE facts (
    key        TEXT    PRIMARY KEY CHECK (key <> ''),
    lifter_id  INTEGER REFERENCES lifters (id), -- NULL: the club's own
    kind       TEXT    NOT NULL,
    due_ms     INTEGER NOT NULL,
    state      TEXT    NOT NULL CHECK (state IN ('planned', 'sent', 'skipped')),
    reason     TEXT    NOT NULL,
    post_key   TEXT    REFERENCES posts (key),
    changed_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX facts_by_post ON facts (post_key) WHERE post_key IS NOT NULL;

CREATE INDEX facts_by_lifter ON facts (lifter_id, due_ms);

CREATE TABLE nudges_off (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    kind      TEXT    NOT NULL CHECK (kind <> ''),
    PRIMARY KEY (lifter_id, kind)
) STRICT, WITHOUT ROWID;

CREATE TABLE snoozes (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    key       TEXT    NOT NULL CHECK (key <> ''),
    until_ms  INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, key)
) STRICT, WITHOUT ROWID;

CREATE TABLE terminal (
    id       INTEGER PRIMARY KEY CHECK (id = 1),
    clock_ms INTEGER,
    events   INTEGER NOT NULL CHECK (events >= 0)
) STRICT;

CREATE TABLE terminal_messages (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    key       TEXT    UNIQUE, -- NULL: a message nobody posts twice
    at_ms     INTEGER NOT NULL,
    kind      TEXT    NOT NULL,
    recipient TEXT    NOT NULL,
    private   INTEGER NOT NULL CHECK (private IN (0, 1)),
    body_json TEXT    NOT NULL CHECK (json_valid(body_json))
) STRICT;

CREATE TABLE terminal_presses (
    message_id INTEGER NOT NULL REFERENCES terminal_messages (id),
    token      TEXT    NOT NULL,
    person     TEXT    NOT NULL,
    at_ms      INTEGER NOT NULL,
    PRIMARY KEY (message_id, token, person)
) STRICT, WITHOUT ROWID;

CREATE TABLE sign_ins (
    at_ms INTEGER PRIMARY KEY NOT NULL
) STRICT;

CREATE TABLE removal (
    id     INTEGER PRIMARY KEY NOT NULL CHECK (id = 1),
    at_ms  INTEGER NOT NULL CHECK (at_ms > 0)
) STRICT;

CREATE INDEX sets_by_message_alone ON sets (message);

CREATE TABLE home (
    id     INTEGER PRIMARY KEY NOT NULL CHECK (id = 1),
    server TEXT    NOT NULL CHECK (server <> '')
) STRICT;

CREATE TABLE away (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    from_day  TEXT    NOT NULL CHECK (from_day IS date(from_day)),
    to_day    TEXT    CHECK (to_day IS date(to_day)),
    by_id     INTEGER REFERENCES lifters (id),
    told_ms   INTEGER NOT NULL,
    CHECK (to_day IS NULL OR from_day <= to_day)
) STRICT;

CREATE INDEX away_by_lifter ON away (lifter_id, from_day);

CREATE TABLE lifts_off (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    lift      TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    from_day  TEXT    NOT NULL CHECK (from_day IS date(from_day)),
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day)), -- the day it is back
    by_id     INTEGER REFERENCES lifters (id),
    told_ms   INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, lift),
    CHECK (from_day < until_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE pins (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    number    INTEGER NOT NULL CHECK (number >= 0), -- of the block in the season, finished ones counted
    kind      TEXT    NOT NULL CHECK (kind IN ('', 'hypertrophy', 'strength', 'peaking', 'recovery')),
    start_day TEXT    CHECK (start_day IS date(start_day)),
    weeks     INTEGER NOT NULL CHECK (weeks BETWEEN 0 AND 52),
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day)), -- the pin ends with the plan it was made for
    by_id     INTEGER REFERENCES lifters (id),
    set_ms    INTEGER NOT NULL
) STRICT;

CREATE INDEX pins_by_lifter ON pins (lifter_id);

CREATE TABLE bounds (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER REFERENCES lifters (id),
    kind      TEXT    NOT NULL CHECK (kind IN ('hypertrophy', 'strength', 'peaking', 'recovery')),
    most      INTEGER NOT NULL CHECK (most BETWEEN 0 AND 52),
    by_id     INTEGER REFERENCES lifters (id),
    set_ms    INTEGER NOT NULL
) STRICT;

CREATE UNIQUE INDEX bounds_once ON bounds (coalesce(lifter_id, 0), kind);

CREATE TABLE deciders (
    training_group TEXT PRIMARY KEY,
    who            TEXT NOT NULL CHECK (who IN ('coach', 'lifter', 'both'))
) STRICT, WITHOUT ROWID;

CREATE TABLE approvals (
    plan_id     INTEGER PRIMARY KEY NOT NULL REFERENCES plans (id),
    lifter_id   INTEGER NOT NULL REFERENCES lifters (id),
    wants       TEXT    NOT NULL CHECK (wants IN ('coach', 'lifter')), -- whose yes is missing
    state       TEXT    NOT NULL CHECK (state IN ('waiting', 'approved', 'declined')),
    reason      TEXT    NOT NULL, -- of a no, one of the program's own words
    by_id       INTEGER REFERENCES lifters (id), -- who said the last word
    asked_ms    INTEGER NOT NULL,
    settled_ms  INTEGER
) STRICT;

CREATE INDEX approvals_waiting ON approvals (asked_ms) WHERE state = 'waiting';

CREATE TABLE notes (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    by_id     INTEGER REFERENCES lifters (id),
    what      TEXT    NOT NULL,
    undo      TEXT    NOT NULL, -- '' where it cannot be taken back
    args_json TEXT    NOT NULL CHECK (json_valid(args_json)),
    made_ms   INTEGER NOT NULL,
    undone_ms INTEGER
) STRICT;

CREATE INDEX notes_by_lifter ON notes (lifter_id, made_ms);

CREATE TABLE lifter_days (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    name      TEXT    NOT NULL CHECK (name IN ('trained', 'quiet', 'learning')),
    day       TEXT    NOT NULL CHECK (day IS date(day)),
    PRIMARY KEY (lifter_id, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE imports (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id),
    state      TEXT    NOT NULL CHECK (state IN ('waiting', 'done', 'undone')),
    draft      BLOB    CHECK (state = 'waiting' OR draft IS NULL),
    made_ms    INTEGER NOT NULL,
    expires_ms INTEGER NOT NULL
) STRICT;

CREATE INDEX imports_by_lifter ON imports (lifter_id);

CREATE TABLE imported_sets (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id),
    mark      INTEGER NOT NULL,
    import_id INTEGER NOT NULL REFERENCES imports (id),
    PRIMARY KEY (lifter_id, mark)
) STRICT, WITHOUT ROWID;

CREATE TABLE watch (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    next_ms   INTEGER NOT NULL CHECK (next_ms >= 0),
    seen_ms   INTEGER NOT NULL CHECK (seen_ms >= 0)
) STRICT;

CREATE INDEX watch_by_next ON watch (next_ms);

CREATE INDEX watch_by_seen ON watch (seen_ms);

CREATE TABLE nudges_kept (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    kind      TEXT    NOT NULL CHECK (kind <> ''),
    at_ms     INTEGER NOT NULL CHECK (at_ms > 0),
    PRIMARY KEY (lifter_id, kind)
) STRICT, WITHOUT ROWID;

CREATE INDEX facts_by_kind ON facts (lifter_id, kind, due_ms) WHERE lifter_id IS NOT NULL;

CREATE TABLE nudge_times (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    hour      INTEGER CHECK (hour BETWEEN 0 AND 23), -- NULL: the club's
    minute    INTEGER CHECK (minute BETWEEN 0 AND 59),
    quiet     INTEGER NOT NULL CHECK (quiet BETWEEN 0 AND 127), -- one bit a weekday, Sunday the lowest
    paused_ms INTEGER, -- nothing personal that can wait before this moment
    CHECK ((hour IS NULL) = (minute IS NULL))
) STRICT;

CREATE TABLE desk (
    id         INTEGER PRIMARY KEY CHECK (id = 1),
    channel    TEXT    NOT NULL, -- hidden from ordinary members; '' for none
    digest_on INTEGER CHECK (digest_on BETWEEN 0 AND 6), -- Sunday is 0; NULL: no digest
    changes    INTEGER NOT NULL CHECK (changes IN (0, 1)) -- announce the week's block changes by itself
, checkin_on INTEGER CHECK (checkin_on BETWEEN 0 AND 6)) STRICT;

CREATE TABLE appointed (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    at_ms     INTEGER NOT NULL
) STRICT;

CREATE TABLE checkins (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    day       TEXT    NOT NULL CHECK (day IS date(day)), -- of the answer
    tired     INTEGER CHECK (tired BETWEEN 0 AND 2),
    stale     INTEGER CHECK (stale BETWEEN 0 AND 2),
    told_ms   INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE body_seen_by (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    who       TEXT    NOT NULL CHECK (who IN ('coach', 'captains', 'nobody'))
) STRICT;

CREATE TABLE training (
    lifter_id  INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    weeks      TEXT    NOT NULL CHECK (weeks IN ('', 'bot', 'club', 'own')), -- '': as the club
    weekdays   INTEGER NOT NULL CHECK (weekdays BETWEEN 0 AND 127), -- one bit a weekday, Sunday the lowest; 0: spread
    cautious   INTEGER NOT NULL CHECK (cautious IN (0, 1)), -- chosen by anyone; there is no column for a reason
    supervised INTEGER NOT NULL CHECK (supervised IN (0, 1)) -- a coach vouches for a lifter under 18
) STRICT;

CREATE TABLE gym (
    id           INTEGER PRIMARY KEY CHECK (id = 1),
    unit         TEXT    NOT NULL CHECK (unit IN ('kg', 'lb')),
    bar_g        INTEGER NOT NULL CHECK (bar_g >= 0), -- 0: the usual bar and collars
    collars_g    INTEGER NOT NULL CHECK (collars_g >= 0),
    discs_json   TEXT    NOT NULL CHECK (json_valid(discs_json)), -- grams of single discs
    missing_json TEXT    NOT NULL CHECK (json_valid(missing_json))
) STRICT;

CREATE TABLE club_weeks (
    kind    TEXT    PRIMARY KEY NOT NULL CHECK (kind IN ('hypertrophy', 'strength', 'peaking', 'recovery')),
    lines   TEXT    NOT NULL,
    set_ms  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE week_changes (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    lifter_id   INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id       INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    change_json TEXT    NOT NULL CHECK (json_valid(change_json)),
    set_ms      INTEGER NOT NULL
) STRICT;

CREATE INDEX week_changes_by_lifter ON week_changes (lifter_id);

CREATE TABLE training_weeks (
    lifter_id  INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    start_day  TEXT    NOT NULL CHECK (start_day IS date(start_day)),
    basis      TEXT    NOT NULL, -- a digest of what it was made from, but for the log
    plan_json  TEXT    NOT NULL CHECK (json_valid(plan_json)),
    edits_json TEXT    NOT NULL CHECK (json_valid(edits_json)),
    made_ms    INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, start_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE prescribed (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    day       TEXT    NOT NULL CHECK (day IS date(day)),
    work_json TEXT    NOT NULL CHECK (json_valid(work_json)),
    shown_ms  INTEGER NOT NULL,
    PRIMARY KEY (lifter_id, day)
) STRICT, WITHOUT ROWID;

CREATE INDEX sets_by_lift ON sets (lifter_id, lift, variant, gear, reps, reserve, day, weight_g) WHERE missed = 0 AND pending = 0 AND reps > 0;

CREATE TABLE unread (
    lifter_id INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    lift      TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    PRIMARY KEY (lifter_id, lift)
) STRICT, WITHOUT ROWID;

CREATE TABLE readings (
    lifter_id    INTEGER NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    lift         TEXT    NOT NULL CHECK (lift IN ('squat', 'bench', 'deadlift')),
    read_day     TEXT    NOT NULL CHECK (read_day IS date(read_day)),
    kg           REAL    NOT NULL CHECK (kg >= 0), -- the max in the form that is trained; 0: nothing known
    observations INTEGER NOT NULL CHECK (observations >= 0), -- days with a set that it rests on
    verdict      TEXT    NOT NULL CHECK (verdict IN ('rising', 'holding', 'falling', 'too little data')),
    reason       TEXT    NOT NULL,
    since_day    TEXT    CHECK (since_day IS date(since_day)), -- of the halt or fall; NULL: none
    stalled_day  TEXT    CHECK (stalled_day IS date(stalled_day)), -- first read as holding or falling, and so ever since; NULL: it is not
    PRIMARY KEY (lifter_id, lift)
) STRICT, WITHOUT ROWID;

CREATE TABLE class_table (
    id        INTEGER PRIMARY KEY CHECK (id = 1),
    name      TEXT    NOT NULL,
    since_day TEXT    CHECK (since_day IS date(since_day))
) STRICT;

CREATE TABLE class_limits (
    category TEXT    NOT NULL CHECK (category IN ('women', 'men')),
    limit_g  INTEGER NOT NULL CHECK (limit_g > 0),
    class_plus INTEGER NOT NULL CHECK (class_plus IN (0, 1)), -- above the limit, without an end
    PRIMARY KEY (category, limit_g, class_plus)
) STRICT, WITHOUT ROWID;

CREATE TABLE leavers (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    nudges    TEXT    NOT NULL CHECK (nudges IN ('', 'direct', 'channel', 'ask')),
    public_ok INTEGER NOT NULL CHECK (public_ok IN (0, 1)),
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL,
    at_ms     INTEGER NOT NULL
) STRICT;

CREATE TABLE placeholders (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL, -- who claims it
    made_ms   INTEGER NOT NULL
) STRICT;

CREATE TABLE licences (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    until_day TEXT    NOT NULL CHECK (until_day IS date(until_day))
, number TEXT NOT NULL DEFAULT '') STRICT;

CREATE TABLE meet_roster (
    meet_id INTEGER PRIMARY KEY NOT NULL REFERENCES meets (id) ON DELETE CASCADE,
    session TEXT    NOT NULL,
    flight  TEXT    NOT NULL,
    travel  TEXT    NOT NULL
) STRICT;

CREATE TABLE meet_reviews (
    meet_id   INTEGER PRIMARY KEY NOT NULL REFERENCES meets (id) ON DELETE CASCADE,
    strength  INTEGER NOT NULL CHECK (strength BETWEEN 0 AND 9),
    technique INTEGER NOT NULL CHECK (technique BETWEEN 0 AND 9),
    command   INTEGER NOT NULL CHECK (command BETWEEN 0 AND 9),
    told_ms   INTEGER NOT NULL
, lifts_told INTEGER NOT NULL DEFAULT 0 CHECK (lifts_told IN (0, 1)), squat_g INTEGER NOT NULL DEFAULT 0 CHECK (squat_g >= 0), bench_g INTEGER NOT NULL DEFAULT 0 CHECK (bench_g >= 0), deadlift_g INTEGER NOT NULL DEFAULT 0 CHECK (deadlift_g >= 0), expected_low_g INTEGER NOT NULL DEFAULT 0 CHECK (expected_low_g >= 0), expected_high_g INTEGER NOT NULL DEFAULT 0 CHECK (expected_high_g >= expected_low_g), well TEXT NOT NULL DEFAULT '', next_time TEXT NOT NULL DEFAULT '') STRICT;

CREATE TABLE takeovers (
    lifter_id INTEGER PRIMARY KEY NOT NULL REFERENCES lifters (id) ON DELETE CASCADE,
    by_id     INTEGER REFERENCES lifters (id) ON DELETE SET NULL, -- who confirmed it
    came_json TEXT    NOT NULL CHECK (json_valid(came_json)),
    at_ms     INTEGER NOT NULL
) STRICT;

INSERT INTO goose_db_version (version_id, is_applied) VALUES (0, 1), (1, 1), (2, 1), (3, 1), (4, 1), (5, 1), (7, 1), (8, 1), (9, 1), (10, 1), (11, 1), (12, 1), (13, 1), (14, 1), (15, 1), (16, 1), (17, 1), (18, 1);
INSERT INTO origin VALUES (1, 'terminal', 1798963200000);
INSERT INTO lifters VALUES (1, 'ana', 'ana', 'Ana Reis', 0, NULL, '', 'women', '1996-02-29', 62500, 63000, 0,
    'intermediate', 'Europe/Lisbon', 'kg', 4, 140000, 77500, 165000, 'direct', 0, 1, 1, 1798963200000, 1798963200000,
    'touch and go', 'sumo');
INSERT INTO meets VALUES (1, 1, 'River Open', '2027-06-12', 'main', 'full', 'raw', '', 2, 63000, 0, 0, NULL, '', '',
    NULL, 1, 0, 0, 1798963200000, 1798963200000, NULL);
INSERT INTO sets VALUES (1, '2027-03-01', 1, 'm1', 'squat', '', 120000, 5, 3, 2.5, 0, '', 0, 1803916800000),
    (1, '2027-03-01', 2, 'm1', 'bench', 'close-grip', 62500, 8, 1, NULL, 0, '', 0, 1803916800000);
INSERT INTO bodyweights VALUES (1, '2027-03-01', 62400, 1803916800000);
INSERT INTO plans VALUES (1, 1, 1, 'agreed', 1798963200000, 1798963200000, 1798963200000, '{}');
INSERT INTO plan_blocks VALUES (1, 0, 'peaking', '2027-05-17', '2027-06-11', 4, '2027-06-04', 'The single.', NULL);
INSERT INTO plan_meets VALUES (1, 0, 1, 'River Open', '2027-06-12', 'main');
INSERT INTO facts VALUES ('ana/meet/1/2027-06-12/-56d', 1, 'meet', 1808035200000, 'skipped', 'was down', NULL, 1808035200000);
INSERT INTO home VALUES (1, '100');
INSERT INTO away VALUES (1, 1, '2027-02-01', '2027-02-14', 1, 1803916800000), (2, 1, '2027-04-01', NULL, NULL, 1803916800000);
INSERT INTO lifts_off VALUES (1, 'squat', '2027-03-01', '2027-03-15', 1, 1803916800000);
INSERT INTO pins VALUES (1, 1, 2, 'peaking', '2027-05-17', 4, '2027-06-11', 1, 1803916800000);
INSERT INTO bounds VALUES (1, 1, 'hypertrophy', 6, 1, 1803916800000), (2, NULL, 'peaking', 5, NULL, 1803916800000);
INSERT INTO deciders VALUES ('', 'lifter'), ('monday', 'both');
INSERT INTO approvals VALUES (1, 1, 'coach', 'approved', '', 1, 1798963200000, 1798963200000);
INSERT INTO notes VALUES (1, 1, 1, 'A meet was added.', '', 'null', 1798963200000, NULL);
INSERT INTO lifter_days VALUES (1, 'quiet', '2027-03-28');
INSERT INTO imports VALUES (1, 1, 'done', NULL, 1798963200000, 1799049600000), (2, 1, 'waiting', x'1f8b', 1798963200000, 1799049600000);
INSERT INTO imported_sets VALUES (1, -77, 1);
INSERT INTO watch VALUES (1, 0, 0);
INSERT INTO training VALUES (1, 'bot', 42, 0, 0);
INSERT INTO gym VALUES (1, 'kg', 20000, 5000, '[25000,1250]', 'null');
INSERT INTO club_weeks VALUES ('strength', 'block strength
weeks 1 on
day 1
squat: 3 x 5 at 75 %
', 1803916800000);
INSERT INTO week_changes VALUES (1, 1, 1, '{"Of":{"Lift":"bench","Variant":"close grip"},"Load":-5}', 1803916800000);
INSERT INTO training_weeks VALUES (1, '2027-03-01', 'b', '{}', '[]', 1803916800000);
INSERT INTO prescribed VALUES (1, '2027-03-01', '{"Date":"2027-03-01","Work":[]}', 1803916800000);
INSERT INTO unread VALUES (1, 'bench');
INSERT INTO readings VALUES (1, 'squat', '2027-03-01', 138.5, 9, 'holding', 'Less has come than the plan expects.', '2027-01-20', '2027-02-20');
INSERT INTO class_table VALUES (1, 'the federation of the valley', '2026-01-01');
INSERT INTO class_limits VALUES ('women', 63000, 0), ('women', 84000, 1);
INSERT INTO leavers VALUES (1, 'direct', 1, 1, 1803916800000);
INSERT INTO placeholders VALUES (1, NULL, 1803916800000);
INSERT INTO licences VALUES (1, '2027-12-31', 'PL 4711');
INSERT INTO meet_roster VALUES (1, '2', 'A', 'by train');
INSERT INTO meet_reviews VALUES (1, 1, 0, 1, 1813363200000, 1, 142500, 82500, 170000, 380000, 400000, 'openers', 'wait for the command');
INSERT INTO takeovers VALUES (1, 1, '{}', 1803916800000);

CREATE TRIGGER watch_new_lifter AFTER INSERT ON lifters BEGIN
    INSERT INTO watch (lifter_id, next_ms, seen_ms) VALUES (NEW.id, 0, 0);
END;

CREATE TRIGGER watch_lifter AFTER UPDATE ON lifters BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.id AND next_ms <> 0;
END;

CREATE TRIGGER watch_meet_new AFTER INSERT ON meets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_meet AFTER UPDATE ON meets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_plan AFTER UPDATE ON plans BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_block AFTER UPDATE ON plan_blocks BEGIN
    UPDATE watch SET next_ms = 0
    WHERE lifter_id = (SELECT p.lifter_id FROM plans p WHERE p.id = NEW.plan_id) AND next_ms <> 0;
END;

CREATE TRIGGER watch_sets_new AFTER INSERT ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_sets AFTER UPDATE ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_sets_gone AFTER DELETE ON sets BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_fact AFTER UPDATE OF state ON facts WHEN NEW.lifter_id IS NOT NULL BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_fact_gone AFTER DELETE ON facts WHEN OLD.lifter_id IS NOT NULL BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_off AFTER INSERT ON nudges_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_on AFTER DELETE ON nudges_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_snooze_new AFTER INSERT ON snoozes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_snooze AFTER UPDATE ON snoozes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_press AFTER INSERT ON button_uses BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_kept AFTER INSERT ON nudges_kept BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_club_new AFTER INSERT ON club BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;

CREATE TRIGGER watch_club AFTER UPDATE ON club BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;

CREATE TRIGGER watch_away_new AFTER INSERT ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_away AFTER UPDATE ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_away_gone AFTER DELETE ON away BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_lift_off_new AFTER INSERT ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_lift_off AFTER UPDATE ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_lift_off_gone AFTER DELETE ON lifts_off BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_day_new AFTER INSERT ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_day AFTER UPDATE ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_day_gone AFTER DELETE ON lifter_days BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_kept_again AFTER UPDATE ON nudges_kept BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_note_new AFTER INSERT ON notes BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_approval_new AFTER INSERT ON approvals BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND lifter_id IN
        (SELECT c.id FROM lifters c WHERE c.captain = 1 UNION SELECT l.coach_id FROM lifters l WHERE l.id = NEW.lifter_id);
END;

CREATE TRIGGER watch_approval AFTER UPDATE ON approvals BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND lifter_id IN
        (SELECT c.id FROM lifters c WHERE c.captain = 1 UNION SELECT l.coach_id FROM lifters l WHERE l.id = NEW.lifter_id);
END;

CREATE TRIGGER watch_times_new AFTER INSERT ON nudge_times BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_times AFTER UPDATE ON nudge_times BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_checkin_new AFTER INSERT ON checkins BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_checkin AFTER UPDATE ON checkins BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_training_new AFTER INSERT ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_training AFTER UPDATE ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_training_gone AFTER DELETE ON training BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_club_week_new AFTER INSERT ON club_weeks BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;

CREATE TRIGGER watch_club_week_gone AFTER DELETE ON club_weeks BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0;
END;

CREATE TRIGGER unread_new AFTER INSERT ON sets WHEN NEW.lift IN ('squat', 'bench', 'deadlift') BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) VALUES (NEW.lifter_id, NEW.lift);
END;

CREATE TRIGGER unread_changed AFTER UPDATE ON sets BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT OLD.lifter_id, OLD.lift WHERE OLD.lift IN ('squat', 'bench', 'deadlift');
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT NEW.lifter_id, NEW.lift WHERE NEW.lift IN ('squat', 'bench', 'deadlift');
END;

CREATE TRIGGER unread_gone AFTER DELETE ON sets WHEN OLD.lift IN ('squat', 'bench', 'deadlift') BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) VALUES (OLD.lifter_id, OLD.lift);
END;

CREATE TRIGGER watch_reading_new AFTER INSERT ON readings BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_reading AFTER UPDATE ON readings BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER unread_plan AFTER UPDATE OF state ON plans WHEN NEW.state = 'agreed' OR OLD.state = 'agreed' BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;

CREATE TRIGGER unread_away_new AFTER INSERT ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;

CREATE TRIGGER unread_away AFTER UPDATE ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.lifter_id;
END;

CREATE TRIGGER unread_away_gone AFTER DELETE ON away BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = OLD.lifter_id;
END;

CREATE TRIGGER unread_lifter AFTER UPDATE ON lifters
WHEN (NEW.level, NEW.squat_g, NEW.bench_g, NEW.deadlift_g, NEW.bench_style, NEW.deadlift_style)
    <> (OLD.level, OLD.squat_g, OLD.bench_g, OLD.deadlift_g, OLD.bench_style, OLD.deadlift_style) BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings WHERE lifter_id = NEW.id;
END;

CREATE TRIGGER unread_equation_new AFTER INSERT ON club BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings;
END;

CREATE TRIGGER unread_equation AFTER UPDATE ON club WHEN NEW.equation <> OLD.equation BEGIN
    INSERT OR IGNORE INTO unread (lifter_id, lift) SELECT lifter_id, lift FROM readings;
END;

CREATE TRIGGER watch_licence_new AFTER INSERT ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = NEW.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_licence AFTER UPDATE ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id IN (OLD.lifter_id, NEW.lifter_id) AND next_ms <> 0;
END;

CREATE TRIGGER watch_licence_gone AFTER DELETE ON licences BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = OLD.lifter_id AND next_ms <> 0;
END;

CREATE TRIGGER watch_review_new AFTER INSERT ON meet_reviews BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;

CREATE TRIGGER watch_roster_new AFTER INSERT ON meet_roster BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;

CREATE TRIGGER watch_roster AFTER UPDATE ON meet_roster BEGIN
    UPDATE watch SET next_ms = 0 WHERE lifter_id = (SELECT lifter_id FROM meets WHERE id = NEW.meet_id) AND next_ms <> 0;
END;

CREATE TRIGGER watch_placeholder_new AFTER INSERT ON placeholders BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND (lifter_id = NEW.lifter_id
        OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id));
END;

CREATE TRIGGER watch_placeholder_gone AFTER DELETE ON placeholders BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0 AND (lifter_id = OLD.lifter_id
        OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = OLD.lifter_id));
END;

CREATE TRIGGER watch_placeholder_coach AFTER UPDATE OF coach_id ON lifters WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND (lifter_id IN (OLD.coach_id, NEW.coach_id) OR lifter_id IN (SELECT id FROM lifters WHERE captain = 1));
END;

CREATE TRIGGER watch_placeholder_meet_new AFTER INSERT ON meets WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.lifter_id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id);
END;

CREATE TRIGGER watch_placeholder_meet AFTER UPDATE ON meets WHEN EXISTS (SELECT 1 FROM placeholders WHERE lifter_id = NEW.lifter_id) BEGIN
    UPDATE watch SET next_ms = 0 WHERE next_ms <> 0
        AND lifter_id IN (SELECT id FROM lifters WHERE captain = 1 UNION SELECT coach_id FROM lifters WHERE id = NEW.lifter_id);
END;
