package storage

import "database/sql"

// applicationID marks a project file in SQLite's own header: "Wake" in ASCII.
const applicationID = 0x57616b65

// migrations take a file from schema version i to i+1. They are only ever
// appended to; user_version counts those that a file has had.
var migrations = []string{schema1, schema2, schema3, schema4, schema5, schema6, schema7, schema8, schema9}

// schema1 is the first schema. Frames, units and points are whole numbers.
// Active frames and windows stand in the trade's writing, as in move tables:
// "2(5)1", "1-8 strike throw; 12-14".
const schema1 = `
CREATE TABLE ruleset (
	id INTEGER PRIMARY KEY CHECK (id = 1),
	rate_frames INTEGER NOT NULL CHECK (rate_frames BETWEEN 1 AND 1000000),
	rate_seconds INTEGER NOT NULL CHECK (rate_seconds BETWEEN 1 AND 1000000),
	startup_counts_first_active INTEGER NOT NULL CHECK (startup_counts_first_active IN (0, 1)),
	throw_grace_rise INTEGER NOT NULL CHECK (throw_grace_rise BETWEEN 0 AND 512),
	throw_grace_landing INTEGER NOT NULL CHECK (throw_grace_landing BETWEEN 0 AND 512),
	prejump_throw_proof INTEGER NOT NULL CHECK (prejump_throw_proof IN (0, 1)),
	buffer INTEGER NOT NULL CHECK (buffer BETWEEN 0 AND 512),
	trades INTEGER NOT NULL CHECK (trades IN (0, 1)),
	health INTEGER NOT NULL CHECK (health BETWEEN 1 AND 1000000000),
	gauge INTEGER NOT NULL CHECK (gauge BETWEEN 0 AND 1000000000)
) STRICT;

CREATE TABLE fighter (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	place INTEGER NOT NULL,
	name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
	body INTEGER CHECK (body BETWEEN 0 AND 1000000)
) STRICT;

CREATE TABLE move (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL CHECK (trim(name) <> ''),
	kind TEXT NOT NULL CHECK (kind IN ('strike', 'throw', 'catch', 'evade', 'dash')),
	air INTEGER NOT NULL CHECK (air IN (0, 1)),
	level TEXT CHECK (level IN ('mid', 'low', 'overhead', 'throw', 'air throw')),
	startup INTEGER CHECK (startup BETWEEN 1 AND 512),
	active TEXT NOT NULL,
	recovery INTEGER NOT NULL CHECK (recovery BETWEEN 0 AND 512),
	total INTEGER CHECK (total BETWEEN 1 AND 512),
	on_hit INTEGER CHECK (on_hit BETWEEN -512 AND 512),
	on_guard INTEGER CHECK (on_guard BETWEEN -512 AND 512),
	hitstun INTEGER CHECK (hitstun BETWEEN 0 AND 512),
	guardstun INTEGER CHECK (guardstun BETWEEN 0 AND 512),
	airborne_from INTEGER CHECK (airborne_from >= 1),
	misses_air INTEGER NOT NULL CHECK (misses_air IN (0, 1)),
	deep INTEGER CHECK (deep BETWEEN 0 AND 512),
	drop_units INTEGER CHECK (drop_units BETWEEN -1000000 AND 1000000),
	top_units INTEGER CHECK (top_units BETWEEN 0 AND 1000000),
	reach_near INTEGER CHECK (reach_near BETWEEN -1000000 AND 1000000),
	reach_far INTEGER CHECK (reach_far BETWEEN reach_near AND 1000000),
	landing_recovery INTEGER CHECK (landing_recovery BETWEEN 0 AND 512),
	landing_guard_after INTEGER CHECK (landing_guard_after BETWEEN 0 AND landing_recovery),
	immune TEXT NOT NULL,
	armour TEXT NOT NULL,
	catch TEXT NOT NULL,
	damage INTEGER NOT NULL CHECK (damage BETWEEN 0 AND 1000000000),
	gauge_cost INTEGER NOT NULL CHECK (gauge_cost BETWEEN 0 AND 1000000000),
	gauge_gain INTEGER NOT NULL CHECK (gauge_gain BETWEEN 0 AND 1000000000),
	travel INTEGER NOT NULL CHECK (travel BETWEEN -1000000 AND 1000000),
	knockdown_midscreen INTEGER CHECK (knockdown_midscreen BETWEEN 0 AND 511),
	knockdown_wall INTEGER CHECK (knockdown_wall BETWEEN 0 AND 511),
	distance_midscreen INTEGER CHECK (distance_midscreen BETWEEN -1000000 AND 1000000),
	distance_wall INTEGER CHECK (distance_wall BETWEEN -1000000 AND 1000000),
	UNIQUE (fighter, name)
) STRICT;

CREATE TABLE jump (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL CHECK (trim(name) <> ''),
	prejump INTEGER NOT NULL CHECK (prejump BETWEEN 0 AND 512),
	airborne INTEGER NOT NULL CHECK (airborne BETWEEN 1 AND 512),
	landing INTEGER NOT NULL CHECK (landing BETWEEN 0 AND 512),
	guard_after INTEGER NOT NULL CHECK (guard_after BETWEEN 0 AND landing),
	travel INTEGER NOT NULL CHECK (travel BETWEEN -1000000 AND 1000000),
	apex INTEGER CHECK (apex BETWEEN 0 AND 1000000),
	UNIQUE (fighter, name)
) STRICT;

CREATE TABLE rise (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL CHECK (trim(name) <> ''),
	extra INTEGER NOT NULL CHECK (extra BETWEEN 0 AND 512),
	shift INTEGER NOT NULL CHECK (shift BETWEEN -1000000 AND 1000000),
	UNIQUE (fighter, name)
) STRICT;

CREATE TABLE setup (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	place INTEGER NOT NULL,
	name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
	attacker INTEGER NOT NULL REFERENCES fighter (id),
	rival INTEGER NOT NULL REFERENCES fighter (id),
	ender INTEGER REFERENCES move (id),
	position TEXT NOT NULL CHECK (position IN ('midscreen', 'wall')),
	advantage INTEGER CHECK (advantage BETWEEN 0 AND 511),
	delay INTEGER NOT NULL CHECK (delay BETWEEN 0 AND 512),
	jump INTEGER REFERENCES jump (id),
	attack INTEGER REFERENCES move (id),
	press INTEGER CHECK (press BETWEEN 0 AND 512),
	landing TEXT NOT NULL CHECK (landing IN ('guard', 'catch', 'move')),
	landing_move INTEGER REFERENCES move (id),
	note TEXT NOT NULL,
	CHECK (ender IS NOT NULL OR advantage IS NOT NULL),
	CHECK (attack IS NULL OR jump IS NOT NULL),
	CHECK ((landing = 'move') = (landing_move IS NOT NULL))
) STRICT;

CREATE INDEX setup_place ON setup (place, id);

CREATE TABLE filler (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	move INTEGER REFERENCES move (id),
	jump INTEGER REFERENCES jump (id),
	PRIMARY KEY (setup, place),
	CHECK ((move IS NULL) <> (jump IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE claimed_rise (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	rise INTEGER NOT NULL REFERENCES rise (id),
	PRIMARY KEY (setup, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE reply (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	move INTEGER REFERENCES move (id),
	jump INTEGER REFERENCES jump (id),
	demand TEXT NOT NULL CHECK (demand IN ('survive', 'beat', 'none')),
	late INTEGER NOT NULL CHECK (late BETWEEN 0 AND 512),
	PRIMARY KEY (setup, place),
	CHECK ((move IS NULL) <> (jump IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE tag (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL,
	PRIMARY KEY (setup, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX tag_name ON tag (name);

CREATE TABLE revision (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
	date TEXT NOT NULL,
	note TEXT NOT NULL,
	data TEXT -- the move data as a project text, once a later revision began; the latest revision is the tables themselves
) STRICT;

CREATE TABLE proof (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	setup INTEGER NOT NULL REFERENCES setup (id),
	revision INTEGER NOT NULL REFERENCES revision (id),
	date TEXT NOT NULL,
	result TEXT NOT NULL CHECK (result IN ('worked', 'failed', 'unclear')),
	note TEXT NOT NULL
) STRICT;
CREATE INDEX proof_setup ON proof (setup);

CREATE TABLE edit (
	id INTEGER PRIMARY KEY,
	date TEXT NOT NULL,
	what TEXT NOT NULL,
	undone INTEGER NOT NULL CHECK (undone IN (0, 1))
) STRICT;
CREATE INDEX edit_undone ON edit (undone);

CREATE TABLE edit_row (
	edit INTEGER NOT NULL REFERENCES edit (id) ON DELETE CASCADE,
	place INTEGER NOT NULL,
	in_table TEXT NOT NULL,
	in_row INTEGER NOT NULL,
	before TEXT, -- the row as JSON, with the rows that hang on it; NULL: there was none
	after TEXT,
	PRIMARY KEY (edit, place)
) STRICT, WITHOUT ROWID;
`

