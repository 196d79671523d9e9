-- The tables of a SQLite store, version 1. The chain can only grow; drawers can be changed and erased.
CREATE TABLE yard (
    id    BLOB    NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    place INTEGER NOT NULL UNIQUE,
    name  TEXT    NOT NULL,
    kept  INTEGER NOT NULL DEFAULT 0
) STRICT;

CREATE TABLE entry (
    yard       BLOB    NOT NULL REFERENCES yard (id),
    seq        INTEGER NOT NULL CHECK (seq >= 1),
    id         BLOB    NOT NULL CHECK (length(id) = 16),
    machine    TEXT,
    kind       TEXT    NOT NULL,
    written    INTEGER NOT NULL,
    ordered_at INTEGER NOT NULL CHECK (ordered_at <= written),
    corrected  INTEGER NOT NULL CHECK (corrected IN (0, 1)),
    hash       BLOB    NOT NULL CHECK (length(hash) = 32),
    bytes      BLOB    NOT NULL,
    UNIQUE (yard, seq),
    UNIQUE (yard, id)
) STRICT;

CREATE TABLE aside (
    place   INTEGER NOT NULL PRIMARY KEY,
    yard    BLOB    NOT NULL REFERENCES yard (id),
    id      BLOB    NOT NULL CHECK (length(id) = 16),
    digest  BLOB    NOT NULL CHECK (length(digest) = 32),
    written INTEGER NOT NULL,
    bytes   BLOB    NOT NULL,
    UNIQUE (yard, id, digest)
) STRICT;

CREATE TABLE drawer (
    yard   BLOB NOT NULL REFERENCES yard (id),
    drawer TEXT NOT NULL,
    key    TEXT NOT NULL,
    value  TEXT NOT NULL,
    PRIMARY KEY (yard, drawer, key)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER entry_is_next BEFORE INSERT ON entry
WHEN NEW.seq <> 1 + (SELECT coalesce(max(seq), 0) FROM entry WHERE yard = NEW.yard)
BEGIN SELECT raise(ABORT, 'the journal takes entries one after the other'); END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
BEGIN SELECT raise(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER entry_is_as_written BEFORE UPDATE ON entry
BEGIN SELECT raise(ABORT, 'the journal is append-only'); END;
CREATE TRIGGER aside_is_kept BEFORE DELETE ON aside
BEGIN SELECT raise(ABORT, 'what lies aside is append-only'); END;
CREATE TRIGGER aside_is_as_written BEFORE UPDATE ON aside
BEGIN SELECT raise(ABORT, 'what lies aside is append-only'); END;
