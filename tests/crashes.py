"""Rounds of kills, and what of each was answered for, is there, is missing or is there twice."""

import sqlite3
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random
from typing import Final

import psycopg

from bays import a_bay
from databases import Cluster, end_connections
from doomed import Doomed
from dying import BALLS, FITTING, PARTS, studio_of
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.acts import Entry, HandedOver, ShotArrived
from loftwright.services.acting import act
from loftwright.services.watching import Watches
from loftwright.store.engine import FILE
from loftwright.store.migrate import revision_of
from loftwright.store.postgres import open_postgres, postgres_engine
from loftwright.store.schema import HEAD
from loftwright.store.sqlite import open_store
from old_studios import OldStudio

APART: Final = 100_000
"""Numbers between the first things of two kills."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What some kills of one moment left.

    Attributes
    ----------
    moment, database : str
    answered, kept : int
        Things that were answered for, and things that are there.
    lost, doubled, half : tuple of str
        Things answered for that are missing, things there twice, things there in part.
    """

    moment: str
    database: str
    kills: int
    answered: int
    kept: int
    lost: tuple[str, ...] = ()
    doubled: tuple[str, ...] = ()
    half: tuple[str, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether nothing is missing, doubled or half there."""
        return not (self.lost or self.doubled or self.half)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kills:
    """How often a program is killed, and how much it answers for before.

    Attributes
    ----------
    count : int
    most : int
        Answers before a kill, at most; some moments more may follow them.
    """

    count: int
    most: int

    def drawn(self, chance: Random) -> Iterator[tuple[int, str]]:
        """Yield the number of the first thing that a child does, and its last word but chance."""
        for kill in range(1, self.count + 1):
            first = APART * kill
            answers = chance.randint(0, self.most)
            yield first, str(first + answers - 1) if answers else "open"


def sound(folder: Path, address: str) -> None:
    """Check that the database finds its own tables whole, and their references kept."""
    if address:
        with psycopg.connect(address.replace("+psycopg", "")) as asked:
            broken = asked.execute("SELECT conname FROM pg_constraint WHERE NOT convalidated")
            assert broken.fetchall() == []
        return
    door = sqlite3.connect(folder / FILE)
    assert door.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert door.execute("PRAGMA foreign_key_check").fetchall() == []
    door.close()


def made(
    moment: str, address: str, kills: Kills, answered: set[str], kept: Iterable[str], size: int
) -> Outcome:
    """Return what kills left, from the key of every entry that is there.

    Parameters
    ----------
    size : int
        How many entries one thing is.
    """
    counted = Counter(kept)
    return Outcome(
        moment=moment,
        database="PostgreSQL" if address else "SQLite",
        kills=kills.count,
        answered=len(answered),
        kept=len(counted),
        lost=tuple(sorted(answered - set(counted))),
        doubled=tuple(sorted(key for key, found in counted.items() if found > size)),
        half=tuple(sorted(key for key, found in counted.items() if found < size)),
    )


def with_fitting(folder: Path, address: str) -> str:
    """Make a studio with a fitting under way and return the fitting."""
    folder.mkdir(parents=True, exist_ok=True)
    studio = studio_of(folder, address)
    fitting = a_bay(studio=studio).fitting
    act(studio, fitting, [HandedOver(club="Ash")])
    (folder / FITTING).write_text(fitting)
    studio.store.close()
    return fitting


def record_of(folder: Path, address: str, fitting: str) -> tuple[Entry, ...]:
    """Open a studio again and return a record, whose numbers have no gap."""
    studio = studio_of(folder, address)
    record = studio.store.record(fitting)
    studio.standing(fitting)
    studio.store.close()
    assert [one.sequence for one in record] == list(range(1, len(record) + 1))
    sound(folder, address)
    return record


def kill_writing(
    program: Doomed,
    job: str,
    folder: Path,
    address: str,
    chance: Random,
    kills: Kills,
    meanwhile: Callable[[], None] = lambda: None,
) -> Outcome:
    """Kill a program while it takes balls, or while it marks and undoes."""
    fitting = with_fitting(folder, address)
    answered: set[str] = set()
    for first, word in kills.drawn(chance):
        said = program.killed(
            job,
            folder,
            address,
            first,
            word=word,
            after=chance.uniform(0.0, 0.15),
            meanwhile=meanwhile,
        )
        answered |= {one for one in said if one != "open"}
    keys = [one.key for one in record_of(folder, address, fitting) if one.key]
    size = 4 if job == "marking" else 1
    acts = [one for one in keys if one.isdigit()]
    found = made(job, address, kills, {one for one in answered if one.isdigit()}, acts, size)
    undone = [one for one in keys if not one.isdigit()]
    more = made(job, address, kills, {one for one in answered if not one.isdigit()}, undone, 1)
    return replace(
        found,
        answered=found.answered + more.answered,
        kept=found.kept + more.kept,
        lost=found.lost + more.lost,
        doubled=found.doubled + more.doubled,
        half=found.half + more.half,
    )


def kill_connections(
    program: Doomed, job: str, folder: Path, address: str, chance: Random, kills: Kills
) -> Outcome:
    """Have the database end every connection, and kill the program some moments later."""
    found = kill_writing(
        program,
        job,
        folder,
        address,
        chance,
        kills,
        meanwhile=lambda: end_connections(address),
    )
    return replace(found, moment=f"{found.moment}, connections ended")


def kill_server(
    program: Doomed, job: str, folder: Path, cluster: Cluster, chance: Random, kills: Kills
) -> Outcome:
    """Stop the database at once, as if its machine's power went, and start it again."""
    found = kill_writing(
        program,
        job,
        folder,
        cluster.fresh(),
        chance,
        kills,
        meanwhile=cluster.restart_at_once,
    )
    return replace(found, moment=f"{found.moment}, database stopped at once")


def kill_watching(
    program: Doomed, folder: Path, address: str, chance: Random, kills: Kills
) -> Outcome:
    """Kill a program while it takes a table that grows in a watched folder."""
    fitting = with_fitting(folder, address)
    spool = folder / "spool"
    spool.mkdir()
    studio = studio_of(folder, address)
    Watches(studio).start(fitting, str(spool))
    studio.store.close()
    table = spool / "session.csv"
    table.write_text("club,ball speed (mph),launch angle (deg),spin (rpm)\n")
    rows = 0
    for _ in range(kills.count):
        with table.open("a") as file:
            for _ in range(20):
                rows += 1
                file.write(f"Ash,{100.0 + rows / 100.0:.2f},12.0,2500\n")
        program.killed(
            "watching", folder, address, 0, word="open", after=chance.uniform(0.0, 0.25)
        )
    studio = studio_of(folder, address)
    watches = Watches(studio)
    watches.resume()
    watches.look()
    studio.store.close()
    record = record_of(folder, address, fitting)
    speeds = [
        f"{one.act.numbers.ball_speed / MILE_PER_HOUR:.2f}"
        for one in record
        if isinstance(one.act, ShotArrived) and one.act.numbers.ball_speed is not None
    ]
    wanted = {f"{100.0 + row / 100.0:.2f}" for row in range(1, rows + 1)}
    return made("watched folder", address, kills, wanted, speeds, 1)


def kill_golfers(
    program: Doomed, folder: Path, address: str, chance: Random, kills: Kills
) -> Outcome:
    """Kill a program while it writes golfers down; each that is there can be read whole."""
    with_fitting(folder, address)
    answered: dict[str, str] = {}
    for first, word in kills.drawn(chance):
        said = program.killed(
            "golfers", folder, address, first, word=word, after=chance.uniform(0.0, 0.3)
        )
        answered |= dict(one.split(" ") for one in said if " " in one)
    studio = studio_of(folder, address)
    rack = studio.store.rack()
    names = studio.store.names()
    for golfer, name in names.items():
        own = studio.store.golfer(golfer).value.own
        assert own is None or own in rack.assemblies
        assert name.startswith(("Nobody ", "Ottoline"))
    named = [name.removeprefix("Nobody ") for name in names.values()]
    for number, fitting in answered.items():
        kept = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
        assert studio.store.identity(kept.id).name == f"Nobody {number}"
        assert kept.own in rack.assemblies
    studio.store.close()
    sound(folder, address)
    return made(
        "golfers", address, kills, set(answered), [one for one in named if one.isdigit()], 1
    )


def kill_bringing_up(
    program: Doomed, old: OldStudio, folder: Path, address: str, chance: Random, kills: Kills
) -> Outcome:
    """Kill a program while it brings an old store up; afterwards it is brought up whole."""
    if address:
        old.unpack_into(address)
        old.unpack_keys(folder)
    else:
        old.unpack(folder)
    seen = set()
    for _ in range(kills.count):
        program.killed(
            "bringing_up", folder, address, 0, word="opening", after=chance.uniform(0.0, 0.5)
        )
        seen.add(stands(folder, address))
        sound(folder, address)
    assert seen <= {old.revision, HEAD}
    store = open_postgres(address, folder) if address else open_store(folder)
    records = [store.record(one.value.id) for one in store.fittings()]
    named = {store.identity(one.value.id).name for one in store.golfers()}
    store.close()
    assert stands(folder, address) == HEAD
    assert named == set(old.golfers.values())
    entries = sum(map(len, records))
    wanted = old.rows["acts"] + old.rows["shots"]
    return Outcome(
        moment=f"bringing up {old.name}",
        database="PostgreSQL" if address else "SQLite",
        kills=kills.count,
        answered=wanted,
        kept=entries,
        lost=() if entries >= wanted else ("entries",),
        doubled=() if entries <= wanted else ("entries",),
    )


def stands(folder: Path, address: str) -> str | None:
    """Return the revision at which a store stands, read without this program's opening it."""
    if address:
        engine = postgres_engine(address)
        found = revision_of(engine)
        engine.dispose()
        return found
    door = sqlite3.connect(folder / FILE)
    (found,) = door.execute("SELECT version_num FROM alembic_version").fetchone()
    door.close()
    return str(found)


def kill_recording(program: Doomed, folder: Path, chance: Random, kills: Kills) -> Outcome:
    """Kill a program while it writes fittings into the shop record."""
    from loftwright.shop.record import standing  # noqa: PLC0415 - slow to load, for this alone

    answered: set[str] = set()
    for first, word in kills.drawn(chance):
        said = program.killed(
            "recording", folder, "", first, word=word, after=chance.uniform(0.0, 0.3)
        )
        answered |= {f"f{one}" for one in said if one != "open"}
    kept = [fitting for (fitting, _), count in standing(folder).items() for _ in range(count)]
    drafts = [one for one in folder.glob("part=*/*") if one.name.startswith(".new-")]
    assert len(drafts) <= PARTS
    found = made("shop record", "", kills, answered, kept, BALLS)
    return replace(found, database="files")
