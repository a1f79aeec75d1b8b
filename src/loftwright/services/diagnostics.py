"""A bundle for whoever helps: what this installation is and how it is, and nobody's data."""

import io
import json
import os
import platform
import secrets
import zipfile
from collections import Counter, OrderedDict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from threading import Lock
from typing import Final

from loftwright import __version__
from loftwright.errors import LoftwrightError, NotFoundError
from loftwright.services.data_folder import data_folder
from loftwright.services.doctor import Looked
from loftwright.services.health import Health, health_record, newest_backup, room_in
from loftwright.services.log_lines import instant, trace_of
from loftwright.services.log_tail import log_tail
from loftwright.services.program_log import log_files
from loftwright.services.settings import Settings, read_settings
from loftwright.services.studio import Studio

LIBRARIES: Final = (
    *("alembic", "cryptography", "duckdb", "fastapi", "jinja2", "numba", "numpy", "psycopg"),
    *("pydantic", "scipy", "sqlalchemy", "starlette", "typst", "uvicorn", "vl-convert-python"),
)
_KEPT: Final = 4
_README: Final = """\
This is what Loftwright says of itself, made {at} for whoever helps.

{parts}

It holds no golfer, fitting, ball, name, address, note, label or file of the studio. Names of the
shop, its bays, its devices and its fitters are left out; the id of a device in the log is called
by a random word of this bundle alone. Read it before you pass it on.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A file of the bundle.

    Attributes
    ----------
    says : str
        What it is, in words.
    """

    name: str
    says: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """A bundle as it would be saved."""

    made: datetime
    parts: tuple[Part, ...]

    @property
    def name(self) -> str:
        """Name of its file."""
        return f"loftwright-help-{self.made:%Y%m%d-%H%M%S}.zip"

    def data(self) -> bytes:
        """Return the file: the parts, and nothing beside them."""
        out = io.BytesIO()
        at = self.made.timetuple()[:6]
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
            for part in self.parts:
                entry = zipfile.ZipInfo(part.name, at)
                entry.compress_type = zipfile.ZIP_DEFLATED
                made.writestr(entry, part.text)
        return out.getvalue()


