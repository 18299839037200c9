-- A Parewell workbook. One row is one entity. "body" is the entity as JSON and
-- the only thing written; every other column is worked out from it by SQLite
-- itself, so that a column and the body can never disagree.
-- Links are checked when a transaction ends, because one edit may touch both ends.

CREATE TABLE meta (
  one        INTEGER PRIMARY KEY CHECK (one = 1),
  uuid       TEXT    NOT NULL, -- new in every copy
  format     INTEGER NOT NULL, -- what wrote this file
  min_reader INTEGER NOT NULL, -- the oldest format that may read it
  revision   INTEGER NOT NULL, -- counts commits: a program that holds an older one reads again
  made       TEXT    NOT NULL
) STRICT;

CREATE TABLE setting (
  name  TEXT PRIMARY KEY NOT NULL,
  body  TEXT NOT NULL CHECK (json_valid(body) AND name = body ->> '$.name'),
  value TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.value') STORED
) STRICT;

CREATE TABLE food (
  ref     TEXT PRIMARY KEY NOT NULL, -- source/release/code
  body    TEXT NOT NULL CHECK (json_valid(body) AND
    ref = (body ->> '$.source') || '/' || coalesce(body ->> '$.release', '') || '/' || (body ->> '$.code')),
  name    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.name') STORED,
  source  TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.source') STORED,
  release TEXT GENERATED ALWAYS AS (body ->> '$.release') STORED,
  code    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.code') STORED
) STRICT;

CREATE TABLE choice (
  name TEXT PRIMARY KEY NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body) AND name = body ->> '$.name')
) STRICT;

CREATE TABLE panelist (
  id   TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  code TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.code') STORED
) STRICT;

CREATE TABLE recipe (
  id       TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body     TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  title    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.title') STORED CHECK (trim(title) <> ''),
  servings REAL NOT NULL GENERATED ALWAYS AS (body ->> '$.servings') STORED CHECK (servings > 0),
  edition  INTEGER NOT NULL GENERATED ALWAYS AS (body ->> '$.edition') STORED
) STRICT;

CREATE TABLE swap (
  id     TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body   TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  recipe TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.recipe') STORED
    REFERENCES recipe (id) DEFERRABLE INITIALLY DEFERRED,
  name   TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.name') STORED
) STRICT;
CREATE INDEX swap_recipe ON swap (recipe);

CREATE TABLE version (
  id       TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body     TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  recipe   TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.recipe') STORED
    REFERENCES recipe (id) DEFERRABLE INITIALLY DEFERRED,
  letter   TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.letter') STORED,
  name     TEXT GENERATED ALWAYS AS (body ->> '$.name') STORED,
  servings REAL GENERATED ALWAYS AS (body ->> '$.servings') STORED CHECK (servings >= 0) -- none: the recipe's
) STRICT;
CREATE INDEX version_recipe ON version (recipe);

CREATE TABLE version_swap ( -- which swaps a version has on; kept by the triggers below
  version TEXT NOT NULL REFERENCES version (id) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  swap    TEXT NOT NULL REFERENCES swap (id) DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (version, swap)
) STRICT, WITHOUT ROWID;
CREATE INDEX version_swap_swap ON version_swap (swap);
CREATE TRIGGER version_added AFTER INSERT ON version BEGIN
  INSERT INTO version_swap SELECT new.id, value FROM json_each(new.body, '$.swaps') WHERE value IS NOT NULL;
END;
CREATE TRIGGER version_changed AFTER UPDATE OF body ON version BEGIN
  DELETE FROM version_swap WHERE version = old.id;
  INSERT INTO version_swap SELECT new.id, value FROM json_each(new.body, '$.swaps') WHERE value IS NOT NULL;
END;

CREATE TABLE batch (
  id      TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body    TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  recipe  TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.recipe') STORED
    REFERENCES recipe (id) DEFERRABLE INITIALLY DEFERRED,
  version TEXT GENERATED ALWAYS AS (body ->> '$.version') STORED -- none: the original
    REFERENCES version (id) DEFERRABLE INITIALLY DEFERRED,
  number  INTEGER NOT NULL GENERATED ALWAYS AS (body ->> '$.number') STORED,
  date    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.date') STORED
) STRICT;
CREATE INDEX batch_recipe ON batch (recipe);
CREATE INDEX batch_version ON batch (version);

