-- What cooks have made of ideas: begun them, or turned them down.
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
  kit       TEXT NOT NULL,    -- words, a blank between
  PRIMARY KEY (kitchen, message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX choice_at ON choice (kitchen, at);
