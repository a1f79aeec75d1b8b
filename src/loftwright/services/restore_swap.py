"""Put a restored studio in the place of the one that stands, so that a kill leaves one of both.

What is to be done is written down before anything is moved. Whoever opens the studio next does
what is left of it; each step is done or not done, and is found to be by looking.
"""

import json
import os
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError
from loftwright.intake.files import write_whole
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.summaries import FOLDER as CACHE
from loftwright.shop.turns import turn
from loftwright.store.engine import FILE as STORE
from loftwright.store.tombstones import settle

PLAN: Final = "restoring.json"
"""In the data folder, from when a restored studio is whole until it is in its place."""
FRESH: Final = ".restored-"
FORMER: Final = "before-restore-"
LOGS: Final = tuple(f"{STORE}{more}" for more in ("-wal", "-shm", "-journal"))
"""What the database lays beside a store; that of one store would ruin another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is to be moved.

    Attributes
    ----------
    fresh : str
        Folder in the data folder with what was restored.
    former : str
        Folder in the data folder that is given what stood; none is left where nothing did.
    away : tuple of str
        What stood and has nothing in its place afterwards.
    come : tuple of str
        What is put in its place.
    """

    fresh: str
    former: str
    away: tuple[str, ...]
    come: tuple[str, ...]


def put_in_place(data: Path, plan: Plan) -> None:
    """Write the plan down and carry it out; the caller holds the store against others.

    Raises
    ------
    OSError
        If something cannot be moved; what is left is done when the studio is opened next.
    """
    told = {
        "fresh": plan.fresh,
        "former": plan.former,
        "away": list(plan.away),
        "come": list(plan.come),
    }
    write_whole(data / PLAN, json.dumps(told, indent=1).encode() + b"\n")
    settle(data)
    _carry_out(data, plan)


def finish_restore(data: Path) -> bool:
    """Do what is left of a restore that was killed, and return whether there was one.

    Raises
    ------
    StoreError
        If its plan cannot be read, or something cannot be moved.
    """
    if not (data / PLAN).exists():
        return False
    try:
        with turn(data / BACKUPS):
            if not (data / PLAN).exists():
                return False
            _carry_out(data, _plan_in(data))
    except OSError as error:
        raise StoreError(
            f"a restore that was broken off cannot be finished: {error.strerror or error}",
            place=str(error.filename or data),
            mend="Make the data folder writable and free some space, then start again.",
        ) from error
    return True


def _plan_in(data: Path) -> Plan:
    try:
        told = json.loads((data / PLAN).read_bytes())
        plan = Plan(
            fresh=told["fresh"],
            former=told["former"],
            away=tuple(told["away"]),
            come=tuple(told["come"]),
        )
        names = (plan.fresh, plan.former, *plan.away, *plan.come)
        plain = all(Path(name).name == name for name in names)
    except (ValueError, KeyError, TypeError):
        plain = False
    if not plain:
        raise StoreError(
            "a restore was broken off, and what was left to do cannot be read",
            place=str(data / PLAN),
            mend=f"What was restored lies in {FRESH}…, what stood in {FORMER}…: move one of them "
            "back by hand, remove this file, and run `loftwright doctor`.",
        )
    return plan


def _carry_out(data: Path, plan: Plan) -> None:
    fresh, former = data / plan.fresh, data / plan.former
    former.mkdir(mode=0o700, exist_ok=True)
    for name in plan.away:
        # Left by a kill it stands no more; nothing new bears its name before all is done.
        _move(data / name, former / name)
    for name in plan.come:
        if (fresh / name).exists():
            _move(data / name, former / name)
            _move(fresh / name, data / name)
    if (data / CACHE).exists():
        # Worked out from records of the store that stood; those that come may have the same ends.
        shutil.rmtree(data / CACHE)
    settle(former)
    if not any(former.iterdir()):
        former.rmdir()
    settle(data)
    (data / PLAN).unlink()
    settle(data)
    shutil.rmtree(fresh, ignore_errors=True)


def _move(what: Path, to: Path) -> None:
    if what.exists():
        os.rename(what, to)  # noqa: PTH104 - beside the other calls that settle
