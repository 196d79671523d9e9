-- The tables of a PostgreSQL store, version 1: the same as in SQLite. Times are milliseconds since 1970 UTC.
CREATE TABLE yard (
    id    bytea  PRIMARY KEY CHECK (length(id) = 16),
    place bigint GENERATED ALWAYS AS IDENTITY UNIQUE,
    name  text   NOT NULL,
    kept  bigint NOT NULL DEFAULT 0
);

CREATE TABLE entry (
    yard       bytea   NOT NULL REFERENCES yard (id),
    seq        bigint  NOT NULL CHECK (seq >= 1),
    id         bytea   NOT NULL CHECK (length(id) = 16),
    machine    text,
    kind       text    NOT NULL,
    written    bigint  NOT NULL,
    ordered_at bigint  NOT NULL CHECK (ordered_at <= written),
    corrected  boolean NOT NULL,
    hash       bytea   NOT NULL CHECK (length(hash) = 32),
    bytes      bytea   NOT NULL,
    PRIMARY KEY (yard, seq),
    UNIQUE (yard, id)
);

CREATE TABLE aside (
    place   bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    yard    bytea  NOT NULL REFERENCES yard (id),
    id      bytea  NOT NULL CHECK (length(id) = 16),
    digest  bytea  NOT NULL CHECK (length(digest) = 32),
    written bigint NOT NULL,
    bytes   bytea  NOT NULL,
    UNIQUE (yard, id, digest)
);

CREATE TABLE drawer (
    yard   bytea NOT NULL REFERENCES yard (id),
    drawer text  COLLATE "C" NOT NULL,
    key    text  COLLATE "C" NOT NULL,
    value  text  NOT NULL,
    PRIMARY KEY (yard, drawer, key)
);

CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION 'the journal is append-only'; END $$;
CREATE TRIGGER entry_is_as_written BEFORE UPDATE OR DELETE OR TRUNCATE ON entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER aside_is_as_written BEFORE UPDATE OR DELETE OR TRUNCATE ON aside FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
