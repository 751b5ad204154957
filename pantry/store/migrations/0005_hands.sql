-- Until when an idea that was begun takes its cook's hands; milliseconds since 1970.
ALTER TABLE choice ADD COLUMN hands INTEGER NOT NULL DEFAULT 0;
