PRAGMA application_id = 1396919374;
PRAGMA user_version = 11;
CREATE TABLE kitchen (
  id   INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE
) STRICT;
CREATE TABLE line (
  id      INTEGER PRIMARY KEY,
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  name    TEXT NOT NULL,
  food    TEXT NOT NULL,
  unit    TEXT NOT NULL CHECK (unit IN ('g', 'ml')),
  shelf   TEXT NOT NULL CHECK (shelf IN ('crate', 'cupboard')),
  UNIQUE (kitchen, name)
) STRICT;
CREATE TABLE balance (
  line     INTEGER PRIMARY KEY REFERENCES line,
  received INTEGER NOT NULL,
  made     INTEGER NOT NULL,
  used     INTEGER NOT NULL,
  binned   INTEGER NOT NULL,
  variance INTEGER NOT NULL,
  trimmed  INTEGER NOT NULL,
  on_hand  INTEGER NOT NULL CHECK (on_hand >= 0),
  lots     TEXT NOT NULL,
  holds    TEXT NOT NULL,
  CHECK (received + made = used + binned + on_hand + variance)
) STRICT;
CREATE TABLE message (
  n       INTEGER PRIMARY KEY,
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  id      TEXT NOT NULL,
  cook    TEXT NOT NULL,
  at      TEXT NOT NULL,
  text    TEXT NOT NULL,
  rev     INTEGER NOT NULL,
  gone    INTEGER NOT NULL,
  reply   TEXT NOT NULL, room TEXT NOT NULL DEFAULT '', edited INTEGER NOT NULL DEFAULT 0,
  UNIQUE (kitchen, id)
) STRICT;
CREATE TABLE change (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  event   TEXT NOT NULL,
  reply   TEXT NOT NULL,
  PRIMARY KEY (message, event)
) STRICT, WITHOUT ROWID;
CREATE TABLE revision (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  rev     INTEGER NOT NULL,
  by      INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  why     TEXT NOT NULL,
  PRIMARY KEY (message, rev)
) STRICT, WITHOUT ROWID;
CREATE INDEX revision_by ON revision (by);
CREATE TABLE entry (
  message  INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  rev      INTEGER NOT NULL,
  part     INTEGER NOT NULL,
  line     INTEGER NOT NULL REFERENCES line,
  act      TEXT NOT NULL CHECK (act IN ('receive','use','return','bin','claim','release','count','make')),
  amount   INTEGER NOT NULL CHECK (amount >= 0),
  pieces   INTEGER NOT NULL,
  piece    TEXT NOT NULL,
  approx   INTEGER NOT NULL,
  trim     INTEGER NOT NULL,
  dish     TEXT NOT NULL,
  cook     TEXT NOT NULL,
  at       TEXT NOT NULL,
  said     TEXT NOT NULL,
  date     TEXT NOT NULL,
  label    INTEGER NOT NULL,
  cost     INTEGER NOT NULL,
  piece_mg INTEGER NOT NULL, weighed INTEGER NOT NULL DEFAULT 0, state TEXT NOT NULL DEFAULT '', best INTEGER NOT NULL DEFAULT 0, sign TEXT NOT NULL DEFAULT '',
  PRIMARY KEY (message, rev, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_line ON entry (line, message, part);
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE TRIGGER revision_stays BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE TRIGGER revision_kept BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE TABLE dish (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  n       INTEGER NOT NULL,
  name    TEXT NOT NULL,
  PRIMARY KEY (kitchen, n),
  UNIQUE (kitchen, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE cook (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  name    TEXT NOT NULL, person TEXT NOT NULL DEFAULT '', shown TEXT NOT NULL DEFAULT '',
  PRIMARY KEY (kitchen, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE question (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  cook    TEXT NOT NULL,
  message TEXT NOT NULL,
  at      TEXT NOT NULL,
  body    TEXT NOT NULL,
  PRIMARY KEY (kitchen, cook)
) STRICT, WITHOUT ROWID;
CREATE TABLE lesson (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  rev     INTEGER NOT NULL,
  part    INTEGER NOT NULL,
  name    TEXT NOT NULL, -- the name taught, or the new food's
  means   TEXT NOT NULL, -- what it is a name of; '' for a new food
  cells   TEXT NOT NULL, -- a new food's cells, JSON by column; '' for a name
  PRIMARY KEY (message, rev, part)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER lesson_stays BEFORE UPDATE ON lesson BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE TRIGGER lesson_kept BEFORE DELETE ON lesson BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
CREATE UNIQUE INDEX cook_person ON cook (kitchen, person) WHERE person <> '';
CREATE INDEX message_room ON message (room, n) WHERE room <> '';
CREATE TABLE room (
  id      TEXT PRIMARY KEY,
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  house   TEXT NOT NULL,
  quiet   INTEGER NOT NULL,
  since   TEXT NOT NULL,
  settled TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE post (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  id      TEXT NOT NULL,
  room    TEXT NOT NULL,
  at      TEXT NOT NULL,
  body    TEXT NOT NULL,
  rev     INTEGER NOT NULL,
  sent    INTEGER NOT NULL,
  place   TEXT NOT NULL,
  PRIMARY KEY (kitchen, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX post_due ON post (room) WHERE rev > sent;
CREATE TABLE timer (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  message TEXT NOT NULL,
  part    INTEGER NOT NULL,
  cook    TEXT NOT NULL,
  room    TEXT NOT NULL,
  about   TEXT NOT NULL,
  begun   INTEGER NOT NULL, -- milliseconds since 1970
  due     INTEGER NOT NULL, daily INTEGER NOT NULL DEFAULT 0,
  PRIMARY KEY (kitchen, message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX timer_due ON timer (due);
CREATE TABLE choice (
  kitchen   INTEGER NOT NULL REFERENCES kitchen,
  message   TEXT NOT NULL,
  part      INTEGER NOT NULL,
  cook      TEXT NOT NULL,
  technique TEXT NOT NULL,
  palette   TEXT NOT NULL,
  item      TEXT NOT NULL,
  title     TEXT NOT NULL,
  taken     INTEGER NOT NULL,
  at        INTEGER NOT NULL, -- milliseconds since 1970
  until     INTEGER NOT NULL,
  kit       TEXT NOT NULL, hands INTEGER NOT NULL DEFAULT 0,    -- words, a blank between
  PRIMARY KEY (kitchen, message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX choice_at ON choice (kitchen, at);
CREATE TABLE service (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  message TEXT NOT NULL,
  cook    TEXT NOT NULL,
  begun   INTEGER NOT NULL, -- milliseconds since 1970
  due     INTEGER NOT NULL,
  ended   INTEGER NOT NULL, -- 0: it goes on
  body    TEXT NOT NULL,
  PRIMARY KEY (kitchen, message)
) STRICT, WITHOUT ROWID;
CREATE INDEX service_begun ON service (kitchen, begun);
CREATE TABLE wrapup (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  message TEXT NOT NULL, said INTEGER NOT NULL DEFAULT 0,
  PRIMARY KEY (kitchen, message)
) STRICT, WITHOUT ROWID;
CREATE TABLE need (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  part    INTEGER NOT NULL,
  at      INTEGER NOT NULL, -- milliseconds since 1970
  who     TEXT NOT NULL,    -- '' the table
  lasting INTEGER NOT NULL,
  kind    TEXT NOT NULL CHECK (kind IN ('allergy','food','diet','heads','over')),
  what    TEXT NOT NULL,
  count   INTEGER NOT NULL,
  said    TEXT NOT NULL,
  gone    INTEGER NOT NULL, stays INTEGER NOT NULL DEFAULT 0, day TEXT NOT NULL DEFAULT '',
  PRIMARY KEY (message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX need_gone ON need (gone) WHERE gone <> 0;
CREATE TABLE doubt (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  part    INTEGER NOT NULL,
  by      INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (message, part)
) STRICT, WITHOUT ROWID;
