-- What was said of who cannot eat what: at the table of a service, or of a person for
-- good. Gone is the message that took it back; 0: it is in force.
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
  gone    INTEGER NOT NULL,
  PRIMARY KEY (message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX need_gone ON need (gone) WHERE gone <> 0;
