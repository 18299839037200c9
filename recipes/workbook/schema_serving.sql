-- Servings, their scores, and the view of them: made with a workbook, and anew when
-- one of format 1 is brought up to date.
CREATE TABLE serving ( -- a taster's answers on one sample; without a sample: on the whole tray
  id       TEXT PRIMARY KEY NOT NULL CHECK (id <> ''),
  body     TEXT NOT NULL CHECK (json_valid(body) AND id = body ->> '$.id'),
  tasting  TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.tasting') STORED
    REFERENCES tasting (id) DEFERRABLE INITIALLY DEFERRED,
  sample   TEXT GENERATED ALWAYS AS (body ->> '$.sample') STORED
    REFERENCES sample (id) DEFERRABLE INITIALLY DEFERRED,
  panelist TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.panelist') STORED
    REFERENCES panelist (id) DEFERRABLE INITIALLY DEFERRED,
  source   TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.source') STORED,
  position INTEGER GENERATED ALWAYS AS (body ->> '$.position') STORED
) STRICT;
CREATE INDEX serving_tasting ON serving (tasting, panelist, sample);
CREATE INDEX serving_sample ON serving (sample);
CREATE INDEX serving_panelist ON serving (panelist);

CREATE TABLE score ( -- the scores of a serving; kept by the triggers below
  serving   TEXT NOT NULL REFERENCES serving (id) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  attribute TEXT NOT NULL,
  score     REAL NOT NULL,
  PRIMARY KEY (serving, attribute)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER serving_added AFTER INSERT ON serving BEGIN
  INSERT INTO score SELECT new.id, key, value FROM json_each(new.body, '$.scores') WHERE value IS NOT NULL;
END;
CREATE TRIGGER serving_changed AFTER UPDATE OF body ON serving BEGIN
  DELETE FROM score WHERE serving = old.id;
  INSERT INTO score SELECT new.id, key, value FROM json_each(new.body, '$.scores') WHERE value IS NOT NULL;
END;

CREATE VIEW v_scores AS -- version only once the tasting is closed: nobody peeks by accident; trays have no sample and stay out
SELECT r.title AS recipe, t.date, t.name AS tasting, t.state, m.code AS sample,
  CASE WHEN t.state = 'closed' THEN coalesce(v.letter, m.body ->> '$.dish', 'original') END AS version,
  p.code AS panelist, s.source, s.position, c.attribute, c.score, s.id AS serving_id
FROM score c JOIN serving s ON s.id = c.serving JOIN sample m ON m.id = s.sample
  JOIN tasting t ON t.id = s.tasting JOIN recipe r ON r.id = t.recipe
  JOIN panelist p ON p.id = s.panelist LEFT JOIN version v ON v.id = m.version;
