"""A whole run of bays at work: database, one process a bay, what was found afterwards."""

import json
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import httpx

from databases import running
from load_watch import Seen, seen
from loads import BayAtWork, Figures, Pace, lost_or_doubled, work_all
from loftwright.report.records import decision_record, strict
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.settings import change_settings, read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store
from serving import ServerProcess, free_port

SERVE: Final = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
BAYS: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """What a run measured.

    Attributes
    ----------
    processes : tuple of tuple of Seen
        Each server process over the run.
    lost, doubled : int
        Balls.
    differ : tuple of str
        Fittings that a server tells otherwise than a fresh computation from the store.
    """

    figures: Figures
    processes: tuple[tuple[Seen, ...], ...]
    lost: int
    doubled: int
    differ: tuple[str, ...]


@contextmanager
def _store(engine: str, *, waits: bool) -> Iterator[str]:
    """Return the address of a database for a run; empty for a file in the data folder."""
    if engine == "sqlite":
        yield ""
        return
    with running(waits=waits) as cluster:
        yield cluster.fresh()


def run(
    folder: Path,
    pace: Pace,
    *,
    engine: str = "postgresql",
    look_every: float = 60.0,
    waits: bool = False,
    told: Callable[[float], None] = lambda _: None,
) -> Ran:
    """Let six bays work at a pace and return what was measured.

    Parameters
    ----------
    folder : Path
        Data folder of every process.
    pace : Pace
    engine : {"postgresql", "sqlite"}
        A process a bay, or one process for all on a file.
    look_every : float
        Seconds between two looks at the processes.
    waits : bool
        Whether the database waits for the disk.
    told : callable
        Takes the second of the run at every look.
    """
    with _store(engine, waits=waits) as url:
        store = open_postgres(url, folder) if url else open_store(folder)
        studio = Studio(store=store, folder=folder)
        names = tuple(f"Bay {number + 1}" for number in range(BAYS))
        kept = read_settings(studio)
        changed = replace(kept.settings, bays=names)
        change_settings(studio, changed, version=kept.version)
        servers = [
            ServerProcess(SERVE, free_port(), folder, store=url) for _ in range(BAYS if url else 1)
        ]
        figures, looks = Figures(), [list[Seen]() for _ in servers]

        def look(at: float) -> None:
            for server, found in zip(servers, looks, strict=True):
                found.append(seen(server.pid, at))
            told(at)

        try:
            with ThreadPoolExecutor(len(servers)) as starting:
                list(starting.map(lambda one: one.start(), servers))
            bays = [
                BayAtWork(studio, servers[place % len(servers)], name, pace, figures)
                for place, name in enumerate(names)
            ]
            work_all(bays, pace, look, look_every)
            look(pace.seconds)
            lost, doubled = lost_or_doubled(studio, figures)
            differ = tuple(_differing(studio, servers, figures))
        finally:
            for server in servers:
                server.kill()
            studio.store.close()
    return Ran(
        figures=figures,
        processes=tuple(tuple(one) for one in looks),
        lost=lost,
        doubled=doubled,
        differ=differ,
    )


def _differing(studio: Studio, servers: list[ServerProcess], figures: Figures) -> Iterator[str]:
    """Yield the fittings that a server tells otherwise than a fresh computation.

    The last fitting of each bay is asked of every server, the others of one.
    """
    fittings = list(figures.fittings)
    for place, fitting in enumerate(fittings):
        fresh = bay_now(studio, Desk(), fitting)
        wanted = _decision(fresh)
        asked = servers if place >= len(fittings) - BAYS else [servers[place % len(servers)]]
        for server in asked:
            at = f"{server.address}/api/fittings/{fitting}"
            shots = httpx.get(f"{at}/shots", timeout=120.0).json()
            decision = httpx.get(f"{at}/decision", timeout=120.0).json()
            if len(shots) != len(fresh.now.swings):
                yield f"{fitting}: {len(shots)} balls, and {len(fresh.now.swings)} are there"
            if decision != wanted:
                yield f"{fitting}: another decision"


def _decision(fresh: BayNow) -> object:
    evidence, settings = fresh.evidence, fresh.settings
    if evidence.decision is None:
        return None
    record = decision_record(evidence.decision, evidence.table.table, show_of(settings))
    return json.loads(json.dumps(strict(record)))