// schema2 adds the record of drills, a row a press. It names the setup as it
// was called then: a press tells of a hand, and stays when the setup goes.
const schema2 = `
CREATE TABLE press (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	date TEXT NOT NULL, -- when the drill began
	setup TEXT NOT NULL,
	what TEXT NOT NULL CHECK (what IN ('jump', 'attack')),
	late INTEGER NOT NULL CHECK (late BETWEEN -60000000 AND 60000000), -- microseconds after the moment aimed at
	frames INTEGER NOT NULL CHECK (frames BETWEEN -512 AND 512), -- late against the window
	picture INTEGER NOT NULL CHECK (picture BETWEEN 0 AND 60000000) -- microseconds from one picture on the screen to the next, 0: not known
) STRICT;
`

// schema3 gives the parry its name: the kind of a move, its windows and the
// landing action were "catch" before. A CHECK can't be changed, so two tables
// are laid anew (sqlite.org/lang_altertable.html, 7); the history is brought
// along. A move or jump of the user's own that has the name, which is the landing
// action's now, gets a number.
const schema3 = `
UPDATE move SET name = 'parry ' || (
	WITH RECURSIVE number (n) AS (SELECT 2 UNION ALL SELECT n + 1 FROM number)
	SELECT n FROM number
	WHERE NOT EXISTS (SELECT 1 FROM move other WHERE other.fighter = move.fighter AND other.name = 'parry ' || n)
		AND NOT EXISTS (SELECT 1 FROM jump other WHERE other.fighter = move.fighter AND other.name = 'parry ' || n)
	LIMIT 1)
WHERE name = 'parry';
UPDATE jump SET name = 'parry ' || (
	WITH RECURSIVE number (n) AS (SELECT 2 UNION ALL SELECT n + 1 FROM number)
	SELECT n FROM number
	WHERE NOT EXISTS (SELECT 1 FROM move other WHERE other.fighter = jump.fighter AND other.name = 'parry ' || n)
		AND NOT EXISTS (SELECT 1 FROM jump other WHERE other.fighter = jump.fighter AND other.name = 'parry ' || n)
	LIMIT 1)
WHERE name = 'parry';
UPDATE edit_row SET before = json_set(before, '$.row.name', coalesce(
	(SELECT name FROM move WHERE id = in_row AND name LIKE 'parry _%'), 'parry 2'))
WHERE in_table = 'move' AND before ->> '$.row.name' = 'parry';
UPDATE edit_row SET after = json_set(after, '$.row.name', coalesce(
	(SELECT name FROM move WHERE id = in_row AND name LIKE 'parry _%'), 'parry 2'))
WHERE in_table = 'move' AND after ->> '$.row.name' = 'parry';
UPDATE edit_row SET before = json_set(before, '$.row.name', coalesce(
	(SELECT name FROM jump WHERE id = in_row AND name LIKE 'parry _%'), 'parry 2'))
WHERE in_table = 'jump' AND before ->> '$.row.name' = 'parry';
UPDATE edit_row SET after = json_set(after, '$.row.name', coalesce(
	(SELECT name FROM jump WHERE id = in_row AND name LIKE 'parry _%'), 'parry 2'))
WHERE in_table = 'jump' AND after ->> '$.row.name' = 'parry';

CREATE TABLE new_move (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL CHECK (trim(name) <> ''),
	kind TEXT NOT NULL CHECK (kind IN ('strike', 'throw', 'parry', 'evade', 'dash')),
	air INTEGER NOT NULL CHECK (air IN (0, 1)),
	level TEXT CHECK (level IN ('mid', 'low', 'overhead', 'throw', 'air throw')),
	startup INTEGER CHECK (startup BETWEEN 1 AND 512),
	active TEXT NOT NULL,
	recovery INTEGER NOT NULL CHECK (recovery BETWEEN 0 AND 512),
	total INTEGER CHECK (total BETWEEN 1 AND 512),
	on_hit INTEGER CHECK (on_hit BETWEEN -512 AND 512),
	on_guard INTEGER CHECK (on_guard BETWEEN -512 AND 512),
	hitstun INTEGER CHECK (hitstun BETWEEN 0 AND 512),
	guardstun INTEGER CHECK (guardstun BETWEEN 0 AND 512),
	airborne_from INTEGER CHECK (airborne_from >= 1),
	misses_air INTEGER NOT NULL CHECK (misses_air IN (0, 1)),
	deep INTEGER CHECK (deep BETWEEN 0 AND 512),
	drop_units INTEGER CHECK (drop_units BETWEEN -1000000 AND 1000000),
	top_units INTEGER CHECK (top_units BETWEEN 0 AND 1000000),
	reach_near INTEGER CHECK (reach_near BETWEEN -1000000 AND 1000000),
	reach_far INTEGER CHECK (reach_far BETWEEN reach_near AND 1000000),
	landing_recovery INTEGER CHECK (landing_recovery BETWEEN 0 AND 512),
	landing_guard_after INTEGER CHECK (landing_guard_after BETWEEN 0 AND landing_recovery),
	immune TEXT NOT NULL,
	armour TEXT NOT NULL,
	parry TEXT NOT NULL,
	damage INTEGER NOT NULL CHECK (damage BETWEEN 0 AND 1000000000),
	gauge_cost INTEGER NOT NULL CHECK (gauge_cost BETWEEN 0 AND 1000000000),
	gauge_gain INTEGER NOT NULL CHECK (gauge_gain BETWEEN 0 AND 1000000000),
	travel INTEGER NOT NULL CHECK (travel BETWEEN -1000000 AND 1000000),
	knockdown_midscreen INTEGER CHECK (knockdown_midscreen BETWEEN 0 AND 511),
	knockdown_wall INTEGER CHECK (knockdown_wall BETWEEN 0 AND 511),
	distance_midscreen INTEGER CHECK (distance_midscreen BETWEEN -1000000 AND 1000000),
	distance_wall INTEGER CHECK (distance_wall BETWEEN -1000000 AND 1000000),
	UNIQUE (fighter, name)
) STRICT;

INSERT INTO new_move (id, uid, fighter, place, name, kind, air, level, startup, active, recovery, total, on_hit, on_guard,
	hitstun, guardstun, airborne_from, misses_air, deep, drop_units, top_units, reach_near, reach_far,
	landing_recovery, landing_guard_after, immune, armour, parry, damage, gauge_cost, gauge_gain, travel,
	knockdown_midscreen, knockdown_wall, distance_midscreen, distance_wall)
SELECT id, uid, fighter, place, name, replace(kind, 'catch', 'parry'), air, level, startup, active, recovery,
	total, on_hit, on_guard, hitstun, guardstun, airborne_from, misses_air, deep, drop_units, top_units,
	reach_near, reach_far, landing_recovery, landing_guard_after, immune, armour, catch, damage, gauge_cost,
	gauge_gain, travel, knockdown_midscreen, knockdown_wall, distance_midscreen, distance_wall FROM move;
DROP TABLE move;
ALTER TABLE new_move RENAME TO move;

CREATE TABLE new_setup (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	place INTEGER NOT NULL,
	name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
	attacker INTEGER NOT NULL REFERENCES fighter (id),
	rival INTEGER NOT NULL REFERENCES fighter (id),
	ender INTEGER REFERENCES move (id),
	position TEXT NOT NULL CHECK (position IN ('midscreen', 'wall')),
	advantage INTEGER CHECK (advantage BETWEEN 0 AND 511),
	delay INTEGER NOT NULL CHECK (delay BETWEEN 0 AND 512),
	jump INTEGER REFERENCES jump (id),
	attack INTEGER REFERENCES move (id),
	press INTEGER CHECK (press BETWEEN 0 AND 512),
	landing TEXT NOT NULL CHECK (landing IN ('guard', 'parry', 'move')),
	landing_move INTEGER REFERENCES move (id),
	note TEXT NOT NULL,
	CHECK (ender IS NOT NULL OR advantage IS NOT NULL),
	CHECK (attack IS NULL OR jump IS NOT NULL),
	CHECK ((landing = 'move') = (landing_move IS NOT NULL))
) STRICT;

INSERT INTO new_setup (id, uid, place, name, attacker, rival, ender, position, advantage, delay, jump, attack, press, landing,
	landing_move, note)
SELECT id, uid, place, name, attacker, rival, ender, position, advantage, delay, jump, attack, press,
	replace(landing, 'catch', 'parry'), landing_move, note FROM setup;
DROP TABLE setup;
ALTER TABLE new_setup RENAME TO setup;
CREATE INDEX setup_place ON setup (place, id);

UPDATE edit_row SET
	before = json_remove(json_set(before, '$.row.parry', before ->> '$.row.catch',
		'$.row.kind', replace(before ->> '$.row.kind', 'catch', 'parry')), '$.row.catch')
WHERE in_table = 'move' AND before IS NOT NULL;
UPDATE edit_row SET
	after = json_remove(json_set(after, '$.row.parry', after ->> '$.row.catch',
		'$.row.kind', replace(after ->> '$.row.kind', 'catch', 'parry')), '$.row.catch')
WHERE in_table = 'move' AND after IS NOT NULL;
UPDATE edit_row SET before = json_set(before, '$.row.landing', 'parry')
WHERE in_table = 'setup' AND before ->> '$.row.landing' = 'catch';
UPDATE edit_row SET after = json_set(after, '$.row.landing', 'parry')
WHERE in_table = 'setup' AND after ->> '$.row.landing' = 'catch';
`

