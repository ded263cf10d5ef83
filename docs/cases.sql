-- Tables for cases that Telltale keeps in PostgreSQL (14 or later), and two roles that may use them. Whoever keeps the database
-- runs this file once in it:  psql -d DATABASE -v ON_ERROR_STOP=1 -f cases.sql   (docs/database.md says more)
--
-- A record is a row and is only ever added: `data` is the line as a folder of cases would hold it, byte for byte, its newline
-- too. What a case's records mean stands in `cases`, worked out by the program that added the last of them: lists, counts and
-- searches read that and no records.

BEGIN;

CREATE SCHEMA telltale;

CREATE TABLE telltale.cases (
    id uuid PRIMARY KEY,
    number text NOT NULL UNIQUE, -- as it is told on the telephone
    digits text NOT NULL,        -- all twelve that such a number is taken from: a shorter one ends them
    began_at bigint NOT NULL,    -- milliseconds since 1970
    records bigint NOT NULL DEFAULT 0,
    meaning integer NOT NULL DEFAULT 0, -- which way of working out what follows

    state text, kind text, every text,
    last_moment bigint, ended_at bigint, until_at bigint, minutes double precision,
    confirmed boolean, disputed boolean, danger boolean, held boolean,
    stands_is integer, answers integer, tried integer, left_out integer,
    began text, last text, ended text,
    title text, edition text, book text, revision text, site text,
    complaint_name text, complaint text, said text, cause_name text, cause text,
    stands text, note text, "to" text, to_text text, until text,
    writer text, person text, place text, since text,

    -- the same in small letters, to be searched
    site_words text, to_words text, cause_words text, words text,
    site_path text               -- of the site's file, where it lay
);
CREATE INDEX ON telltale.cases (right(digits, 6));
CREATE INDEX ON telltale.cases (began_at);
CREATE INDEX ON telltale.cases (state, kind, last_moment);
CREATE INDEX ON telltale.cases (site);
CREATE INDEX ON telltale.cases (site_path);

CREATE TABLE telltale.records (
    case_id uuid NOT NULL REFERENCES telltale.cases (id) ON DELETE CASCADE,
    writer text NOT NULL,
    number bigint NOT NULL,      -- from 1, without a gap: the writer's lines in their order
    moment timestamptz,          -- null: the line tells none
    kind text,                   -- null: the line is no record
    data bytea NOT NULL,
    arrival bigint GENERATED ALWAYS AS IDENTITY,
    PRIMARY KEY (case_id, writer, number)
);
CREATE INDEX ON telltale.records (case_id, arrival);

-- Who called: apart, since it can be erased.
CREATE TABLE telltale.contacts (
    case_id uuid PRIMARY KEY REFERENCES telltale.cases (id) ON DELETE CASCADE,
    data text NOT NULL
);

-- Roles of groups: give one of them to each login, as in  GRANT telltale_writer TO ...
DO $$
BEGIN
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'telltale_reader') THEN CREATE ROLE telltale_reader NOLOGIN; END IF;
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'telltale_writer') THEN CREATE ROLE telltale_writer NOLOGIN; END IF;
END $$;

-- A reader sees cases, and not who called. A writer adds records and never changes or removes one.
GRANT USAGE ON SCHEMA telltale TO telltale_reader, telltale_writer;
GRANT SELECT ON telltale.cases, telltale.records TO telltale_reader, telltale_writer;
GRANT INSERT, UPDATE ON telltale.cases TO telltale_writer;
GRANT INSERT ON telltale.records TO telltale_writer;
GRANT SELECT, INSERT, UPDATE, DELETE ON telltale.contacts TO telltale_writer;

COMMIT;
