-- Published tables that were imported; their foods are in the block. The table is
-- made with the first of them, so that workbooks from before it need no change.
CREATE TABLE IF NOT EXISTS release (
  ref   TEXT PRIMARY KEY NOT NULL, -- source/release
  body  TEXT NOT NULL CHECK (json_valid(body) AND ref = (body ->> '$.source') || '/' || (body ->> '$.release')),
  name  TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.name') STORED,
  foods INTEGER NOT NULL GENERATED ALWAYS AS (body ->> '$.foods') STORED,
  block TEXT NOT NULL GENERATED ALWAYS AS (body ->> '$.block') STORED
) STRICT;