// schema4 says of each press whose hand it was. Those of before have no name.
const schema4 = `
ALTER TABLE press ADD COLUMN hand TEXT NOT NULL DEFAULT '' CHECK (length(hand) <= 200);
`

// schema5 gives a fighter a width, and a setup its distance and the room
// behind the rival. Rows of the history have none of them.
const schema5 = `
ALTER TABLE fighter ADD COLUMN width INTEGER CHECK (width BETWEEN 0 AND 1000000);
ALTER TABLE setup ADD COLUMN distance INTEGER CHECK (distance BETWEEN -1000000 AND 1000000);
ALTER TABLE setup ADD COLUMN room INTEGER CHECK (room BETWEEN 0 AND 1000000);
UPDATE edit_row SET before = json_set(before, '$.row.width', NULL) WHERE in_table = 'fighter' AND before IS NOT NULL;
UPDATE edit_row SET after = json_set(after, '$.row.width', NULL) WHERE in_table = 'fighter' AND after IS NOT NULL;
UPDATE edit_row SET before = json_set(before, '$.row.distance', NULL, '$.row.room', NULL) WHERE in_table = 'setup' AND before IS NOT NULL;
UPDATE edit_row SET after = json_set(after, '$.row.distance', NULL, '$.row.room', NULL) WHERE in_table = 'setup' AND after IS NOT NULL;
`

