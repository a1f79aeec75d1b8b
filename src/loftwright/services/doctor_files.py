"""Look over what lies beside the store: keys, the shop record, room, rights, backups."""

import os
import shutil
import stat
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

from loftwright.errors import LoftwrightError
from loftwright.services.backup import sweep
from loftwright.services.backup_files import DRAFT, FOLDER, backups_in
from loftwright.services.backup_state import backup_state
from loftwright.services.backup_tar import read_backup
from loftwright.services.doctor_finding import Finding, doubt, wrong
from loftwright.services.key_copies import copies_of, names_in
from loftwright.services.restore_aside import put_aside_in
from loftwright.services.restore_swap import FRESH, PLAN
from loftwright.services.rotation import AHEAD
from loftwright.services.shop_folder import may_stand, place_of, record_folder, record_trouble
from loftwright.services.shop_learning import learned_versions, read_learned
from loftwright.services.studio import Studio
from loftwright.shop.record import standing
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.tombstones import was_erased

OLD: Final = timedelta(days=3)
"""Without a backup for so long something keeps the daily one from being made (judgement)."""
ROOM: Final = 1_000_000_000
"""Bytes that should be free (judgement)."""
_PRIVATE: Final = stat.S_IRWXG | stat.S_IRWXO


def look_at_keys(studio: Studio) -> Iterator[Finding]:
    """Say whose key is not there though they were not erased, and which keys are nobody's."""
    data = studio.folder
    golfers = {one.value.id for one in studio.store.golfers()}
    there, copied = set(names_in(data / KEYS)), set(names_in(copies_of(data)))
    for golfer in sorted(golfers - there):
        if was_erased(data, golfer):
            continue
        place = data / KEYS / f"{golfer}.key"
        if golfer in copied:
            yield wrong(
                "keys",
                place,
                "this golfer's key is gone, and a copy of it is still there",
                f"Copy {copies_of(data) / place.name} to its place, unless the golfer was erased "
                "on purpose; the copy goes a week after the key.",
            )
        else:
            yield wrong(
                "keys",
                place,
                "this golfer's key is gone, and nothing says that the golfer was erased",
                "If you have a copy of the folder `keys`, put it back; else the name is lost.",
            )
    for golfer in sorted(there - golfers):
        yield doubt(
            "keys",
            data / KEYS / f"{golfer}.key",
            "this key is of no golfer in the store",
            "It is of a golfer who came after the backup that was restored; keep it while an "
            "older store of this studio may come back.",
        )


def look_at_rights(data: Path) -> Iterator[Finding]:
    """Say what of a data folder others on this machine may read."""
    for place in rights_of(data):
        yield wrong(
            "rights",
            place,
            "others on this machine may open it (mode {mode:03o})",
            "`loftwright doctor --repair` lets in its owner alone.",
            mode=place.stat().st_mode & 0o777,
        )
    if data.exists() and not os.access(data, os.W_OK):
        yield wrong(
            "rights", data, "the data folder cannot be written", "Make it writable for its user."
        )


def rights_of(data: Path) -> tuple[Path, ...]:
    """Return keys, copies of keys and backups that others than their owner may open."""
    if os.name == "nt":
        return ()
    folders = [one for one in (data / KEYS, data / FOLDER, copies_of(data)) if one.is_dir()]
    files = [one for folder in folders for one in folder.iterdir() if one.is_file()]
    mine = [one for one in files if one.suffix in {".key", ".gz"}]
    return tuple(one for one in (*folders, *mine) if one.stat().st_mode & _PRIVATE)


def look_at_leftovers(data: Path, now: datetime) -> Iterator[Finding]:
    """Say what was given up or put aside, and whether a restore waits to be finished."""
    if (data / PLAN).exists():
        yield wrong(
            "leftovers",
            data / PLAN,
            "a restore was broken off before all was in its place",
            "`loftwright serve` finishes it before it opens the studio.",
        )
        return
    for place in leftovers_of(data):
        yield doubt(
            "leftovers",
            place,
            "it was begun by a backup or a restore that was broken off",
            "`loftwright doctor --repair` removes it, once it is a day old.",
        )
    yield from _put_aside(data, now)


