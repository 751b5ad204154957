-- When a wrap-up was said, where what was logged a while after it ends its account now;
-- milliseconds since 1970, 0: with the message that ends it.
ALTER TABLE wrapup ADD COLUMN said INTEGER NOT NULL DEFAULT 0;
