"""What every store can do when somebody is erased."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol


@dataclass(frozen=True, slots=True, kw_only=True)
class ErasedRows:
    """What went out of the tables with a golfer.

    Attributes
    ----------
    golfers, fittings, items : int
        Records of the golfer, fittings, and what the rack held of the golfer's own clubs.
    """

    golfers: int = 0
    fittings: int = 0
    items: int = 0


class ErasingStore(Protocol):
    """A memory that can forget somebody."""

    def golfer_ids(self) -> tuple[str, ...]:
        """Return the id of every golfer, without looking at who it is."""

    def erase_golfers(
        self, gone: Collection[str], *, keeping: Mapping[str, str] = MappingProxyType({})
    ) -> ErasedRows:
        """Remove every row of these records of golfers, all of them or none.

        Fittings of others that took turns with them stand alone. A part that somebody else hit
        stays, as nobody's. Settings that are to be kept instead are written with it.
        """

    def scrub(self) -> None:
        """Have nothing that was deleted left in the store's files.

        Raises `StoreError` if another program reads all the while.
        """
