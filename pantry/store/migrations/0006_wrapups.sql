-- Wrap-ups: where one stretch of the ledger ends and the next begins. N is the message that
-- closed it: all entries of messages after the wrap-up before, up to this one, are of it.
CREATE TABLE wrapup (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  n       INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (kitchen, n)
) STRICT, WITHOUT ROWID;
