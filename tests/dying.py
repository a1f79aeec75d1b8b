"""A program that works on a studio and says each thing that was answered for; made to be killed.

It waits for lines that name a job, a data folder, the address of a database and the number of the
first thing, and has a child do each of them: to load the program again for every kill would take
minutes.
"""

import os
import sys
import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import timedelta
from importlib import import_module
from pathlib import Path
from types import MappingProxyType

from kept_studios import NOW
from loftwright.domain.acts import HandedOver, Marked, Rested, SettingSeen
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError, StoreError
from loftwright.services.acting import act, undo
from loftwright.services.backup import backups_in, make_backup
from loftwright.services.backup_files import FOLDER as BACKUPS
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.services.restore import restore
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio
from loftwright.services.watching import Watches
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store

FITTING = "FITTING"
"""File of the data folder that names the fitting to write to."""
AGAIN = 0.02
"""Seconds until a sender that was refused sends again."""
PARTS, BALLS = 8, 8
"""Golfers of the shop record, so that fittings meet in one file, and balls of each fitting."""


def studio_of(folder: Path, address: str) -> Studio:
    """Open a studio in its file or its database."""
    store = open_postgres(address, folder) if address else open_store(folder)
    return Studio(store=store, folder=folder)


def insist(write: Callable[[], object]) -> None:
    """Write until it is answered for, as a sender does whose database was away."""
    while True:
        try:
            write()
        except ConflictError:
            raise
        except StoreError:
            time.sleep(AGAIN)
        else:
            return


def marking(folder: Path, address: str, start: int) -> None:
    """Write a mark and what goes with it under one key, and undo every third."""
    studio, number = studio_of(folder, address), start
    fitting = (folder / FITTING).read_text()
    say("open")
    while True:
        key = str(number)
        acts = [
            HandedOver(club="Ash"),
            SettingSeen(setting="middle"),
            Marked(mark=Mark(toe=number * 1e-8, high=0.001)),
            Rested(),
        ]
        insist(lambda acts=acts, key=key: act(studio, fitting, acts, key=key))  # type: ignore[misc]
        say(key)
        if number % 3 == 0:
            entry = next(one for one in reversed(studio.record(fitting)) if one.key == key)
            insist(
                lambda entry=entry, key=key: undo(  # type: ignore[misc]
                    studio, fitting, entry.sequence, key=f"undo {key}", seen=None
                )
            )
            say(f"undo {key}")
        number += 1


def balls(folder: Path, address: str, start: int) -> None:
    """Take balls as a feed tells them."""
    studio, number = studio_of(folder, address), start
    fitting = (folder / FITTING).read_text()
    say("open")
    while True:
        ball = Incoming(
            numbers=ShotNumbers(ball_speed=float(number)), key=str(number), line=f"line {number}"
        )
        insist(lambda ball=ball: take(studio, fitting, ball, source="feed"))  # type: ignore[misc]
        say(str(number))
        number += 1


def watching(folder: Path, address: str, start: int) -> None:
    """Take what stands in a watched folder, and say when a look is over."""
    del start
    studio = studio_of(folder, address)
    watches = Watches(studio)
    watches.resume()
    say("open")
    while True:
        taken = watches.look()
        say(f"looked {taken}")


def golfers(folder: Path, address: str, start: int) -> None:
    """Write golfers down, each with a club of their own and a fitting."""
    studio, number = studio_of(folder, address), start
    say("open")
    while True:
        visitor = Visitor(
            golfer=Golfer(id=""),
            identity=Identity(name=f"Nobody {number}"),
            limits="sore wrist (invented)",
            own=OwnClub(loft=0.18, length=1.15, head="Old Harrow", shaft="Old Reed"),
        )
        fitting = open_for_new(studio, visitor, bay="Bay 3")
        say(f"{number} {fitting.id}")
        say(str(number))
        number += 1


def bringing_up(folder: Path, address: str, start: int) -> None:
    """Open a studio that an older program left, and say so."""
    del start
    say("opening")
    studio_of(folder, address)
    say("open")
    time.sleep(60.0)


def backing_up(folder: Path, address: str, start: int) -> None:
    """Take a ball, then back up, and say which file has it."""
    studio, number = studio_of(folder, address), start
    fitting = (folder / FITTING).read_text()
    say("open")
    while True:
        ball = Incoming(numbers=ShotNumbers(ball_speed=float(number)), key=str(number))
        take(studio, fitting, ball, source="feed")
        say(f"{number} {make_backup(studio, studio.clock()).path.name}")
        say(str(number))
        number += 1


def restoring(folder: Path, address: str, start: int) -> None:
    """Put a studio back from its only backup, and say so."""
    (file,) = backups_in(folder / BACKUPS)
    say("opening")
    restore(file.path, folder, NOW + timedelta(minutes=start), url=address, over=True)
    say("open")
    time.sleep(60.0)


def recording(folder: Path, address: str, start: int) -> None:
    """Write fittings into the shop record."""
    from loftwright.shop.record import keep  # noqa: PLC0415 - slow to load, for this job alone
    from shop_samples import a_fitting, shaft_effects  # noqa: PLC0415 - as above

    del address
    number, effects = start, shaft_effects(7)
    say("open")
    while True:
        one = a_fitting(number, effects, balls=BALLS)
        keep(folder, replace(one, golfer=f"golfer {number % PARTS}"))
        say(str(number))
        number += 1


JOBS: Mapping[str, Callable[[Path, str, int], None]] = MappingProxyType(
    {
        "marking": marking,
        "balls": balls,
        "watching": watching,
        "golfers": golfers,
        "bringing_up": bringing_up,
        "backing_up": backing_up,
        "restoring": restoring,
        "recording": recording,
    }
)


def say(word: str) -> None:
    """Write a word on a line of its own."""
    sys.stdout.write(f"{word}\n")
    sys.stdout.flush()


def main() -> None:
    """Have a child do each line's job, and say when it is gone."""
    for name in sys.argv[1:]:
        import_module(name)
    for line in sys.stdin:
        job, folder, address, start = line.rstrip("\n").split("\t")
        child = os.fork()
        if child == 0:
            JOBS[job](Path(folder), address, int(start))
        say(f"child {child}")
        os.waitpid(child, 0)
        say("gone")


if __name__ == "__main__":
    main()
