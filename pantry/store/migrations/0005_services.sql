-- Until when an idea that was begun takes its cook's hands; milliseconds since 1970.
ALTER TABLE choice ADD COLUMN hands INTEGER NOT NULL DEFAULT 0;

-- Services: plans that a kitchen has begun. Body is the plan, as the program that began it
-- wrote it.
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
