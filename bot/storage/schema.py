"""The tables, as steps that bring any older database to today's.

A step that was released never changes; a new need is a new step at the end. Times are ISO 8601
in UTC with milliseconds, so that they sort as text. A name that ends in `_sealed` is encrypted
(`bot.storage.sealing`). Lengths in JSON are those of the contract.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from sqlite_utils import Database as Tables
from sqlite_utils.migrations import Migrations

__all__ = ["FOREVER", "STEPS", "migrations"]

FOREVER = ("versions", "cages", "audit")
"""Tables whose rows never change and never go."""

PEOPLE = """
CREATE TABLE people (
  person TEXT PRIMARY KEY, channel TEXT NOT NULL, language TEXT NOT NULL,
  contact_sealed BLOB, first_seen TEXT NOT NULL, last_seen TEXT NOT NULL,
  reachable INTEGER NOT NULL DEFAULT 1 CHECK (reachable IN (0, 1))
) STRICT;
CREATE TABLE sessions (
  person TEXT PRIMARY KEY REFERENCES people, schema_version INTEGER NOT NULL,
  stored_at TEXT NOT NULL, session_sealed BLOB NOT NULL
) STRICT;
CREATE TABLE staff (
  name TEXT PRIMARY KEY, role TEXT NOT NULL, code_hash TEXT UNIQUE, code_made_at TEXT,
  code_used_at TEXT, active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT;
"""

ORDERS = """
CREATE TABLE orders (
  number TEXT PRIMARY KEY CHECK (length(number) = 8), version INTEGER NOT NULL,
  stage TEXT NOT NULL, person TEXT NOT NULL REFERENCES people, handed_in_at TEXT NOT NULL,
  stage_since TEXT NOT NULL, promised_for TEXT
) STRICT;
CREATE INDEX orders_of_person ON orders (person);
CREATE INDEX orders_by_stage ON orders (stage, handed_in_at);
CREATE TABLE versions (
  number TEXT NOT NULL REFERENCES orders, version INTEGER NOT NULL CHECK (version >= 1),
  made_at TEXT NOT NULL, by TEXT NOT NULL, reason TEXT NOT NULL,
  PRIMARY KEY (number, version)
) STRICT, WITHOUT ROWID;
CREATE TABLE cages (
  number TEXT NOT NULL, version INTEGER NOT NULL, item INTEGER NOT NULL,
  label TEXT NOT NULL, pieces INTEGER NOT NULL CHECK (pieces >= 1),
  request_json TEXT NOT NULL, design_json TEXT NOT NULL, workshop_version TEXT NOT NULL,
  PRIMARY KEY (number, version, item),
  FOREIGN KEY (number, version) REFERENCES versions
) STRICT, WITHOUT ROWID;
CREATE TABLE findings (
  id INTEGER PRIMARY KEY, number TEXT NOT NULL, version INTEGER NOT NULL,
  item INTEGER NOT NULL, code TEXT NOT NULL, severity TEXT NOT NULL,
  measures TEXT NOT NULL, seen REAL NOT NULL, expected_low REAL, expected_high REAL,
  source TEXT NOT NULL,
  FOREIGN KEY (number, version, item) REFERENCES cages
) STRICT;
CREATE INDEX findings_of_cage ON findings (number, version, item);
CREATE TABLE numbers (
  only INTEGER PRIMARY KEY CHECK (only = 1), next TEXT NOT NULL
) STRICT;
"""

ANSWERS = """
CREATE TABLE answers (
  id INTEGER PRIMARY KEY, person TEXT NOT NULL REFERENCES people,
  number TEXT REFERENCES orders, question TEXT NOT NULL, raw TEXT, reading TEXT,
  resolution REAL, how TEXT NOT NULL, at TEXT NOT NULL,
  superseded_by INTEGER REFERENCES answers
) STRICT;
CREATE INDEX answers_of_person ON answers (person, number, question) WHERE superseded_by IS NULL;
CREATE INDEX answers_superseded ON answers (superseded_by) WHERE superseded_by IS NOT NULL;
CREATE INDEX answers_of_order ON answers (number);
CREATE TABLE photos (
  id INTEGER PRIMARY KEY, sha TEXT NOT NULL, person TEXT NOT NULL REFERENCES people,
  question TEXT, number TEXT REFERENCES orders, at TEXT NOT NULL,
  width INTEGER, height INTEGER, bytes INTEGER
) STRICT;
CREATE INDEX photos_of_person ON photos (person, sha);
CREATE INDEX photos_of_order ON photos (number);
CREATE TABLE notes (
  id INTEGER PRIMARY KEY, number TEXT NOT NULL REFERENCES orders, at TEXT NOT NULL,
  by TEXT NOT NULL, what TEXT NOT NULL, text_sealed BLOB NOT NULL
) STRICT;
CREATE INDEX notes_of_order ON notes (number);
"""

POST = """
CREATE TABLE inbox (
  seq INTEGER PRIMARY KEY AUTOINCREMENT, channel TEXT NOT NULL, event TEXT NOT NULL,
  person TEXT NOT NULL, staff TEXT, kind TEXT NOT NULL, received_at TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('waiting', 'done', 'dead')),
  tries INTEGER NOT NULL DEFAULT 0, error TEXT, k INTEGER, raw_sealed BLOB,
  UNIQUE (channel, event)
) STRICT;
CREATE INDEX inbox_waiting ON inbox (seq) WHERE state = 'waiting';
CREATE INDEX inbox_of_person ON inbox (person, seq);
CREATE TABLE outbox (
  seq INTEGER PRIMARY KEY AUTOINCREMENT, to_person TEXT NOT NULL, channel TEXT NOT NULL,
  kind TEXT NOT NULL, k INTEGER, body_sealed BLOB, created_at TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('waiting', 'sent', 'failed')),
  attempts INTEGER NOT NULL DEFAULT 0, not_before TEXT, sent_at TEXT, error TEXT,
  event_seq INTEGER NOT NULL REFERENCES inbox
) STRICT;
CREATE INDEX outbox_waiting ON outbox (to_person, seq) WHERE state = 'waiting';
CREATE INDEX outbox_of_person ON outbox (to_person, seq);
CREATE INDEX outbox_of_event ON outbox (event_seq);
CREATE TABLE due (
  person TEXT NOT NULL REFERENCES people, what TEXT NOT NULL, at TEXT NOT NULL,
  PRIMARY KEY (person, what)
) STRICT, WITHOUT ROWID;
CREATE INDEX due_by_time ON due (at);
"""

AUDIT = """
CREATE TABLE audit (
  seq INTEGER PRIMARY KEY AUTOINCREMENT, at TEXT NOT NULL, what TEXT NOT NULL,
  by TEXT NOT NULL, person TEXT NOT NULL, number TEXT, version INTEGER, question TEXT,
  before TEXT, after TEXT
) STRICT;
CREATE INDEX audit_of_order ON audit (number, seq);
CREATE INDEX audit_of_person ON audit (person);
"""

TELEGRAM = """
CREATE TABLE telegram_chats (
  person TEXT PRIMARY KEY, chat_sealed BLOB NOT NULL
) STRICT;
CREATE TABLE telegram_files (
  picture TEXT PRIMARY KEY, file TEXT NOT NULL
) STRICT;
CREATE TABLE polls (
  channel TEXT PRIMARY KEY, at TEXT NOT NULL, trouble TEXT
) STRICT;
ALTER TABLE outbox ADD COLUMN ref TEXT;
CREATE INDEX outbox_by_ref ON outbox (to_person, ref) WHERE ref IS NOT NULL;
"""

STAFF = """
ALTER TABLE staff ADD COLUMN address TEXT;
CREATE UNIQUE INDEX staff_by_address ON staff (address) WHERE address IS NOT NULL;
UPDATE staff SET role = 'operator';
"""

LEFT = """
ALTER TABLE staff ADD COLUMN left_at TEXT;
"""

WEIGHTS = """
ALTER TABLE findings ADD COLUMN weights TEXT;
"""

STAFF_CHATS = """
CREATE TABLE staff_words (
  person TEXT PRIMARY KEY, verb TEXT NOT NULL, number TEXT NOT NULL, version INTEGER,
  measure TEXT, at TEXT NOT NULL, event TEXT
) STRICT;
CREATE TABLE staff_cards (
  person TEXT NOT NULL, message INTEGER NOT NULL, number TEXT NOT NULL REFERENCES orders,
  version INTEGER NOT NULL, stage TEXT NOT NULL, PRIMARY KEY (person, message)
) STRICT, WITHOUT ROWID;
CREATE INDEX staff_cards_of_order ON staff_cards (person, number, message);
"""

PASSES = """
CREATE TABLE ended_passes (
  pass TEXT PRIMARY KEY, until TEXT NOT NULL
) STRICT;
"""

SEAL = """
CREATE TABLE seal (
  only INTEGER PRIMARY KEY CHECK (only = 1), key_hash TEXT NOT NULL
) STRICT;
"""


def _statements(script: str) -> list[str]:
    return [statement for statement in script.split(";") if statement.strip()]


def _refuse(table: str, verb: str) -> str:
    return (
        f"CREATE TRIGGER {table}_never_{verb.lower()} BEFORE {verb} ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} never change'); END"
    )


def _first(db: Tables) -> None:
    for script in (PEOPLE, ORDERS, ANSWERS, POST, AUDIT, SEAL):
        for statement in _statements(script):
            db.execute(statement)
    for table in FOREVER:
        for verb in ("UPDATE", "DELETE"):
            db.execute(_refuse(table, verb))


def _telegram(db: Tables) -> None:
    for statement in _statements(TELEGRAM):
        db.execute(statement)


def _staff(db: Tables) -> None:
    for statement in _statements(STAFF):
        db.execute(statement)


def _left(db: Tables) -> None:
    for statement in _statements(LEFT):
        db.execute(statement)


def _weights(db: Tables) -> None:
    for statement in _statements(WEIGHTS):
        db.execute(statement)


def _staff_chats(db: Tables) -> None:
    for statement in _statements(STAFF_CHATS):
        db.execute(statement)


def _passes(db: Tables) -> None:
    for statement in _statements(PASSES):
        db.execute(statement)


STEPS: Final = {
    "0001_first": _first, "0002_telegram": _telegram, "0003_staff": _staff,
    "0004_staff_left": _left, "0005_findings_weights": _weights,
    "0006_staff_chats": _staff_chats, "0007_ended_passes": _passes,
}  # fmt: skip


@cache
def migrations() -> Migrations:
    """All steps, in order."""
    steps = Migrations("cagewright")
    for name, step in STEPS.items():
        steps(name=name)(step)
    return steps
