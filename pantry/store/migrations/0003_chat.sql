-- What a chat needs: which rooms are joined to which kitchen, what they are to
-- be shown, and who is meant by a cook.

-- A cook of a chat is known by the platform's id of the person and shown by a
-- name; name is then what entries call the cook, and says nothing of who it is.
ALTER TABLE cook ADD COLUMN person TEXT NOT NULL DEFAULT '';
ALTER TABLE cook ADD COLUMN shown TEXT NOT NULL DEFAULT '';
CREATE UNIQUE INDEX cook_person ON cook (kitchen, person) WHERE person <> '';

-- Where a message was said, and when the latest edit of it that was heard was
-- made, in microseconds since 1970; 0 none.
ALTER TABLE message ADD COLUMN room TEXT NOT NULL DEFAULT '';
ALTER TABLE message ADD COLUMN edited INTEGER NOT NULL DEFAULT 0;
CREATE INDEX message_room ON message (room, n) WHERE room <> '';

-- Rooms, by the platform's ids. House is who has the room: a kitchen belongs to
-- one. Messages before since are none of ours; history is settled up to settled.
CREATE TABLE room (
  id      TEXT PRIMARY KEY,
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  house   TEXT NOT NULL,
  quiet   INTEGER NOT NULL,
  since   TEXT NOT NULL,
  settled TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- What a room is to be shown for a message: the reply as it should stand there
-- (rev), what of that has been sent, and where it stands. Due where they differ.
CREATE TABLE post (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  id      TEXT NOT NULL,
  room    TEXT NOT NULL,
  at      TEXT NOT NULL,
  body    TEXT NOT NULL,
  rev     INTEGER NOT NULL,
  sent    INTEGER NOT NULL,
  place   TEXT NOT NULL,
  PRIMARY KEY (kitchen, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX post_due ON post (room) WHERE rev > sent;

-- Timers that are running, by the message that set them.
CREATE TABLE timer (
  kitchen INTEGER NOT NULL REFERENCES kitchen,
  message TEXT NOT NULL,
  part    INTEGER NOT NULL,
  cook    TEXT NOT NULL,
  room    TEXT NOT NULL,
  about   TEXT NOT NULL,
  begun   INTEGER NOT NULL, -- milliseconds since 1970
  due     INTEGER NOT NULL,
  PRIMARY KEY (kitchen, message, part)
) STRICT, WITHOUT ROWID;
CREATE INDEX timer_due ON timer (due);