class Bundles:
    """Bundles that were shown, so that what is saved is what was read."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._shown: OrderedDict[str, Bundle] = OrderedDict()

    def show(self, bundle: Bundle) -> str:
        """Keep a bundle for a while, and return under which name it can be had."""
        name = sha256(bundle.data()).hexdigest()[:16]
        with self._lock:
            self._shown[name] = bundle
            while len(self._shown) > _KEPT:
                self._shown.popitem(last=False)
        return name

    def shown(self, name: str) -> Bundle:
        """Return a bundle that was shown.

        Raises
        ------
        NotFoundError
            If it is not kept any more.
        """
        with self._lock:
            found = self._shown.get(name)
        if found is None:
            raise NotFoundError(
                "this bundle is not kept any more",
                place="bundle",
                mend="Make it again on the page Settings, and save it there.",
            )
        return found


def make_bundle(
    at: datetime,
    folder: Path,
    log_file: Path,
    *,
    studio: Studio | None,
    health: Health | None = None,
    looked: Looked | None = None,
    trouble: LoftwrightError | None = None,
) -> Bundle:
    """Return a bundle of what an installation is and how it is.

    What cannot be read is told by the kind of its error, and the rest stands in the bundle.

    Parameters
    ----------
    at : datetime
        The instant.
    folder : Path
        The data folder.
    log_file : Path
        The file of the program's log.
    studio : Studio, optional
        None where it cannot be opened.
    health : Health, optional
        As the running studio says it.
    looked : Looked, optional
        As the doctor found it.
    trouble : LoftwrightError, optional
        Why the studio cannot be opened; only its kind is told.
    """
    tail = log_tail(log_files(log_file), secrets.token_hex(16))
    parts = (
        _part(
            "installation.json",
            "version, schema, database, Python, system, libraries, room on the disk",
            lambda: _installation(at, folder, studio, looked, trouble),
        ),
        *(_parts_of(studio) if studio is not None else ()),
        *_parts_of_looks(health, looked),
        Part(
            name="log.txt",
            says="the end of the program’s log, filtered once more",
            text=tail or "No log was written.\n",
        ),
    )
    return Bundle(made=at, parts=(_readme(at, parts), *parts))


def _readme(at: datetime, parts: tuple[Part, ...]) -> Part:
    listed = "\n".join(f"{part.name}: {part.says}." for part in parts)
    text = _README.format(at=instant(at), parts=listed)
    return Part(name="README.txt", says="what this is, and what is not in it", text=text)


def _parts_of(studio: Studio) -> tuple[Part, ...]:
    return (
        _part(
            "settings.json",
            "units, conventions and what devices measure, without names",
            lambda: _settings(read_settings(studio).settings),
        ),
        _part("rows.json", "how many rows each table of the store has", studio.store.rows),
    )


def _parts_of_looks(health: Health | None, looked: Looked | None) -> Iterator[Part]:
    if health is not None:
        says = "how the studio is: store, disk, backup, threads"
        yield _part("health.json", says, partial(health_record, health))
    if looked is not None:
        says = "what was looked over and what was found, without names and places"
        yield _part("doctor.json", says, partial(_findings, looked))


def _part(name: str, says: str, make: Callable[[], object]) -> Part:
    """Return a part; where it cannot be made, why, without what an error says."""
    try:
        record = make()
    except Exception as error:  # noqa: BLE001 - whatever is broken, help is asked for just then
        record = {"cannot_be_read": _kind_of(error), "trace": trace_of(error)}
    return Part(name=name, says=says, text=_json(record))


def _kind_of(error: Exception) -> str:
    return error.kind if isinstance(error, LoftwrightError) else type(error).__name__


def _findings(looked: Looked) -> dict[str, object]:
    """Return what the doctor found, alike findings once with how many there are."""
    times = Counter((one.check, one.severity.value, one.without_names) for one in looked.findings)
    return {
        "checks": list(looked.checks),
        "findings": [
            {"check": check, "severity": severity, "says": says, "times": many}
            for (check, severity, says), many in times.items()
        ],
    }


def _installation(
    at: datetime,
    folder: Path,
    studio: Studio | None,
    looked: Looked | None,
    trouble: LoftwrightError | None,
) -> dict[str, object]:
    backup, room = newest_backup(folder, at), room_in(folder)
    return {
        "version": __version__,
        "schema": _schema(studio) or (looked.schema if looked is not None else None) or None,
        "database": studio.store.database if studio is not None else None,
        "cannot_be_opened": trouble.kind if trouble is not None else None,
        "usual_folder": folder == data_folder(),
        "room_mb": None if room is None else room // 1_000_000,
        "newest_backup": None if backup is None else instant(backup),
        "python": platform.python_version(),
        "implementation": platform.python_implementation(),
        "system": platform.system(),
        "release": platform.release(),
        "machine": platform.machine(),
        "processors": os.cpu_count(),
        "libraries": {name: _version_of(name) for name in LIBRARIES},
    }


def _schema(studio: Studio | None) -> str | None:
    if studio is None:
        return None
    try:
        return studio.store.schema()
    except LoftwrightError:
        return None


def _settings(settings: Settings) -> dict[str, object]:
    return {
        "units": settings.units,
        "decimal": settings.decimal,
        "zone": settings.zone,
        "sleeve_convention": settings.convention.value,
        "bays": len(settings.bays),
        "fitters_with_readings": len(settings.mark_errors),
        "devices": [
            {
                "columns": {name: origin.value for name, origin in one.origins.items()},
                "mark_error_mm": round(one.mark_error * 1000.0, 3),
            }
            for one in settings.devices
        ],
    }


def _version_of(library: str) -> str | None:
    try:
        return version(library)
    except PackageNotFoundError:
        return None


def _json(record: object) -> str:
    return f"{json.dumps(record, ensure_ascii=False, allow_nan=False, indent=2)}\n"
