"""What a backup is: its name, its list of what is in it, and what it may never hold."""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

from loftwright.errors import IntakeError
from loftwright.services.data_folder import MAPPINGS
from loftwright.services.named_instants import instant_in, name_of_instant
from loftwright.services.shop_folder import FOLDER as SHOP
from loftwright.services.training_plays import FOLDER as PLAYS
from loftwright.services.training_room import FOLDER as TRAINING
from loftwright.store.engine import FILE as STORE

FOLDER: Final = "backups"
"""In the data folder."""
MANIFEST: Final = "MANIFEST.json"
FORM: Final = "loftwright backup 1"
ENDING: Final = ".tar.gz"
DRAFT: Final = ".loftwright-new-"
"""How the names of what is not whole yet begin, also on a drive with files of others."""
MAKING: Final = "backing-up"
"""In the data folder: held by the server that makes the backup of the day."""
TROUBLE: Final = "trouble.json"
"""In the folder of backups: since when the daily backup fails, and why."""

MOST_MEMBER: Final = 8 * 1024**3 - 1
"""Bytes of one file: the most that a tar without extensions can say."""
MOST_BYTES: Final = 32 * 1024**3
MOST_RATIO: Final = 100
"""Times as large unpacked as packed, beyond `SLACK`; a store packs to a third or less."""
SLACK: Final = 16 * 1024**2
MOST_MEMBERS: Final = 200_000
MOST_MANIFEST: Final = 64 * 1024**2

TOPS: Final = (STORE, MAPPINGS, SHOP, TRAINING)
"""What of a data folder a backup holds: the store, columns, the shop record, the practice."""
_INSIDE: Final = re.compile(
    "|".join(
        (
            re.escape(STORE),
            re.escape(MAPPINGS),
            rf"{SHOP}/.+",
            rf"{TRAINING}/{re.escape(STORE)}",
            rf"{TRAINING}/{PLAYS}/[^/]+\.json",
        )
    )
)
_PART: Final = re.compile(r"[A-Za-z0-9_=()+,@%~ -][A-Za-z0-9_=()+,@%~. -]*")
_NAME: Final = re.compile(
    r"loftwright-(?P<at>\d{8}-\d{6})(?P<before>-before-[0-9]{4})?" + re.escape(ENDING)
)
_DIGEST: Final = re.compile("[0-9a-f]{64}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A file of a backup."""

    name: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """What a backup says of itself.

    Attributes
    ----------
    program : str
        Version that wrote it.
    schema : str
        Revision of the store's tables.
    made_at : str
        Instant in UTC, as ISO 8601.
    counts : mapping of str to int
        Rows of each table of the store.
    members : tuple of Member
        In the order in which they follow.
    """

    program: str
    schema: str
    made_at: str
    counts: Mapping[str, int]
    members: tuple[Member, ...]

    @property
    def whole(self) -> str:
        """SHA-256 over the names, sizes and sums of all members."""
        told = "".join(f"{one.sha256} {one.size} {one.name}\n" for one in self.members)
        return sha256(told.encode()).hexdigest()

    @property
    def size(self) -> int:
        """Bytes of all members."""
        return sum(one.size for one in self.members)


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupFile:
    """A backup as its name tells it.

    Attributes
    ----------
    at : datetime
        When it was made, in UTC.
    before : bool
        Whether it was made before a newer version changed the tables.
    """

    path: Path
    at: datetime
    before: bool


def backup_name(at: datetime, before: str = "") -> str:
    """Return the name of a backup of an instant; `before` is the schema that was to come."""
    more = f"-before-{before}" if before else ""
    return f"loftwright-{name_of_instant(at)}{more}{ENDING}"


def backups_in(folder: Path) -> tuple[BackupFile, ...]:
    """Return the backups of a folder, the newest first; what has another name is none.

    Parameters
    ----------
    folder : Path
        That in which the files lie; it need not exist.
    """
    found = []
    for path in folder.glob(f"loftwright-*{ENDING}"):
        name = _NAME.fullmatch(path.name)
        at = instant_in(name["at"]) if name else None
        if name and at is not None and path.is_file():
            found.append(BackupFile(path=path, at=at, before=bool(name["before"])))
    return tuple(sorted(found, key=lambda one: (one.at, one.path.name), reverse=True))


def manifest_bytes(manifest: Manifest) -> bytes:
    """Return a manifest as it stands in the file."""
    record = {"form": FORM, **asdict(manifest), "sha256": manifest.whole}
    return json.dumps(record, indent=1, sort_keys=True).encode() + b"\n"


def manifest_of(raw: bytes, place: str) -> Manifest:
    """Return what a manifest says.

    Raises
    ------
    IntakeError
        If it is not that of a backup of Loftwright, or says what cannot be.
    """
    try:
        record = json.loads(raw)
        if record["form"] != FORM:
            raise no_backup(f"its form is {str(record['form'])[:60]!r}", place)
        manifest = _manifest(record)
        same = record["sha256"] == manifest.whole
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise no_backup("its list of files cannot be read", place) from error
    if not same:
        raise no_backup("its list of files does not fit its own sum", place)
    _check_members(manifest.members, place)
    return manifest


def _manifest(record: Mapping[str, Any]) -> Manifest:
    members = tuple(
        Member(name=str(one["name"]), size=_whole(one["size"]), sha256=str(one["sha256"]))
        for one in record["members"]
    )
    return Manifest(
        program=str(record["program"]),
        schema=str(record["schema"]),
        made_at=datetime.fromisoformat(record["made_at"]).isoformat(),
        counts={str(name): _whole(rows) for name, rows in record["counts"].items()},
        members=members,
    )


def _whole(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise ValueError(value)
    return value


def _check_members(members: Iterable[Member], place: str) -> None:
    names: set[str] = set()
    for one in members:
        check_name(one.name, place)
        if one.name in names or not _DIGEST.fullmatch(one.sha256):
            raise no_backup(f"its list names {one.name!r} twice or without a sum", place)
        if one.size > MOST_MEMBER:
            raise no_backup(f"{one.name!r} would be {one.size} bytes long", place)
        names.add(one.name)
    if STORE not in names:
        raise no_backup("it holds no store", place)


def check_name(name: str, place: str) -> None:
    """Refuse the name of a file that does not belong into a backup.

    Raises
    ------
    IntakeError
        If it leads out of the data folder, or to something that no backup holds.
    """
    parts = name.split("/")
    if not all(_PART.fullmatch(part) for part in parts) or not _INSIDE.fullmatch(name):
        raise no_backup(f"it holds {name[:120]!r}, which belongs into no backup", place)


def no_backup(why: str, place: str) -> IntakeError:
    """Return the error for a file that is no backup, or not a whole one."""
    return IntakeError(
        f"this is no whole backup of Loftwright: {why}",
        place=place,
        mend="Take another backup, or fetch this one again from where it was kept; nothing was "
        "changed.",
    )
