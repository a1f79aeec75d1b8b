"""Kills of a program that backs a studio up or puts one back, and what is there afterwards."""

from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Final

from crashes import APART, Kills, Outcome, made, sound, with_fitting
from doomed import Doomed
from kept_studios import NOW, a_backup, a_studio
from loftwright.domain.acts import NotRead, ShotArrived
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import IntakeError
from loftwright.services.backup import backups_in
from loftwright.services.backup_files import FOLDER
from loftwright.services.backup_tar import read_backup
from loftwright.services.opening import open_studio
from loftwright.services.restore import restore
from loftwright.services.restore_swap import PLAN
from loftwright.store.sqlite import open_store

MOST: Final = 4
"""Backups before a kill, at most."""
THEN: Final = 3
"""Balls that a backup has."""
SINCE: Final = 2
"""Balls that came after it."""


def kill_backing_up(
    program: Doomed, folder: Path, address: str, chance: Random, kills: Kills
) -> Outcome:
    """Kill a program while it backs up; each backup that it named is whole and has its ball."""
    with_fitting(folder, address)
    named: dict[str, str] = {}
    newest = []
    for first, word in replace(kills, most=min(kills.most, MOST)).drawn(chance):
        said = program.killed(
            "backing_up", folder, address, first, word=word, after=chance.uniform(0.0, 0.4)
        )
        told = dict(one.split(" ")[::-1] for one in said if " " in one)
        named |= told
        newest += list(told)[-1:]
    there = {one.path.name: one.path for one in backups_in(folder / FOLDER)}
    broken = [name for name, path in there.items() if not reads(path)]
    for name in newest:
        assert named[name] in keys_in(there[name], folder.parent / f"{folder.name}-{name}")
    found = made("backing up", address, kills, set(named), list(there), 1)
    return replace(found, half=tuple(broken))


def reads(file: Path) -> bool:
    """Return whether a backup is whole."""
    try:
        read_backup(file)
    except IntakeError:
        return False
    return True


def keys_in(file: Path, into: Path) -> set[str]:
    """Restore a backup into a folder of its own and return the keys of what it holds."""
    restore(file, into, NOW)
    store = open_store(into)
    found = {
        entry.key for one in store.fittings() for entry in store.record(one.value.id) if entry.key
    }
    store.close()
    sound(into, "")
    return found


def kill_restoring(program: Doomed, folder: Path, chance: Random, kills: Kills) -> Outcome:
    """Kill a program while it puts a studio back; all of one studio or the other is there."""
    a_studio(folder, golfers=1, balls=THEN)
    a_backup(folder)
    kept, half = 0, []
    for kill in range(1, kills.count + 1):
        more(folder, kill)
        program.killed(
            "restoring", folder, "", kill, word="opening", after=chance.uniform(0.0, 0.5)
        )
        studio = open_studio(folder)
        balls = [one for one in studio.record("f0") if isinstance(one.act, ShotArrived)]
        studio.store.close()
        sound(folder, "")
        assert not (folder / PLAN).exists()
        kept += min(len(balls), THEN)
        if len(balls) not in {THEN, THEN + SINCE}:
            half.append(str(kill))
    wanted = kills.count * THEN
    return Outcome(
        moment="restoring",
        database="SQLite",
        kills=kills.count,
        answered=wanted,
        kept=kept,
        lost=() if kept == wanted else ("balls",),
        half=tuple(half),
    )


def more(folder: Path, kill: int) -> None:
    """Bring a studio that stands as its backup has it some balls further."""
    store = open_store(folder)
    balls = [one for one in store.record("f0") if isinstance(one.act, ShotArrived)]
    if len(balls) == THEN:
        for ball in range(SINCE):
            shot = ShotArrived(numbers=ShotNumbers(ball_speed=70.0 + ball), line=f"more {ball}")
            at, key = NOW.replace(hour=1), str(APART * kill + ball)
            store.append("f0", [shot, NotRead()], at=at, by="later", key=key)
    store.close()
