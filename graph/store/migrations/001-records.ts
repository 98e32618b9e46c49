import type { Migration } from './migration.ts'

/**
 * Records, their revisions, and what is derived from the current one. `part` numbers carry their record: the key of
 * the record times 2^20 plus the rank of the path within it, so that one number both names a part and sorts it, and
 * rebuilding gives the same numbers.
 */
export const records: Migration = {
  version: 1,
  about: 'records, revisions and derived rows',
  sql: `
CREATE TABLE teardown (
  key              INTEGER PRIMARY KEY,
  id               TEXT NOT NULL UNIQUE CHECK (id <> ''),
  revision         INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn        INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  derived_revision INTEGER,
  stamp            TEXT NOT NULL,
  CHECK (withdrawn = 0 OR derived_revision IS NULL),
  FOREIGN KEY (key, revision) REFERENCES revision (teardown, revision) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE revision (
  teardown  INTEGER NOT NULL REFERENCES teardown (key),
  revision  INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
  hash      TEXT NOT NULL CHECK (length(hash) = 64),
  seal      TEXT NOT NULL CHECK (length(seal) = 64),
  at        TEXT NOT NULL,
  by        TEXT,
  note      TEXT,
  -- Last, so that reading a line of the history does not walk through its text.
  sheet     TEXT,
  body      TEXT,
  PRIMARY KEY (teardown, revision),
  CHECK (withdrawn = (sheet IS NULL) AND withdrawn = (body IS NULL))
) STRICT;

CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision BEGIN
  SELECT RAISE(ABORT, 'a revision is never deleted');
END;
CREATE TRIGGER revision_is_final BEFORE UPDATE ON revision BEGIN
  SELECT RAISE(ABORT, 'a revision is never changed');
END;

CREATE TABLE summary (
  teardown   INTEGER PRIMARY KEY REFERENCES teardown (key),
  title      TEXT NOT NULL,
  title_key  TEXT NOT NULL,
  kind       TEXT NOT NULL,
  maker      TEXT,
  maker_key  TEXT,
  model      TEXT,
  text       TEXT NOT NULL
) STRICT;
CREATE INDEX summary_title ON summary (title_key);
CREATE INDEX summary_kind ON summary (kind);
CREATE INDEX summary_maker ON summary (maker_key);

CREATE TABLE part (
  part           INTEGER PRIMARY KEY,
  teardown       INTEGER NOT NULL REFERENCES teardown (key),
  path           TEXT NOT NULL CHECK (path <> ''),
  id             TEXT NOT NULL,
  class          TEXT NOT NULL,
  class_group    TEXT NOT NULL,
  parent         TEXT,
  built          REAL NOT NULL CHECK (abs(built) < 1e308),
  found          REAL NOT NULL CHECK (abs(found) < 1e308),
  type           TEXT,
  marking        TEXT,
  marking_normal TEXT,
  material       TEXT,
  bases          INTEGER NOT NULL,
  text           TEXT NOT NULL,
  UNIQUE (teardown, path),
  CHECK (part >> 20 = teardown)
) STRICT;
CREATE INDEX part_type ON part (type) WHERE type IS NOT NULL;
CREATE INDEX part_material ON part (material) WHERE material IS NOT NULL;

-- What a part is, is on, leads to: kind is class, net, potential, state, end, end-name, passage or upstream.
CREATE TABLE part_tag (
  part  INTEGER NOT NULL REFERENCES part (part) DEFERRABLE INITIALLY DEFERRED,
  kind  TEXT NOT NULL,
  value TEXT NOT NULL,
  PRIMARY KEY (part, kind, value)
) STRICT, WITHOUT ROWID;
CREATE INDEX part_tag_value ON part_tag (kind, value);

-- One name may carry several values: those of single pieces of the entry.
CREATE TABLE part_property (
  part  INTEGER NOT NULL REFERENCES part (part) DEFERRABLE INITIALLY DEFERRED,
  name  TEXT NOT NULL,
  rank  INTEGER NOT NULL,
  value REAL CHECK (abs(value) < 1e308),
  word  TEXT,
  basis TEXT NOT NULL,
  PRIMARY KEY (part, name, rank)
) STRICT, WITHOUT ROWID;
CREATE INDEX part_property_value ON part_property (name, value) WHERE value IS NOT NULL;

CREATE TABLE passage (
  teardown INTEGER NOT NULL REFERENCES teardown (key),
  path     TEXT NOT NULL,
  stage    REAL CHECK (abs(stage) < 1e308),
  upstream TEXT NOT NULL CHECK (json_valid(upstream)),
  PRIMARY KEY (teardown, path)
) STRICT, WITHOUT ROWID;

-- Metric first: a benchmark reads one stretch of this table.
CREATE TABLE figure (
  metric      TEXT NOT NULL,
  conditions  TEXT NOT NULL,
  teardown    INTEGER NOT NULL REFERENCES teardown (key),
  subject     TEXT NOT NULL,
  status      TEXT NOT NULL CHECK (status IN ('OK', 'MISSING', 'NOT_APPLICABLE', 'OUT_OF_RANGE')),
  unit        TEXT NOT NULL,
  value       REAL CHECK (abs(value) < 1e308),
  at_taken    REAL CHECK (abs(at_taken) < 1e308),
  uncertainty REAL CHECK (abs(uncertainty) < 1e308),
  low         REAL CHECK (abs(low) < 1e308),
  high        REAL CHECK (abs(high) < 1e308),
  how         TEXT NOT NULL,
  basis       TEXT,
  reason      TEXT,
  PRIMARY KEY (metric, conditions, teardown, subject)
) STRICT, WITHOUT ROWID;
CREATE INDEX figure_teardown ON figure (teardown);

CREATE TABLE figure_detail (
  teardown   INTEGER NOT NULL REFERENCES teardown (key),
  metric     TEXT NOT NULL,
  conditions TEXT NOT NULL,
  subject    TEXT NOT NULL,
  components TEXT NOT NULL CHECK (json_valid(components)),
  body       TEXT NOT NULL,
  PRIMARY KEY (teardown, metric, conditions, subject)
) STRICT;

CREATE TABLE trait (
  trait    TEXT NOT NULL,
  value    TEXT NOT NULL,
  teardown INTEGER NOT NULL REFERENCES teardown (key),
  subject  TEXT NOT NULL,
  basis    TEXT,
  PRIMARY KEY (trait, value, teardown, subject)
) STRICT, WITHOUT ROWID;
CREATE INDEX trait_teardown ON trait (teardown);

CREATE TABLE check_finding (
  teardown INTEGER NOT NULL REFERENCES teardown (key),
  rank     INTEGER NOT NULL,
  check_id TEXT NOT NULL,
  path     TEXT NOT NULL,
  severity TEXT NOT NULL CHECK (severity IN ('error', 'warning', 'question')),
  what     TEXT NOT NULL,
  mend     TEXT NOT NULL,
  PRIMARY KEY (teardown, rank)
) STRICT, WITHOUT ROWID;

CREATE TABLE instrument (
  instrument TEXT NOT NULL,
  teardown   INTEGER NOT NULL REFERENCES teardown (key),
  path       TEXT NOT NULL,
  PRIMARY KEY (instrument, teardown, path)
) STRICT, WITHOUT ROWID;
CREATE INDEX instrument_teardown ON instrument (teardown);

-- The indexes of words hold no text of their own; triggers keep them equal to the tables.
CREATE VIRTUAL TABLE summary_text USING fts5 (text, content = '', contentless_delete = 1, prefix = '2 3', tokenize = "unicode61 remove_diacritics 2");
CREATE TRIGGER summary_text_in AFTER INSERT ON summary BEGIN
  INSERT INTO summary_text (rowid, text) VALUES (new.teardown, new.text);
END;
CREATE TRIGGER summary_text_out AFTER DELETE ON summary BEGIN
  DELETE FROM summary_text WHERE rowid = old.teardown;
END;
CREATE TRIGGER summary_text_changed AFTER UPDATE OF text ON summary WHEN old.text IS NOT new.text BEGIN
  DELETE FROM summary_text WHERE rowid = old.teardown;
  INSERT INTO summary_text (rowid, text) VALUES (new.teardown, new.text);
END;

CREATE VIRTUAL TABLE part_text USING fts5 (text, content = '', contentless_delete = 1, prefix = '2 3', tokenize = "unicode61 remove_diacritics 2");
CREATE TRIGGER part_text_in AFTER INSERT ON part BEGIN
  INSERT INTO part_text (rowid, text) VALUES (new.part, new.text);
END;
CREATE TRIGGER part_text_out AFTER DELETE ON part BEGIN
  DELETE FROM part_text WHERE rowid = old.part;
END;
CREATE TRIGGER part_text_changed AFTER UPDATE OF text ON part WHEN old.text IS NOT new.text BEGIN
  DELETE FROM part_text WHERE rowid = old.part;
  INSERT INTO part_text (rowid, text) VALUES (new.part, new.text);
END;

CREATE VIRTUAL TABLE part_marking USING fts5 (marking, content = '', contentless_delete = 1, tokenize = "trigram case_sensitive 1");
CREATE TRIGGER part_marking_in AFTER INSERT ON part WHEN new.marking_normal IS NOT NULL BEGIN
  INSERT INTO part_marking (rowid, marking) VALUES (new.part, new.marking_normal);
END;
CREATE TRIGGER part_marking_out AFTER DELETE ON part WHEN old.marking_normal IS NOT NULL BEGIN
  DELETE FROM part_marking WHERE rowid = old.part;
END;
CREATE TRIGGER part_marking_changed AFTER UPDATE OF marking_normal ON part WHEN old.marking_normal IS NOT new.marking_normal BEGIN
  DELETE FROM part_marking WHERE rowid = old.part;
  INSERT INTO part_marking (rowid, marking) SELECT new.part, new.marking_normal WHERE new.marking_normal IS NOT NULL;
END;
`,
}