def _put_aside(data: Path, now: datetime) -> Iterator[Finding]:
    mend = "Remove the folder yourself once nothing is missing in the studio that was restored."
    for one in put_aside_in(data):
        if one.at > now + AHEAD:
            yield wrong(
                "leftovers",
                one.path,
                "a restore put it aside on a day that is still to come by this machine's clock, "
                f"and it stays until {one.goes:%Y-%m-%d}",
                f"Set the clock of this machine. {mend}",
            )
        elif one.goes + OLD < now:
            yield wrong(
                "leftovers",
                one.path,
                f"a restore put it aside, and it should have gone on {one.goes:%Y-%m-%d}",
                f"Run `loftwright backup`, which removes it. {mend}",
            )
        else:
            yield doubt(
                "leftovers",
                one.path,
                "it is what stood before a restore, and the first backup after "
                f"{one.goes:%Y-%m-%d %H:%M} UTC removes it",
                mend,
            )


def leftovers_of(data: Path) -> tuple[Path, ...]:
    """Return what backups and restores that were broken off left."""
    return (*sorted((data / FOLDER).glob(f"{DRAFT}*")), *sorted(data.glob(f"{FRESH}*")))


def remove_leftovers(data: Path) -> int:
    """Remove what was broken off a day ago or longer; return how many that was."""
    if (data / PLAN).exists():
        return 0
    return sweep(data / FOLDER) + sweep(data, begins=FRESH)


def look_at_room(data: Path) -> Iterator[Finding]:
    """Say whether the disk is nearly full."""
    free = shutil.disk_usage(data).free
    if free < ROOM:
        yield doubt(
            "room",
            data,
            "{room} MB are free",
            "Free some space before the next fitting; a full disk refuses balls, and loses none "
            "that was answered for.",
            room=free // 1_000_000,
        )


def look_at_backups(data: Path, now: datetime, *, read: bool = True) -> Iterator[Finding]:
    """Say whether the newest backup is recent and whole, and whether the daily one fails.

    Parameters
    ----------
    data : Path
    now : datetime
    read : bool
        Whether it is read to its end; else nothing is said of what is in it.
    """
    folder, state = data / FOLDER, backup_state(data)
    if state.trouble:
        yield wrong(
            "backups",
            folder,
            "the daily backup fails since {since:%Y-%m-%d}: {why}",
            "Do what it says, then run `loftwright backup`.",
            since=state.trouble.since,
            why=state.trouble.why,
        )
    found = backups_in(folder)
    if not found:
        yield doubt("backups", folder, "there is no backup yet", "Run `loftwright backup`.")
        return
    newest = found[0]
    if now - newest.at > OLD:
        yield wrong(
            "backups",
            newest.path,
            "the newest backup is {days} days old",
            "Run `loftwright backup`, and leave the studio open for a quiet minute a day.",
            days=(now - newest.at).days,
        )
    if not read:
        return
    try:
        read_backup(newest.path)
    except (LoftwrightError, OSError) as error:
        said = error.message if isinstance(error, LoftwrightError) else error.strerror
        yield wrong(
            "backups",
            newest.path,
            "the newest backup is damaged: {why}",
            "Make another.",
            why=said,
        )


def look_at_record(studio: Studio) -> Iterator[Finding]:
    """Hold the shop record against the store, and read what was learned from it."""
    folder = record_folder(studio)
    mend = "`loftwright serve` puts it right when it opens the studio."
    for _, why in sorted(record_trouble(studio).items()):
        yield doubt("shop record", folder, "it could not be written: {why}", mend, why=why)
    try:
        there = set(standing(folder))
        for version in learned_versions(studio):
            read_learned(studio, version)
    except LoftwrightError as error:
        yield wrong("shop record", error.place or folder, "{why}", error.mend, why=error.message)
        return
    known = {one.value.id: one.value for one in studio.store.fittings()}
    for fitting, code in sorted(there):
        kept = known.get(fitting)
        if kept is None:
            why = "it holds a fitting that the store does not know"
            yield doubt("shop record", fitting, why, "Run `loftwright shop record`.")
        elif not may_stand(studio, kept) or place_of(studio, kept) != (fitting, code):
            yield wrong(
                "shop record", fitting, "it holds a fitting that may not stand in it", mend
            )
