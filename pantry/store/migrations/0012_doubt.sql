-- Messages that told of food which may not be safe, and those by which something was made of such
-- food; by is the one that told it.
CREATE TABLE doubt (
  message INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  part    INTEGER NOT NULL,
  by      INTEGER NOT NULL REFERENCES message DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (message, part)
) STRICT, WITHOUT ROWID;
-- What was told before is looked for among the last two hundred messages no longer: all that may tell it is kept,
-- and read again whenever it matters.
INSERT INTO doubt SELECT n, 0, n FROM message WHERE gone = 0 AND (text LIKE '%fridge%' OR text LIKE '%chiller%' OR text LIKE '%walk%in%'
  OR text LIKE '%freezer%' OR text LIKE '%cold%room%' OR text LIKE '% out%' OR text LIKE '%smell%' OR text LIKE '%slim%' OR text LIKE '%stood%'
  OR text LIKE '% sat %' OR text LIKE '%warm%' OR text LIKE '%cool%' OR text LIKE '% held %' OR text LIKE '%power%' OR text LIKE '% came %');
