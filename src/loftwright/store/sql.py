"""The store in SQL, whatever the database."""

from sqlalchemy import Engine

from loftwright.store.at_work import AtWork
from loftwright.store.bench import Bench
from loftwright.store.fittings import Fittings
from loftwright.store.golfers import Golfers
from loftwright.store.jobs import Jobs
from loftwright.store.keys import KeyRing
from loftwright.store.pieces import Pieces
from loftwright.store.places import Places
from loftwright.store.predictions import Predictions
from loftwright.store.rack import RackItems
from loftwright.store.records import Records
from loftwright.store.shop import Shop
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
    Records,
    Predictions,
    Jobs,
    Shop,
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
