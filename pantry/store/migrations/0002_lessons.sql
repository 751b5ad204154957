-- What kitchens have taught: names, and foods of their own. A lesson belongs to
-- a message as entries do; those of the message's latest rev are in force.
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

-- Whether piece_mg was weighed, not taken from the tables. In a balance's lots
-- it is 2 in the field that says label.
ALTER TABLE entry ADD COLUMN weighed INTEGER NOT NULL DEFAULT 0;
