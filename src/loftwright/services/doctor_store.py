"""Look over a studio's store: its file, its schema, every record, the clock, who has it open."""

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

from sqlalchemy.exc import DatabaseError

from loftwright.errors import LoftwrightError
from loftwright.services.doctor_finding import Finding, doubt, wrong
from loftwright.services.records_read import read_everything
from loftwright.store.codec import instant_of
from loftwright.store.engine import FILE, sqlite_reader
from loftwright.store.migrate import SCRIPTS, revision_of
from loftwright.store.schema import HEAD
from loftwright.store.snapshot import faults
from loftwright.store.sql import SqlStore

AHEAD: Final = timedelta(minutes=5)
"""An act may be so much newer than the clock says."""
_RESTORE: Final = "Restore the newest backup with `loftwright restore`, into another folder first."


def is_still(file: Path) -> bool:
    """Return whether a store was closed in order, so that its file alone holds everything."""
    return not file.with_name(f"{file.name}-wal").exists()


def look_at_file(file: Path) -> Iterator[Finding]:
    """Have the database look over the store's file: pages, indexes, what names what."""
    more = "&immutable=1" if is_still(file) else ""
    try:
        with closing(
            sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro{more}", uri=True)
        ) as door:
            found = faults(door)
    except sqlite3.DatabaseError as error:
        found = (str(error),)
    for one in found:
        yield wrong("file", file, "the database finds: {what}", _RESTORE, what=one)


def schema_of(file: Path) -> str | None:
    """Return the revision of the store in a file; None where it cannot be read or has none."""
    engine = sqlite_reader(file, still=is_still(file))
    try:
        return revision_of(engine)
    except DatabaseError:
        return None
    finally:
        engine.dispose()


def look_at_schema(stands: str | None, place: object) -> Iterator[Finding]:
    """Say whether this version reads the store."""
    if stands is None:
        yield wrong("schema", place, "there are no tables of a studio in it", _RESTORE)
    elif not (SCRIPTS / "versions" / f"r{stands}.py").exists():
        yield wrong(
            "schema",
            place,
            "it has schema {stands}, and this version knows schemas up to {head}",
            "Install the newer version of Loftwright that wrote it.",
            stands=stands,
            head=HEAD,
        )
    elif stands != HEAD:
        yield doubt(
            "schema",
            place,
            "it has schema {stands}, and this version writes schema {head}",
            "`loftwright serve` brings it up, after a backup.",
            stands=stands,
            head=HEAD,
        )


def look_at_records(store: SqlStore) -> Iterator[Finding]:
    """Read everything the store holds."""
    try:
        read = read_everything(store)
    except LoftwrightError as error:
        yield wrong("records", error.place, "{why}", _RESTORE, why=error.message)
        return
    for one in read.faults:
        yield wrong("records", one.place, "{why}", _RESTORE, why=one.why)


def look_at_clock(store: SqlStore, now: datetime) -> Iterator[Finding]:
    """Say whether anything was written later than it is now."""
    newest = store.newest_instant()
    if newest and instant_of(newest) > now + AHEAD:
        yield doubt(
            "clock",
            "clock of this machine",
            "the newest act was written at {newest}, and it is {now}",
            "Set the clock of this machine; order in the records does not rest on it.",
            newest=newest[:16],
            now=now.isoformat()[:16],
        )


def look_who_has_it(file: Path) -> Iterator[Finding]:
    """Say whether two programs have the store's file open, where the platform tells."""
    holders = programs_on(file)
    if len(holders) > 1:
        yield wrong(
            "programs",
            file,
            "{many} programs have it open: {processes}",
            "Stop all but one: pages of one do not hear what the other writes. Several bays share "
            "a PostgreSQL database.",
            many=len(holders),
            processes=", ".join(map(str, holders)),
        )


def programs_on(file: Path) -> tuple[int, ...]:
    """Return the processes that have a file open, as far as this user may see."""
    if sys.platform != "linux":
        return ()
    wanted = str(file.resolve())
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        try:
            held = any(str(one.readlink()) == wanted for one in (process / "fd").iterdir())
        except OSError:
            continue
        if held:
            found.append(int(process.name))
    return tuple(sorted(found))


def store_file(data: Path) -> Path:
    """Return the file of a data folder's store."""
    return data / FILE