// schema6 changes no table: cleanOldNames cleans the names that were given before
// there was a rule of names.
const schema6 = ""

// schema7 adds what an exchange is worth: numbers of the ruleset, routes, the
// replies that every setup against a fighter is asked, and what follows a
// setup's meeting. A setup without replies asks those of its rival, of whom
// there are none yet.
const schema7 = `
ALTER TABLE ruleset ADD COLUMN scaling TEXT NOT NULL DEFAULT '100';
ALTER TABLE ruleset ADD COLUMN counter_damage INTEGER NOT NULL DEFAULT 100 CHECK (counter_damage BETWEEN 0 AND 1000);
ALTER TABLE ruleset ADD COLUMN gauge_worth INTEGER NOT NULL DEFAULT 0 CHECK (gauge_worth BETWEEN 0 AND 1000000000);
ALTER TABLE ruleset ADD COLUMN parry_advantage INTEGER CHECK (parry_advantage BETWEEN -512 AND 512);
ALTER TABLE ruleset ADD COLUMN reaction INTEGER NOT NULL DEFAULT 15 CHECK (reaction BETWEEN 0 AND 512);
ALTER TABLE ruleset ADD COLUMN carry TEXT NOT NULL DEFAULT '0' CHECK (trim(carry) <> '');

CREATE TABLE route (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	name TEXT NOT NULL CHECK (trim(name) <> ''),
	damage INTEGER CHECK (damage BETWEEN 0 AND 1000000000),
	gauge_cost INTEGER CHECK (gauge_cost BETWEEN 0 AND 1000000000),
	gauge_gain INTEGER CHECK (gauge_gain BETWEEN 0 AND 1000000000),
	confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
	UNIQUE (fighter, name)
) STRICT;

CREATE TABLE route_step (
	route INTEGER NOT NULL REFERENCES route (id),
	place INTEGER NOT NULL,
	move INTEGER NOT NULL REFERENCES move (id),
	how TEXT NOT NULL CHECK (how IN ('link', 'cancel')),
	PRIMARY KEY (route, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE standing_reply ( -- asked of every setup against that fighter
	fighter INTEGER NOT NULL REFERENCES fighter (id),
	place INTEGER NOT NULL,
	move INTEGER REFERENCES move (id),
	jump INTEGER REFERENCES jump (id),
	demand TEXT NOT NULL CHECK (demand IN ('survive', 'beat', 'none')),
	late INTEGER NOT NULL CHECK (late BETWEEN 0 AND 512),
	costs INTEGER CHECK (costs BETWEEN 0 AND 1000000000),
	PRIMARY KEY (fighter, place),
	CHECK ((move IS NULL) <> (jump IS NULL))
) STRICT, WITHOUT ROWID;

ALTER TABLE reply ADD COLUMN costs INTEGER CHECK (costs BETWEEN 0 AND 1000000000);
ALTER TABLE setup ADD COLUMN own_replies INTEGER NOT NULL DEFAULT 0 CHECK (own_replies IN (0, 1)); -- 0: those of the rival
ALTER TABLE setup ADD COLUMN on_hit INTEGER REFERENCES route (id);
ALTER TABLE setup ADD COLUMN pressure INTEGER NOT NULL DEFAULT 0 CHECK (pressure BETWEEN -1000000000 AND 1000000000);
UPDATE setup SET own_replies = EXISTS (SELECT 1 FROM reply WHERE setup = setup.id);

CREATE TABLE punish (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	route INTEGER NOT NULL REFERENCES route (id),
	PRIMARY KEY (setup, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE follow (
	setup INTEGER NOT NULL REFERENCES setup (id),
	place INTEGER NOT NULL,
	move INTEGER NOT NULL REFERENCES move (id),
	wait INTEGER NOT NULL CHECK (wait BETWEEN 0 AND 512),
	how TEXT NOT NULL CHECK (how IN ('link', 'cancel')),
	PRIMARY KEY (setup, place)
) STRICT, WITHOUT ROWID;

UPDATE edit_row SET before = json_set(before, '$.row.scaling', '100', '$.row.counter_damage', 100, '$.row.gauge_worth', 0,
	'$.row.parry_advantage', NULL, '$.row.reaction', 15, '$.row.carry', '0') WHERE in_table = 'ruleset' AND before IS NOT NULL;
UPDATE edit_row SET after = json_set(after, '$.row.scaling', '100', '$.row.counter_damage', 100, '$.row.gauge_worth', 0,
	'$.row.parry_advantage', NULL, '$.row.reaction', 15, '$.row.carry', '0') WHERE in_table = 'ruleset' AND after IS NOT NULL;
UPDATE edit_row SET before = json_set(before, '$.row.own_replies', json_type(before, '$.kids.reply') IS NOT NULL, '$.row.on_hit', NULL, '$.row.pressure', 0)
WHERE in_table = 'setup' AND before IS NOT NULL;
UPDATE edit_row SET after = json_set(after, '$.row.own_replies', json_type(after, '$.kids.reply') IS NOT NULL, '$.row.on_hit', NULL, '$.row.pressure', 0)
WHERE in_table = 'setup' AND after IS NOT NULL;
UPDATE edit_row SET before = json_set(before, '$.kids.reply',
	json((SELECT json_group_array(json_set(value, '$.costs', NULL)) FROM json_each(before, '$.kids.reply'))))
WHERE in_table = 'setup' AND json_type(before, '$.kids.reply') = 'array';
UPDATE edit_row SET after = json_set(after, '$.kids.reply',
	json((SELECT json_group_array(json_set(value, '$.costs', NULL)) FROM json_each(after, '$.kids.reply'))))
WHERE in_table = 'setup' AND json_type(after, '$.kids.reply') = 'array';
`

// schema8 adds the saved lists: searches of setups under a name.
const schema8 = `
CREATE TABLE list (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	place INTEGER NOT NULL,
	name TEXT NOT NULL UNIQUE CHECK (trim(name) <> ''),
	search TEXT NOT NULL -- as it is typed over the list of setups
) STRICT;
`

// schema9 adds the record of exercises, a row a question. It names the setup as it
// was called then: an answer tells of a student, and stays when the setup goes.
const schema9 = `
CREATE TABLE answer (
	id INTEGER PRIMARY KEY,
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 36),
	date TEXT NOT NULL, -- when it was answered
	student TEXT NOT NULL, -- empty: without a name
	setup TEXT NOT NULL,
	kind TEXT NOT NULL, -- what was asked for
	was_right INTEGER NOT NULL CHECK (was_right IN (0, 1)),
	tries INTEGER NOT NULL CHECK (tries BETWEEN 0 AND 1000),
	hints INTEGER NOT NULL CHECK (hints BETWEEN 0 AND 1000),
	points INTEGER NOT NULL CHECK (points BETWEEN 0 AND 1000)
) STRICT;
`

// migrationWork is what a migration to a version does beside its SQL.
var migrationWork = map[int]func(tx *sql.Tx) error{6: cleanOldNames}
