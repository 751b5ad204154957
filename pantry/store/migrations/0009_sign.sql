-- The sign of the currency that a cost was said in.
ALTER TABLE entry ADD COLUMN sign TEXT NOT NULL DEFAULT '';
