-- What was said of a bed, a ward, a class stays until it is said to be over; and what was said
-- for a day ahead is for that day, 2026-03-07; '': for the service in which it was said.
ALTER TABLE need ADD COLUMN stays INTEGER NOT NULL DEFAULT 0;
ALTER TABLE need ADD COLUMN day TEXT NOT NULL DEFAULT '';
-- What is in force of what was said before: until now each place was looked at anew, and what was
-- older than a day by the newest need was not read.
UPDATE need SET stays = 1 WHERE lasting = 0 AND (who GLOB '[0-9][a-f]' OR who GLOB '[0-9][0-9][a-f]' OR
  EXISTS (SELECT 1 FROM json_each('["bed","ward","room","side room","bay","year","class","form","suite","cabin","unit","flat","pod","house","group","cubicle","apartment","lodge","villa","icu","itu","hdu","ccu","maternity","maternity ward","labour ward","delivery ward","postnatal","antenatal","paediatrics","paeds","childrens ward","oncology","stroke unit","renal unit","burns unit","school","nursery","preschool","creche","breakfast club","after school club","day centre"]')
    WHERE who = value OR who GLOB value || ' *' OR who GLOB '*[0-9] ' || value || ' *'));

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
