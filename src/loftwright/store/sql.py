"""The store in SQL, whatever the database."""

from pathlib import Path

from sqlalchemy import Engine

from loftwright.store.at_work import AtWork
from loftwright.store.bench import Bench
from loftwright.store.condition import Condition
from loftwright.store.door import Door
from loftwright.store.erasing import Erasing
from loftwright.store.fittings import Fittings
from loftwright.store.golfers import Golfers
from loftwright.store.jobs import Jobs
from loftwright.store.keys import KeyRing
from loftwright.store.overviews import Overviews
from loftwright.store.pieces import Pieces
from loftwright.store.places import Places
from loftwright.store.predictions import Predictions
from loftwright.store.rack import RackItems
from loftwright.store.records import Records
from loftwright.store.shop import Shop
from loftwright.store.snapshot import snapshot
from loftwright.store.taking_back import TakingBack


class SqlStore(
    Golfers,
    RackItems,
    Places,
    Pieces,
    Bench,
    TakingBack,
    Fittings,
    AtWork,
    Overviews,
    Records,
    Predictions,
    Jobs,
    Shop,
    Door,
    Condition,
    Erasing,
):
    """The studio's memory in SQL.

    Parameters
    ----------
    engine : Engine
    keys : KeyRing
    place : str
        What messages call the store.
    """

    def __init__(self, engine: Engine, keys: KeyRing, place: str) -> None:
        super().__init__(engine, place)
        self.keys = keys

    def snapshot(self, file: Path) -> str:
        """Write the store as it stands at one moment into a SQLite file; return its revision."""
        return snapshot(self._engine, file)