CREATE TABLE tasting (
  id      TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body    TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  recipe  TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.recipe') STORED
    REFERENCES recipe (id) DEFERRABLE INITIALLY DEFERRED,
  edition INTEGER NOT NULL GENERATED ALWAYS AS (body ->> '$.edition') STORED,
  name    TEXT GENERATED ALWAYS AS (body ->> '$.name') STORED,
  date    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.date') STORED,
  test    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.test') STORED,
  state   TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.state') STORED
    CHECK (state IN ('planned', 'serving', 'closed'))
) STRICT;
CREATE INDEX tasting_recipe ON tasting (recipe);

CREATE TABLE sample (
  id      TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body    TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  tasting TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.tasting') STORED
    REFERENCES tasting (id) DEFERRABLE INITIALLY DEFERRED,
  batch   TEXT GENERATED ALWAYS AS (body ->> '$.batch') STORED
    REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED,
  version TEXT GENERATED ALWAYS AS (body ->> '$.version') STORED
    REFERENCES version (id) DEFERRABLE INITIALLY DEFERRED,
  code    TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.code') STORED
) STRICT;
CREATE INDEX sample_tasting ON sample (tasting);
CREATE INDEX sample_batch ON sample (batch);
CREATE INDEX sample_version ON sample (version);

CREATE TABLE meal (
  id   TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  name TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.name') STORED
) STRICT;

CREATE TABLE block ( -- bytes by content: imported tables (compressed), photos
  hash  TEXT PRIMARY KEY NOT NULL, -- SHA-256 of bytes, hex
  kind  TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE TRIGGER block_is_immutable BEFORE UPDATE ON block BEGIN
  SELECT RAISE(ABORT, 'a block never changes');
END;

CREATE TABLE history ( -- the notebook, and what undo needs
  seq     INTEGER PRIMARY KEY AUTOINCREMENT,
  at      TEXT    NOT NULL, -- RFC 3339 with offset
  origin  TEXT    NOT NULL,
  state   TEXT    NOT NULL CHECK (state IN ('done', 'undone', 'kept')),
  final   INTEGER NOT NULL CHECK (final IN (0, 1)), -- never undone, never crossed
  recipe  TEXT, -- whose notebook; no link, because the notebook outlives the recipe
  label   TEXT    NOT NULL CHECK (json_valid(label)),
  touches TEXT    NOT NULL CHECK (json_valid(touches)), -- what it reached, by kind and key; kept while undo asks
  payload TEXT    CHECK (payload IS NULL OR json_valid(payload)), -- its edits; none once it cannot be undone or redone
  changed INTEGER NOT NULL -- revision that wrote this row last
) STRICT;
CREATE INDEX history_recipe ON history (recipe, seq);
CREATE INDEX history_changed ON history (changed);
CREATE INDEX history_payload ON history (state, seq) WHERE payload IS NOT NULL;
CREATE INDEX history_final ON history (changed) WHERE final = 1;

-- For any SQLite tool.
CREATE VIEW v_versions AS
SELECT r.title AS recipe, r.edition, v.letter, v.name, coalesce(v.servings, r.servings) AS servings,
  (SELECT group_concat(name, '; ') FROM (SELECT s.name AS name
     FROM version_swap x JOIN swap s ON s.id = x.swap WHERE x.version = v.id ORDER BY s.name)) AS swaps,
  v.id AS version_id, r.id AS recipe_id
FROM version v JOIN recipe r ON r.id = v.recipe;

CREATE VIEW v_lines AS
SELECT r.title AS recipe, l.key + 1 AS place, l.value ->> '$.section' AS section, l.value ->> '$.text' AS text,
  l.value ->> '$.name' AS ingredient, l.value ->> '$.amount' AS amount, l.value ->> '$.unit' AS unit,
  CASE WHEN coalesce(l.value ->> '$.grams_from', '') IN ('', 'unknown') THEN NULL
    ELSE coalesce(l.value ->> '$.grams', 0) END AS grams,
  l.value ->> '$.grams_from' AS grams_from,
  (l.value ->> '$.food.source') || '/' || coalesce(l.value ->> '$.food.release', '') || '/' || (l.value ->> '$.food.code') AS food,
  l.value ->> '$.part_eaten' AS part_eaten, l.value ->> '$.id' AS line_id, r.id AS recipe_id
FROM recipe r, json_each(r.body, '$.lines') l WHERE l.type = 'object';
