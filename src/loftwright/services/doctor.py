"""Look a studio over, from its file to its last backup, and change nothing."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from loftwright import __version__
from loftwright.errors import LoftwrightError, NotFoundError
from loftwright.services.doctor_files import (
    leftovers_of,
    look_at_backups,
    look_at_keys,
    look_at_leftovers,
    look_at_record,
    look_at_rights,
    look_at_room,
    remove_leftovers,
    rights_of,
)
from loftwright.services.doctor_finding import Finding, wrong
from loftwright.services.doctor_store import (
    is_still,
    look_at_clock,
    look_at_file,
    look_at_records,
    look_at_schema,
    look_who_has_it,
    schema_of,
    store_file,
)
from loftwright.services.store_copy import shown_place
from loftwright.services.studio import Studio
from loftwright.store.migrate import revision_of
from loftwright.store.schema import HEAD
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store_to_read


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a look over a studio found.

    Attributes
    ----------
    version, schema : str
        Of this program, and of the tables; empty where they cannot be read.
    checks : tuple of str
        What was looked at; the rest could not be, because of a finding.
    """

    place: str
    version: str
    schema: str
    checks: tuple[str, ...]
    findings: tuple[Finding, ...]


def look_over(data: Path, now: datetime, url: str = "") -> Looked:
    """Look a studio over, and change nothing.

    Parameters
    ----------
    data : Path
        The data folder.
    now : datetime
    url : str
        Of its PostgreSQL database; a file in the folder without it.

    Raises
    ------
    NotFoundError
        If there is no studio in the folder.
    StoreError
        If the database cannot be reached.
    """
    looking = _Looking()
    if url:
        schema = _look_in_database(looking, url, data, now)
    else:
        schema = _look_in_file(looking, data, now)
    _look_beside(looking, data, now, read=True)
    return looking.done(shown_place(url or str(data)), schema or "")


def look_beside(data: Path, now: datetime) -> Looked:
    """Look over what lies beside a store that is open, in a time that does not grow with it.

    Parameters
    ----------
    data : Path
        The data folder.
    now : datetime
    """
    looking = _Looking()
    _look_beside(looking, data, now, read=False)
    return looking.done(str(data), "")


def repair(data: Path) -> tuple[str, ...]:
    """Put right what can be without any doubt, and return what was done.

    Only its owner may open keys and backups afterwards, and what was broken off a day ago or
    longer is gone. Nothing of the store is touched.

    Raises
    ------
    OSError
        If something cannot be changed.
    """
    done = []
    for place in rights_of(data):
        place.chmod(0o700 if place.is_dir() else 0o600)
        done.append(f"only its owner may open {place} now")
    before = set(leftovers_of(data))
    remove_leftovers(data)
    done += [f"removed {one}" for one in sorted(before - set(leftovers_of(data)))]
    return tuple(done)


class _Looking:
    """What was looked at so far."""

    def __init__(self) -> None:
        self.checks: list[str] = []
        self.findings: list[Finding] = []

    def at(self, check: str, found: Iterator[Finding]) -> bool:
        """Take in what a check found, and return whether it found nothing."""
        before = len(self.findings)
        self.checks.append(check)
        try:
            self.findings += found
        except LoftwrightError as error:
            mend = error.mend or "Look at the place named."
            self.findings.append(wrong(check, error.place, "{why}", mend, why=error.message))
        except OSError as error:
            self.findings.append(
                wrong(
                    check,
                    error.filename or "",
                    "it cannot be read: {why}",
                    "Let the studio's user read it.",
                    why=error.strerror or str(error),
                )
            )
        return len(self.findings) == before

    def done(self, place: str, schema: str) -> Looked:
        """Return what was found."""
        return Looked(
            place=place,
            version=__version__,
            schema=schema,
            checks=tuple(self.checks),
            findings=tuple(self.findings),
        )


def _look_beside(looking: _Looking, data: Path, now: datetime, *, read: bool) -> None:
    looking.at("rights", look_at_rights(data))
    looking.at("leftovers", look_at_leftovers(data, now))
    looking.at("room", look_at_room(data))
    looking.at("backups", look_at_backups(data, now, read=read))


def _look_in_file(looking: _Looking, data: Path, now: datetime) -> str | None:
    file = store_file(data)
    if not file.exists():
        raise NotFoundError(
            "there is no studio in this folder",
            place=str(data),
            mend="Name the data folder of one in LOFTWRIGHT_DATA.",
        )
    looking.at("programs", look_who_has_it(file))
    looking.at("file", look_at_file(file))
    schema = schema_of(file)
    looking.at("schema", look_at_schema(schema, file))
    if schema == HEAD:
        store = open_store_to_read(data, still=is_still(file))
        try:
            _look_inside(looking, Studio(store=store, folder=data), store, now)
        finally:
            store.close()
    return schema


def _look_in_database(looking: _Looking, url: str, data: Path, now: datetime) -> str | None:
    from loftwright.store.keys import KeyRing  # noqa: PLC0415 - only where it is named
    from loftwright.store.postgres import postgres_engine  # noqa: PLC0415 - only where it is named

    engine = postgres_engine(url)
    store = SqlStore(engine, KeyRing(data), shown_place(url))
    try:
        with store.reading():
            schema = revision_of(engine)
        looking.at("schema", look_at_schema(schema, shown_place(url)))
        if schema == HEAD:
            _look_inside(looking, Studio(store=store, folder=data), store, now)
    finally:
        store.close()
    return schema


def _look_inside(looking: _Looking, studio: Studio, store: SqlStore, now: datetime) -> None:
    looking.at("clock", look_at_clock(store, now))
    if looking.at("records", look_at_records(store)):
        looking.at("keys", look_at_keys(studio))
        looking.at("shop record", look_at_record(studio))
