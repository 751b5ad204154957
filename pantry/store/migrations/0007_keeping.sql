-- How food is kept: what was done to a lot (opened, cooked, made up, frozen, thawed),
-- and whether its date is one of quality. A count with a state tells no balance. In a
-- balance's lots they stand in the field that says label: 4, and 8 times the state.
ALTER TABLE entry ADD COLUMN state TEXT NOT NULL DEFAULT '';
ALTER TABLE entry ADD COLUMN best INTEGER NOT NULL DEFAULT 0;

-- A timer that rings each day, to say what must go.
ALTER TABLE timer ADD COLUMN daily INTEGER NOT NULL DEFAULT 0;
