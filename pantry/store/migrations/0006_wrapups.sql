-- Wrap-ups: where one stretch of the ledger ends and the next begins. All entries of messages
-- after the wrap-up before, up to this message, are of it.
CREATE TABLE wrapup (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  message TEXT NOT NULL,
  PRIMARY KEY (kitchen, message)
) STRICT, WITHOUT ROWID;
