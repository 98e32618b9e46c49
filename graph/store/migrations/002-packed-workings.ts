import type { Migration } from './migration.ts'

/** Workings are kept deflated: a sixth of their size. What was derived before is computed anew. */
export const packedWorkings: Migration = {
  version: 2,
  about: 'workings of figures deflated',
  sql: `
DROP TABLE figure_detail;
CREATE TABLE figure_detail (
  teardown   INTEGER NOT NULL REFERENCES teardown (key),
  metric     TEXT NOT NULL,
  conditions TEXT NOT NULL,
  subject    TEXT NOT NULL,
  components BLOB NOT NULL,
  body       BLOB NOT NULL,
  PRIMARY KEY (teardown, metric, conditions, subject)
) STRICT;
UPDATE teardown SET stamp = '';
`,
}
